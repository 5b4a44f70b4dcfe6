"""Where a walk is narrow: places at which there is one way on, and people get stuck."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from grader.grading.replay import Replay, Round
from grader.grading.tiers import default_tiers

__all__ = ["narrow_steps"]

_MOST = 3
"""So many places are pointed out: the hardest."""
_EMPTY = 3
"""Once fewer than one cell in so many is empty, nobody gets stuck for long."""
_OBVIOUS = ("last-cell-of-house", "last-cell-of-cage")
"""Where the one way on is the last cell of a house or a cage, everybody sees it."""


def narrow_steps(played: Replay, rounds_of_steps: Sequence[int | None]) -> frozenset[int]:
    """Return the numbers of the steps, counted from 1, at which a narrow place begins.

    Parameters
    ----------
    played : Replay
        The replay in rounds: its widths do not depend on the order of a walk.
    rounds_of_steps : sequence of int or None
        For each step of the walk, the round of the replay by the end of which it was done.

    Notes
    -----
    A place is a stretch of rounds with one step each. Of all such places the hardest are returned: by the
    hardest tier in them, then by their length. Our own derivation, as are the limits.
    """
    first_step: dict[int, int] = {}
    for number, in_round in enumerate(rounds_of_steps, start=1):
        if in_round is not None:
            first_step.setdefault(in_round, number)
    found = []
    for tier, rounds in _places(played):
        step = next((first_step[number] for number in rounds if number in first_step), None)
        if step is not None:
            found.append((-tier, -len(rounds), step))
    return frozenset(step for *_, step in sorted(found)[:_MOST])


def _places(played: Replay) -> Iterator[tuple[int, list[int]]]:
    """Yield each narrow place: its hardest tier, and the numbers of its rounds."""
    tiers, cells = default_tiers().tier_of, played.layout.grid.cell_count

    def narrow(pair: tuple[int, Round]) -> bool:
        return pair[1].width == 1 and pair[1].empty * _EMPTY >= cells and pair[1].technique not in _OBVIOUS

    for is_narrow, group in groupby(enumerate(played.rounds, start=1), narrow):
        if is_narrow:
            stretch = list(group)
            yield max(tiers[each.technique] for _, each in stretch), [number for number, _ in stretch]

"""Where a walk is narrow: no digit is at hand, or there is one way on, and people get stuck."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from grader.board.steps import WalkStep
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from verifier.walkthrough import wording

__all__ = ["narrow_places"]

_MOST = 3
"""So many places are pointed out: the hardest."""
_EMPTY = 3
"""Once fewer than one cell in so many is empty, nobody gets stuck for long."""
_EASY_TIER = 2
"""Nobody gets stuck over a step of this tier, unless it is the one way on."""


def narrow_places(steps: Sequence[WalkStep]) -> dict[int, str]:
    """Return the numbers of the steps, counted from 1, at which people get stuck, with what is said there.

    Parameters
    ----------
    steps : sequence of WalkStep
        A walk to the solution, as it is told: it removes candidates only where no digit is at hand.

    Notes
    -----
    The hardest places come first: by the hardest tier of the steps that lead to the next digit, then by their
    number. Our own derivation, as are the limits.
    """
    places = sorted(_places(steps), key=lambda place: place[:3])[:_MOST]
    return {number: says for *_, number, says in sorted(places, key=lambda place: place[2])}


def _places(steps: Sequence[WalkStep]) -> Iterator[tuple[int, int, int, str]]:
    """Yield each place: how hard it is, hardest first, its number, and what is said."""
    tiers = default_tiers().tier_of
    for removing, group in groupby(enumerate(steps, start=1), lambda pair: not pair[1].step.places):
        stretch = list(group)
        if removing:
            hardest = max(tiers[taken.step.technique] for _, taken in stretch)
            one_way = stretch[0][1].width == 1
            if one_way or hardest > _EASY_TIER:
                says = wording.NO_DIGIT_ONE_WAY if one_way else wording.NO_DIGIT
                yield -hardest, -len(stretch), stretch[0][0], says
            continue
        for number, taken in stretch:
            if taken.width == 1 and not _obvious(taken) and _is_alone(taken):
                yield 0, 0, number, wording.ONE_WAY


def _obvious(taken: WalkStep) -> bool:
    """Whether everybody sees it, even where it is the one way on: a last cell, a cage, a sum."""
    step, layout = taken.step, taken.board.layout
    return step.technique == "last-cell-of-house" or bool(step.sums or layout.cages_among(step.rules))


def _is_alone(taken: WalkStep) -> bool:
    """Whether no other digit of an easy technique is at hand, and many cells are empty."""
    board, tiers = taken.board, default_tiers().tier_of
    cells = board.layout.grid.cell_count
    if (cells - board.placed.bit_count()) * _EMPTY < cells:
        return False
    looking = board.looking_at(board.layout.all_cells)
    own = dict(taken.step.places).keys()
    return not any(
        dict(step.places).keys() - own
        for technique in LADDER
        if tiers[technique.id] <= _EASY_TIER
        for step in technique.find(looking)
    )

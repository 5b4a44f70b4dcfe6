"""What changes are likely to do, by the footholds they give a solver and by what the replay rests on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import log

from grader.board.steps import Step
from grader.grading.replay import Replay
from grader.grading.tiers import TierTable
from verifier.counting.combinations import how_many
from verifier.diagnosis.repairs.changes import Change
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.rule import Rule

__all__ = ["cells_of_hardest", "help_of"]

_MANY = 20
"""A cage with so many combinations, or more, gives a solver nothing to begin with."""


def help_of(changes: Iterable[Change], hard: Mapping[int, float], digits: int) -> float:
    """Return how much easier changes are likely to make a puzzle; less than 0 where harder.

    Parameters
    ----------
    changes : iterable of Change
        Changes of the puzzle.
    hard : mapping of int to float
        See `cells_of_hardest`.
    digits : int
        The largest digit.

    Notes
    -----
    A cage with few combinations is a foothold: what counts is the best one that comes less the best one that
    goes. Anything else helps the more, the more the hardest steps have to do with its cells. Our own
    derivation: on killers of the reference data, footholds tell changes that lower the tier from those that
    do not in seven pairs of ten, and changes that raise it likewise; the cells of hard steps alone hardly do.

    Examples
    --------
    >>> from verifier.diagnosis.repairs.changes import CageChange
    >>> split = CageChange((Cage((0, 1, 2, 3), 20),), (Cage((0, 1), 3), Cage((2, 3), 17)))
    >>> round(help_of([split], {}, 9), 2)
    2.48
    """
    return sum(
        _foothold(change.come, hard, digits) - _foothold(change.gone, hard, digits) for change in changes
    )


def _foothold(rules: Sequence[Rule], hard: Mapping[int, float], digits: int) -> float:
    return max((_of_one(rule, hard, digits) for rule in rules), default=0.0)


def _of_one(rule: Rule, hard: Mapping[int, float], digits: int) -> float:
    if isinstance(rule, Cage):
        ways = how_many(rule.total, len(rule.cells), digits)
        return max(log(_MANY / max(ways, 1)), 0.0)
    size = len(rule.cells)
    return (
        log(_MANY) * size / (size + 1) * (1 + max((hard.get(cell, 0.0) for cell in rule.cells), default=0.0))
    )


def cells_of_hardest(played: Replay, tiers: TierTable) -> dict[int, float]:
    """Return the cells that the steps of the highest tier have to do with, and with what part of them."""
    top = max((tiers.tier_of[each.technique] for each in played.rounds), default=0)
    hard = [step for each in played.rounds if tiers.tier_of[each.technique] == top for step in each.steps]
    often = Counter(cell for step in hard for cell in set(_cells(step)))
    return {cell: times / len(hard) for cell, times in often.items()}


def _cells(step: Step) -> Iterator[int]:
    yield from step.looks
    yield from (cell for cell, _ in (*step.places, *step.removes))

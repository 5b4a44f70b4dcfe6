"""Which way a wish leads from a puzzle, how far up the ladder to look, and what is nearer."""

from __future__ import annotations

import math
from dataclasses import dataclass

from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.answers import TuningAnswer
from verifier.tuning.search.looking import Ceiling, Look
from verifier.tuning.wish import Wish, WishPart, gaps

__all__ = ["Aim", "aim_from"]

_BEYOND = 1e9
"""More effort than anything takes."""


@dataclass(frozen=True, slots=True)
class Aim:
    """Where a search is going.

    Parameters
    ----------
    wish : Wish
        What the puzzle should be.
    lean : int
        -1 to an easier puzzle, 1 to a harder one, 0 where it may be as it is.
    ceiling : Ceiling
        How far candidates are worked through.
    effort : int
        That of the puzzle as it was set.
    """

    wish: Wish
    lean: int
    ceiling: Ceiling
    effort: int

    def nearness(self, puzzle: Puzzle, look: Look) -> tuple[float, float]:
        """Return how near a candidate with one solution is; smaller is nearer.

        First how far it is from the wish, then its effort: the less the better on the way to an easier
        puzzle, the more to a harder one, else the less it differs. What is beyond the ceiling comes last.
        """
        far = sum(gap.far for gap in gaps(self.wish, puzzle, look.grade))
        if look.grade is None:
            return far, _BEYOND * (1 + look.open)
        effort = look.grade.effort
        return far, -self.lean * effort if self.lean else abs(math.log((effort + 1) / (self.effort + 1)))


def aim_from(before: TuningAnswer, wish: Wish) -> Aim:
    """Return where a search for a wish is going from a sound puzzle."""
    tiers = wish.style.tiers_to_grade_with()
    difficulty = before.verdict.difficulty
    tier = (difficulty and difficulty.tier) or tiers.last
    effort = (difficulty and difficulty.effort) or 0
    lean = _lean(wish, before, tier, effort)
    if wish.tiers:
        ceiling = max(wish.tiers)
    else:
        ceiling = max([tier, *(tiers.tier_of[name] for name in wish.having)])
        if wish.effort is not None and lean > 0:
            ceiling = max(ceiling, tiers.last - 1)
    return Aim(wish, lean, Ceiling(tiers, min(ceiling, tiers.last)), effort)


def _lean(wish: Wish, before: TuningAnswer, tier: int, effort: int) -> int:
    """Return the first way that a part of the wish leads: its tier, its effort, its techniques."""
    missed = {gap.part for gap in before.gaps}
    if wish.tiers and tier not in wish.tiers:
        return _sign(min(wish.tiers, key=lambda wished: abs(wished - tier)) - tier)
    if wish.effort is not None and WishPart.EFFORT in missed:
        return 1 if effort < wish.effort[0] else -1
    return (WishPart.HAVING in missed) - (WishPart.WITHOUT in missed)


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)

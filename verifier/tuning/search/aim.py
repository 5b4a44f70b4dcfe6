"""Which way a wish leads from a puzzle, how far up the ladder to look, and what is nearer."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from math import log

from grader.grading.grade import Grade
from grader.grading.tiers import TierTable
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.answers import TuningAnswer
from verifier.tuning.search.looking import Ceiling, Look
from verifier.tuning.wish import Wish, WishPart, gaps

__all__ = ["Aim", "aim_from"]

_BEYOND = 1e9
"""Further than anything is from a wish."""
_A_NARROW_ROUND = 0.05
"""What a narrow round adds to the logarithm of the effort."""


@dataclass(frozen=True, slots=True)
class Aim:
    """Where a search is going.

    Parameters
    ----------
    wish : Wish
        What the puzzle should be.
    lean : int
        See `lean_of`; that of the puzzle as it was set.
    ceiling : Ceiling
        How far candidates are worked through.
    effort : int
        That of the puzzle as it was set.
    """

    wish: Wish
    lean: int
    ceiling: Ceiling
    effort: int

    def lean_from(self, puzzle: Puzzle, look: Look) -> int:
        """Return which way it goes from a candidate with one solution, see `lean_of`."""
        if look.grade is None:
            return -1
        missed = {gap.part for gap in gaps(self.wish, puzzle, look.grade)}
        return lean_of(self.wish, missed, look.grade.tier, look.grade.effort)

    def nearness(self, puzzle: Puzzle, look: Look) -> tuple[float, ...]:
        """Return how near a candidate with one solution is; smaller is nearer.

        First how far it is from the wish; then how far its level is from that, where a tier is wished for, or
        how often it needs what it should do without; then its effort and its narrow rounds: the less the
        better on the way to an easier puzzle, the more to a harder one, else the less it differs. What is
        beyond the ceiling comes last.

        Notes
        -----
        Our own derivation: for killers of the reference data that two changes can make a tier harder, the
        effort after the first tells best how many second ones will do (rank correlation 0.5 to 0.7 for three
        of four), and narrow rounds add to that.
        """
        missed = gaps(self.wish, puzzle, look.grade)
        far = sum(gap.far for gap in missed)
        if look.grade is None:
            return far, _BEYOND, look.open
        grade, lean = look.grade, self.lean_from(puzzle, look)
        unwanted = sum(grade.by_technique.get(technique, 0) for technique in self.wish.without)
        hardness = log(grade.effort + 1) + _A_NARROW_ROUND * look.narrow
        rest = -lean * hardness if lean else abs(log((grade.effort + 1) / (self.effort + 1)))
        return far, unwanted + self._levels_away(puzzle, grade), rest

    def _levels_away(self, puzzle: Puzzle, grade: Grade) -> float:
        if not self.wish.tiers or grade.tier in self.wish.tiers:
            return 0.0
        level = _level(self.ceiling.tiers, puzzle, grade)
        return min(max(tier - level, level - tier - 1) for tier in self.wish.tiers)


def _level(tiers: TierTable, puzzle: Puzzle, grade: Grade) -> float:
    """Return the tier of a grade with what part it has of all that would lift it by one."""
    if grade.hardest is None:
        return float(grade.tier)
    empty = puzzle.grid.cell_count - len(puzzle.grid.blocked) - len(puzzle.givens)
    steps = grade.steps / empty / tiers.steps_per_cell
    bottlenecks = grade.bottleneck_rounds / (tiers.bottleneck_rounds + 1)
    return tiers.tier_of[grade.hardest] + min(max(steps, bottlenecks), 1.0)


def aim_from(before: TuningAnswer, wish: Wish) -> Aim:
    """Return where a search for a wish is going from a sound puzzle."""
    tiers = wish.style.tiers_to_grade_with()
    difficulty = before.verdict.difficulty
    tier = (difficulty and difficulty.tier) or tiers.last
    effort = (difficulty and difficulty.effort) or 0
    lean = lean_of(wish, {gap.part for gap in before.gaps}, tier, effort)
    if wish.tiers:
        ceiling = max(wish.tiers)
    else:
        ceiling = max([tier, *(tiers.tier_of[name] for name in wish.having)])
        if wish.effort is not None and lean > 0:
            ceiling = max(ceiling, tiers.last - 1)
    return Aim(wish, lean, Ceiling(tiers, min(ceiling, tiers.last)), effort)


def lean_of(wish: Wish, missed: Collection[WishPart], tier: int, effort: int) -> int:
    """Return the first way that a missed part of a wish leads: its tier, its effort, its techniques.

    -1 to an easier puzzle, 1 to a harder one, 0 where it may be as it is.
    """
    if wish.tiers and tier not in wish.tiers:
        return _sign(min(wish.tiers, key=lambda wished: abs(wished - tier)) - tier)
    if wish.effort is not None and WishPart.EFFORT in missed:
        return 1 if effort < wish.effort[0] else -1
    return (WishPart.HAVING in missed) - (WishPart.WITHOUT in missed)


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)

"""The proof that a mended puzzle has exactly one solution: a count, and a second witness who agrees."""

from __future__ import annotations

from dataclasses import dataclass

from grader.grading.grade import Grade, grade
from grader.grading.replay import Outcome, Replay, replay
from verifier.diagnosis.search_budget import COST_OF_ROUND, SearchBudget
from verifier.puzzle.arithmetic import arithmetic_checks
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.recount.recount import Budget, recount_solutions

__all__ = ["Proof", "prove"]

_RECOUNT = 0.05
"""What a recount costs a diagnosis (see `verifier.diagnosis.search_budget`)."""
_CONFLICTS = 50_000
"""A mended puzzle that takes the recount more than this is not offered."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What is known of a puzzle with exactly one solution.

    Parameters
    ----------
    solution : Filling
        The solution.
    tier : int
        How hard the puzzle is.
    tier_name : str
        The tier's name.
    witness : str
        The second witness, ``replay`` or ``clingo``; the first is the count.
    by_trial : bool
        Whether the puzzle needs trial.
    """

    solution: Filling
    tier: int
    tier_name: str
    witness: str
    by_trial: bool


def prove(puzzle: Puzzle, budget: SearchBudget) -> Proof | None:
    """Return the proof that a puzzle has exactly one solution, or None if it has not, or none was found.

    Parameters
    ----------
    puzzle : Puzzle
        Any puzzle.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> proof = prove(make_puzzle("classic", Grid.square(4), givens=givens), SearchBudget())
    >>> proof.solution[:4], proof.tier, proof.witness
    ((1, 2, 3, 4), 1, 'replay')
    """
    if not all(check.passed for check in arithmetic_checks(puzzle)):
        return None
    tally = budget.count(puzzle)
    if not (tally.complete and tally.count == 1):
        return None
    return _seconded(puzzle, tally.solutions[0], budget)


def _seconded(puzzle: Puzzle, solution: Filling, budget: SearchBudget) -> Proof | None:
    """Return the proof if a second witness finds the same solution and no other."""
    played = replay(puzzle, trial=False, deadline=budget.deadline)
    budget.spend(COST_OF_ROUND * len(played.rounds))
    if played.outcome is Outcome.SOLVED:
        return _proof(solution, played, "replay") if played.filling == solution else None
    if played.outcome is not Outcome.STUCK:
        return None
    budget.spend(_RECOUNT)
    recount = recount_solutions(puzzle, 2, Budget(conflicts=_CONFLICTS))
    agreed = recount.complete and recount.solutions == (solution,)
    return _proof(solution, played, recount.witness) if agreed else None


def _proof(solution: Filling, played: Replay, witness: str) -> Proof:
    graded: Grade = grade(played)
    return Proof(solution, graded.tier, graded.name, witness, by_trial=not graded.solved_by_logic)

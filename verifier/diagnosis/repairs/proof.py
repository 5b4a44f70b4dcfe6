"""The proof that a mended puzzle has exactly one solution: a count, and a second witness who agrees."""

from __future__ import annotations

from dataclasses import dataclass

from grader.grading.grade import grade
from verifier.diagnosis.search_budget import SearchBudget
from verifier.evidence.establish import weigh
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Proof", "prove"]

_CONFLICTS = 50_000
"""A mended puzzle that takes the recount more than this is not offered."""
_COST_OF_RECOUNT = 0.05


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
    answers = budget.ask_witnesses(puzzle, conflicts=_CONFLICTS, cost_of_recount=_COST_OF_RECOUNT)
    first = next(answers)
    if first.only_solution is None:
        return None
    evidence = weigh(puzzle, [first, *answers])
    if not evidence.sound or evidence.replay is None:
        return None
    graded = grade(evidence.replay)
    second = evidence.witnesses[-1].name
    return Proof(first.only_solution, graded.tier, graded.name, second, by_trial=not graded.solved_by_logic)

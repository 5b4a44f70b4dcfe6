"""Ask CP-SAT whether, with some premises and nothing else, a claim can be wrong.

Modelled are, for the cells that the premises speak of and no others,

- one digit in each cell, of those open there;
- each digit once in a cited house; at most once where the house has fewer cells than there are digits, and
  in cells of which it is cited that they differ;
- in a cited cage each digit at most once, and the total, as a sum over the digits that the cage uses;
- the other rules that are cited, as `verifier.audit.postings` says;
- that at least one of the claims is wrong.

No solution means that all claims follow. What a solution looks like does not matter.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from ortools.sat.python import cp_model

from verifier.audit.postings import POSTINGS
from verifier.audit.premises import Claim, Premises
from verifier.audit.question import Question

__all__ = ["WORK", "Answer", "prove"]

WORK = 5.0
"""Deterministic units of work for one question; all but whole grids need a thousandth of it."""


class Answer(Enum):
    """The answer to one question."""

    PROVED = "proved"
    """The opposite is impossible."""
    REFUTED = "refuted"
    """With these premises the claim can be wrong."""
    OPEN = "open"
    """The limit was reached before either was shown."""


def prove(premises: Premises, claims: Sequence[Claim], work: float = WORK) -> Answer:
    """Prove claims from premises alone.

    Parameters
    ----------
    premises : Premises
        All that the solver is told.
    claims : sequence of Claim
        What must follow; none at all is refuted, since such a step says nothing.
    work : float, optional
        Limit, in the solver's deterministic units.

    Returns
    -------
    Answer
        The same on every machine.

    Examples
    --------
    >>> from verifier.puzzle.rules.house import House
    >>> row = House("row", 1, (0, 1, 2, 3))
    >>> told = Premises(4, (row,), ((0, (1, 2)), (1, (1, 2))))
    >>> prove(told, [(2, 1, False)]).value, prove(told, [(2, 3, False)]).value
    ('proved', 'refuted')
    """
    if not claims:
        return Answer.REFUTED
    solver = cp_model.CpSolver()
    parameters = solver.parameters
    parameters.num_workers = 1
    parameters.random_seed = 1
    # The models are tiny: whatever makes large ones easier costs more than it saves.
    parameters.cp_model_presolve = False
    parameters.linearization_level = 0
    parameters.symmetry_level = 0
    parameters.max_deterministic_time = work
    parameters.catch_sigint_signal = False
    status = solver.solve(_question(premises, claims).model)
    if status == cp_model.INFEASIBLE:
        return Answer.PROVED
    return Answer.OPEN if status == cp_model.UNKNOWN else Answer.REFUTED


def _question(premises: Premises, claims: Sequence[Claim]) -> Question:
    every = range(1, premises.digits + 1)
    looks = dict(premises.looks)
    question = Question(premises.digits, {cell: looks.get(cell, every) for cell in _cells(premises, claims)})
    for rule in premises.rules:
        POSTINGS[type(rule)](question, rule)
    question.deny(claims)
    return question


def _cells(premises: Premises, claims: Sequence[Claim]) -> list[int]:
    cells = {cell for cell, _ in premises.looks} | {cell for cell, _, _ in claims}
    for rule in premises.rules:
        cells.update(rule.cells)
    return sorted(cells)

"""Ask CP-SAT whether, with some premises and nothing else, a claim can be wrong.

Modelled are, for the cells that the premises speak of and no others,

- one digit in each cell, of those open there;
- each digit once in a cited house; at most once where the house has fewer cells than there are digits, and
  in cells of which it is cited that they differ;
- in a cited cage each digit at most once, and the total, as a sum over the digits that the cage uses;
- the cited sums, and signs between cells;
- that at least one of the claims is wrong.

No solution means that all claims follow. What a solution looks like does not matter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum
from typing import Any

from ortools.sat.python import cp_model

from verifier.audit.premises import Claim, Premises
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.greater import Greater
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.rule import Rule

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
    status = solver.solve(_Model(premises, claims).model)
    if status == cp_model.INFEASIBLE:
        return Answer.PROVED
    return Answer.OPEN if status == cp_model.UNKNOWN else Answer.REFUTED


class _Model:
    """The model of one question; `digit[cell, d]` says that `d` stands in `cell`."""

    def __init__(self, premises: Premises, claims: Sequence[Claim]) -> None:
        self.model = cp_model.CpModel()
        self.digit: dict[tuple[int, int], cp_model.IntVar] = {}
        self.all = range(1, premises.digits + 1)
        looks = dict(premises.looks)
        for cell in _cells(premises, claims):
            self._add_cell(cell, looks.get(cell, self.all))
        for rule in premises.rules:
            POSTINGS[type(rule)](self, rule)
        self._add_denial(claims)

    def _add_cell(self, cell: int, digits: Iterable[int]) -> None:
        own = [self.model.new_bool_var("") for _ in digits]
        self.digit.update(zip(((cell, digit) for digit in digits), own, strict=True))
        self.model.add_exactly_one(own)

    def places(self, cells: Iterable[int], digit: int) -> list[cp_model.IntVar]:
        """Return the variables of a digit in some cells, where it is open."""
        return [self.digit[cell, digit] for cell in cells if (cell, digit) in self.digit]

    def _add_denial(self, claims: Sequence[Claim]) -> None:
        denied = []
        for cell, digit, stands in claims:
            there = self.digit.get((cell, digit))
            if there is not None:
                denied.append(~there if stands else there)
            elif stands:
                denied.append(self.model.new_constant(1))  # it is not open there: the claim is wrong
        self.model.add_bool_or(denied)


def _cells(premises: Premises, claims: Sequence[Claim]) -> list[int]:
    cells = {cell for cell, _ in premises.looks} | {cell for cell, _, _ in claims}
    for rule in premises.rules:
        cells.update(rule.cells)
    return sorted(cells)


def _post_house(question: _Model, house: House) -> None:
    if len(house.cells) < len(question.all):
        _post_different(question, house)
        return
    for digit in question.all:
        question.model.add_exactly_one(question.places(house.cells, digit))


def _post_different(question: _Model, rule: House | Different) -> None:
    for digit in question.all:
        question.model.add_at_most_one(question.places(rule.cells, digit))


def _post_cage(question: _Model, cage: Cage) -> None:
    used = {digit: question.model.new_bool_var("") for digit in question.all}
    for digit, is_used in used.items():
        question.model.add_exactly_one([*question.places(cage.cells, digit), ~is_used])
    question.model.add(sum(used.values()) == len(cage.cells))
    question.model.add(sum(digit * is_used for digit, is_used in used.items()) == cage.total)


def _post_sum(question: _Model, linear: LinearSum) -> None:
    weights = dict(linear.weights)
    terms = [
        weights[cell] * digit * stands for (cell, digit), stands in question.digit.items() if cell in weights
    ]
    question.model.add(sum(terms) == linear.total)


def _post_greater(question: _Model, sign: Greater) -> None:
    more, less = (
        sum(digit * stands for (own, digit), stands in question.digit.items() if own == cell)
        for cell in sign.cells
    )
    question.model.add(more > less)


def _post_chess_move(question: _Model, rule: ChessMove) -> None:
    for pair in rule.pairs:
        for digit in question.all:
            question.model.add_at_most_one(question.places(pair, digit))


def _post_not_consecutive(question: _Model, rule: NotConsecutive) -> None:
    for one, other in rule.pairs:
        for digit in question.all:
            for pair in (((one, digit), (other, digit + 1)), ((one, digit + 1), (other, digit))):
                question.model.add_at_most_one([question.digit[at] for at in pair if at in question.digit])


def _post_given(question: _Model, given: Given) -> None:
    question.model.add_bool_or(question.places(given.cells, given.digit))


POSTINGS: Mapping[type[Rule], Callable[[_Model, Any], None]] = {
    House: _post_house,
    Cage: _post_cage,
    Different: _post_different,
    LinearSum: _post_sum,
    Greater: _post_greater,
    ChessMove: _post_chess_move,
    NotConsecutive: _post_not_consecutive,
    Given: _post_given,
}
"""How each rule is put to the auditor, by its class."""

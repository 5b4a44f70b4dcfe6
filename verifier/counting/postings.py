"""How each rule is put to CP-SAT: one function a rule, in the table `POSTINGS`.

A rule that has no function of its own is posted by what it forbids: each filling of its cells that it does
not hold for, taken from the rule itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Any

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.combinations import combinations_of, how_many
from verifier.counting.proto import (
    add_all_true,
    add_at_most_one,
    add_clause,
    add_exactly_one,
    add_linear,
    holds,
    new_booleans,
)
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.greater import Greater
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = ["MOST_COMBINATIONS", "POSTINGS", "post", "post_cages"]

MOST_COMBINATIONS = 60
"""A cage with more combinations than this is stated as a sum, which costs less than to list them.

In a 9x9 grid no cage has more than 12; in a 25x25 grid a cage of 12 cells can have 110,780.
"""

_MOST_LISTED = 20_000
"""Fillings of its cells that a rule without a function of its own may have."""


def post(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Rule]) -> None:
    """State some rules of one class."""
    POSTINGS.get(type(rules[0]), _post_by_listing)(model, grid, rules)


def post_houses(model: cp_sat.CpModelProto, grid: Grid, houses: Sequence[House]) -> None:
    """State that a house has exactly one place for every digit; with fewer cells than digits, at most one."""
    for house in houses:
        add = add_exactly_one if len(house.cells) == grid.digits else add_at_most_one
        for digit in grid.all_digits:
            add(model, [holds(grid, cell, digit) for cell in house.cells])


def post_different(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Different]) -> None:
    """State that no digit stands twice in some cells."""
    for rule in rules:
        for digit in grid.all_digits:
            add_at_most_one(model, [holds(grid, cell, digit) for cell in rule.cells])


def post_sums(model: cp_sat.CpModelProto, grid: Grid, sums: Sequence[LinearSum]) -> None:
    """State that digits, each with its weight, add up to a total."""
    for rule in sums:
        terms = [(cell, weight, digit) for cell, weight in rule.weights for digit in grid.all_digits]
        literals = [holds(grid, cell, digit) for cell, _, digit in terms]
        add_linear(model, literals, [weight * digit for _, weight, digit in terms], rule.total)


def post_pairs(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[PairRule]) -> None:
    """State of each pair, for every digit in one of its cells, which digits the other may hold then."""
    for rule in rules:
        fitting = {d: [other for other in grid.all_digits if rule.fits(d, other)] for d in grid.all_digits}
        for one, other in rule.pairs:
            for digit, open_then in fitting.items():
                if len(open_then) < grid.digits:
                    then = [holds(grid, other, fit) for fit in open_then]
                    add_clause(model, [~holds(grid, one, digit), *then])


def post_givens(model: cp_sat.CpModelProto, grid: Grid, givens: Sequence[Given]) -> None:
    """State that the givens stand."""
    add_all_true(model, [holds(grid, given.cell, given.digit) for given in givens])


def post_cages(model: cp_sat.CpModelProto, grid: Grid, cages: Sequence[Cage]) -> None:
    """State that the digits of each cage differ and add up to its total."""
    for cage in cages:
        if how_many(cage.total, len(cage.cells), grid.digits) <= MOST_COMBINATIONS:
            _add_combinations(model, grid, cage)
        else:
            _add_sum(model, grid, cage)


def _post_by_listing(model: cp_sat.CpModelProto, grid: Grid, rules: Sequence[Rule]) -> None:
    """State of each rule that its cells take none of the fillings that it does not hold for."""
    for rule in rules:
        if grid.digits ** len(rule.cells) > _MOST_LISTED:
            raise ValueError(f"{rule.word}: a rule over {len(rule.cells)} cells needs a posting of its own")
        filling = [0] * grid.cell_count
        for digits in product(grid.all_digits, repeat=len(rule.cells)):
            for cell, digit in zip(rule.cells, digits, strict=True):
                filling[cell] = digit
            if not rule.holds(tuple(filling)):
                add_clause(model, [~holds(grid, c, d) for c, d in zip(rule.cells, digits, strict=True)])


POSTINGS: Mapping[type[Rule], Callable[[cp_sat.CpModelProto, Grid, Sequence[Any]], None]] = {
    House: post_houses,
    Cage: post_cages,
    Different: post_different,
    LinearSum: post_sums,
    Greater: post_pairs,
    ChessMove: post_pairs,
    NotConsecutive: post_pairs,
    Given: post_givens,
}
"""Who states the rules of each class."""


@dataclass(frozen=True, slots=True)
class _Table:
    """The combinations of a cage, turned around: for each digit, those that lack it.

    Parameters
    ----------
    count : int
        Number of combinations.
    lacking : tuple of (int, list of int)
        For each digit that some combination holds, the numbers of those that lack it.
    never : tuple of int
        The digits that no combination holds.
    """

    count: int
    lacking: tuple[tuple[int, list[int]], ...]
    never: tuple[int, ...]


@lru_cache(maxsize=4096)
def _table(total: int, size: int, digits: int) -> _Table:
    sets = tuple(combinations_of(total, size, digits))
    lacking = {d: [i for i, held in enumerate(sets) if d not in held] for d in range(1, digits + 1)}
    return _Table(
        len(sets),
        tuple((d, numbers) for d, numbers in lacking.items() if len(numbers) < len(sets)),
        tuple(d for d, numbers in lacking.items() if len(numbers) == len(sets)),
    )


def _add_combinations(model: cp_sat.CpModelProto, grid: Grid, cage: Cage) -> None:
    """State a cage by its combinations: one selector each."""
    table = _table(cage.total, len(cage.cells), grid.digits)
    first = new_booleans(model, table.count)
    # Exactly one combination is the cage's; where there is none, this cannot be met.
    add_exactly_one(model, list(range(first, first + table.count)))
    # A digit in no combination is in no cell of the cage (``~`` is how CP-SAT numbers a negation).
    add_all_true(model, [~holds(grid, cell, digit) for digit in table.never for cell in cage.cells])
    # Any other digit is in exactly one cell of the cage, unless the combination is one that lacks it.
    for digit, numbers in table.lacking:
        places = [holds(grid, cell, digit) for cell in cage.cells]
        add_exactly_one(model, places + [first + number for number in numbers])


def _add_sum(model: cp_sat.CpModelProto, grid: Grid, cage: Cage) -> None:
    """State a cage with too many combinations to list by its sum: one Boolean for each digit in it."""
    first = new_booleans(model, grid.digits)
    used = range(first, first + grid.digits)
    # A digit that the cage uses is in exactly one of its cells, any other in none.
    for digit, is_used in zip(grid.all_digits, used, strict=True):
        places = [holds(grid, cell, digit) for cell in cage.cells]
        add_exactly_one(model, [*places, ~is_used])
    # The digits used are as many as the cells and add up to the total.
    add_linear(model, used, [1] * grid.digits, len(cage.cells))
    add_linear(model, used, grid.all_digits, cage.total)

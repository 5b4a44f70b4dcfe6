"""How cages are put to CP-SAT: by their combinations, or by a sum where these are too many to list."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.choices import SetsByDigit, add_choice
from verifier.counting.combinations import combinations_of, how_many
from verifier.counting.proto import (
    add_all_true,
    add_each_exactly_one,
    add_exactly_one,
    add_linear,
    holds,
    new_booleans,
)
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage

__all__ = ["MOST_COMBINATIONS", "post_cages"]

MOST_COMBINATIONS = 60
"""A cage with more combinations than this is stated as a sum, which costs less than to list them.

In a 9x9 grid no cage has more than 12; in a 25x25 grid a cage of 12 cells can have 110,780.
"""


def post_cages(model: cp_sat.CpModelProto, grid: Grid, cages: Sequence[Cage]) -> None:
    """State that the digits of each cage differ and add up to its total."""
    for cage in cages:
        size = len(cage.cells)
        if size == 2:
            _add_pair(model, grid, cage)
        elif how_many(cage.total, size, grid.digits) <= MOST_COMBINATIONS:
            add_choice(model, grid, cage.cells, _combinations(cage.total, size, grid.digits))
        else:
            _add_sum(model, grid, cage)


def _add_pair(model: cp_sat.CpModelProto, grid: Grid, cage: Cage) -> None:
    """State a cage of two cells: what one holds says what the other holds, and no selector is needed."""
    one, other = cage.cells
    same, never = [], []
    for digit in grid.all_digits:
        rest = cage.total - digit
        if rest in grid.all_digits and rest != digit:
            same.append([holds(grid, one, digit), ~holds(grid, other, rest)])
        else:
            never += [~holds(grid, cell, digit) for cell in cage.cells]
    # A digit stands in the first cell exactly where the rest of the total stands in the second.
    add_each_exactly_one(model, same)
    add_all_true(model, never)


@lru_cache(maxsize=4096)
def _combinations(total: int, size: int, digits: int) -> SetsByDigit:
    return SetsByDigit.among(tuple(combinations_of(total, size, digits)), digits)


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

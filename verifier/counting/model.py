"""The CP-SAT model of a puzzle, in Booleans alone.

Rules modelled: every cell holds one digit; every house holds every digit once; the digits of a cage are
all different and add up to its total; the givens stand.

The first variables say which cell holds which digit (`_holds`). Each cage adds a *selector* for each of
its combinations. The model is written straight into the solver's protocol buffer: to make an object of
every literal would take as long as to solve an ordinary killer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.combinations import combinations_of, how_many
from verifier.counting.derived import derived_cages
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__ = ["MOST_COMBINATIONS", "build_model", "filling_of"]

MOST_COMBINATIONS = 60
"""A cage with more combinations than this is stated as a sum, which costs less than to list them.

In a 9x9 grid no cage has more than 12; in a 25x25 grid a cage of 12 cells can have 110,780.
"""


def build_model(puzzle: Puzzle) -> cp_sat.CpModelProto:
    """Return a model whose solutions are the solutions of `puzzle`, one for one.

    Parameters
    ----------
    puzzle : Puzzle
        Any houses, cages and givens, sound or not.

    Returns
    -------
    CpModelProto
        Variable ``cell * digits + digit - 1`` is true where the cell holds the digit. The selectors
        that follow are functions of these, so that no filling is a solution twice.
    """
    grid = puzzle.grid
    model = cp_sat.CpModelProto()
    model.copy_from(_skeleton(grid, puzzle.houses))
    # The givens stand.
    _add_all_true(model, [_holds(grid, cell, digit) for cell, digit in puzzle.givens])
    for cage in (*puzzle.cages, *derived_cages(puzzle)):
        if how_many(cage.total, len(cage.cells), grid.digits) <= MOST_COMBINATIONS:
            _add_combinations(model, grid, cage)
        else:
            _add_sum(model, grid, cage)
    return model


def filling_of(values: Sequence[int], grid: Grid) -> Filling:
    """Return the digit of every cell from the values that a solution gives the variables, in order."""
    firsts = range(0, grid.cell_count * grid.digits, grid.digits)
    return tuple(values.index(1, first, first + grid.digits) - first + 1 for first in firsts)


def _holds(grid: Grid, cell: int, digit: int) -> int:
    """Return the literal that says: the cell holds the digit."""
    return cell * grid.digits + digit - 1


@lru_cache(maxsize=64)
def _skeleton(grid: Grid, houses: tuple[House, ...]) -> cp_sat.CpModelProto:
    """Return what all puzzles on a grid share; it is copied, never changed."""
    model = cp_sat.CpModelProto()
    _new_booleans(model, grid.cell_count * grid.digits)
    # Every cell holds exactly one digit.
    for cell in range(grid.cell_count):
        _add_exactly_one(model, [_holds(grid, cell, digit) for digit in grid.all_digits])
    # Every house has exactly one place for every digit.
    for house in houses:
        for digit in grid.all_digits:
            _add_exactly_one(model, [_holds(grid, cell, digit) for cell in house.cells])
    return model


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
    first = _new_booleans(model, table.count)
    # Exactly one combination is the cage's; where there is none, this cannot be met.
    _add_exactly_one(model, list(range(first, first + table.count)))
    # A digit in no combination is in no cell of the cage (``~`` is how CP-SAT numbers a negation).
    _add_all_true(model, [~_holds(grid, cell, digit) for digit in table.never for cell in cage.cells])
    # Any other digit is in exactly one cell of the cage, unless the combination is one that lacks it.
    for digit, numbers in table.lacking:
        places = [_holds(grid, cell, digit) for cell in cage.cells]
        _add_exactly_one(model, places + [first + number for number in numbers])


def _add_sum(model: cp_sat.CpModelProto, grid: Grid, cage: Cage) -> None:
    """State a cage with too many combinations to list by its sum: one Boolean for each digit in it."""
    first = _new_booleans(model, grid.digits)
    used = range(first, first + grid.digits)
    # A digit that the cage uses is in exactly one of its cells, any other in none.
    for digit, is_used in zip(grid.all_digits, used, strict=True):
        places = [_holds(grid, cell, digit) for cell in cage.cells]
        _add_exactly_one(model, [*places, ~is_used])
    # The digits used are as many as the cells and add up to the total.
    _add_linear(model, used, [1] * grid.digits, len(cage.cells))
    _add_linear(model, used, grid.all_digits, cage.total)


def _new_booleans(model: cp_sat.CpModelProto, count: int) -> int:
    """Add Boolean variables and return the literal of the first."""
    first = len(model.variables)
    model.merge_from(_booleans(count))
    return first


@lru_cache(maxsize=1024)
def _booleans(count: int) -> cp_sat.CpModelProto:
    """Return a model of so many Booleans and nothing else; it is merged, never changed."""
    model = cp_sat.CpModelProto()
    for _ in range(count):
        model.variables.add().domain.extend([0, 1])
    return model


def _add_exactly_one(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    model.constraints.add().exactly_one.literals.extend(literals)


def _add_all_true(model: cp_sat.CpModelProto, literals: list[int]) -> None:
    model.constraints.add().bool_and.literals.extend(literals)


def _add_linear(
    model: cp_sat.CpModelProto, variables: Sequence[int], weights: Sequence[int], total: int
) -> None:
    linear = model.constraints.add().linear
    linear.vars.extend(variables)
    linear.coeffs.extend(weights)
    linear.domain.extend([total, total])

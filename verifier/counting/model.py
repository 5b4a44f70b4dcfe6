"""The CP-SAT model of a puzzle, in Booleans alone.

Every cell that is not blocked holds one digit, and every rule is stated as `verifier.counting.postings` says.
The first variables say which cell holds which digit; what a rule adds are functions of these.
"""

from __future__ import annotations

from functools import lru_cache

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.cage_postings import post_cages
from verifier.counting.derived import derived_cages
from verifier.counting.postings import post
from verifier.counting.proto import add_all_true, add_exactly_one, holds, new_booleans
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule

__all__ = ["build_model", "filling_of"]


def build_model(puzzle: Puzzle) -> cp_sat.CpModelProto:
    """Return a model whose solutions are the solutions of `puzzle`, one for one.

    Parameters
    ----------
    puzzle : Puzzle
        Any rules, sound or not.

    Returns
    -------
    CpModelProto
        Variable ``cell * digits + digit - 1`` is true where the cell holds the digit. The variables that
        follow are functions of these, so that no filling is a solution twice.
    """
    grid = puzzle.grid
    model = cp_sat.CpModelProto()
    model.copy_from(_skeleton(grid, puzzle.houses))
    by_class: dict[type[Rule], list[Rule]] = {Given: []}  # what is known comes before what is to be found
    for rule in puzzle.rules:
        if type(rule) is not House:
            by_class.setdefault(type(rule), []).append(rule)
    for rules in by_class.values():
        if rules:
            post(model, grid, rules)
    post_cages(model, grid, derived_cages(puzzle))
    return model


def filling_of(values: str, grid: Grid) -> Filling:
    """Return the digit of every cell from the values of the variables in order, ``0`` and ``1``."""
    filling = [0] * grid.cell_count
    for cell in grid.cells:
        first = cell * grid.digits
        filling[cell] = values.index("1", first, first + grid.digits) - first + 1
    return tuple(filling)


@lru_cache(maxsize=64)
def _skeleton(grid: Grid, houses: tuple[House, ...]) -> cp_sat.CpModelProto:
    """Return what all puzzles on a grid share; it is copied, never changed."""
    model = cp_sat.CpModelProto()
    new_booleans(model, grid.cell_count * grid.digits)
    # Every cell holds exactly one digit, a blocked one none.
    for cell in grid.cells:
        add_exactly_one(model, [holds(grid, cell, digit) for digit in grid.all_digits])
    add_all_true(model, [~holds(grid, cell, digit) for cell in grid.blocked for digit in grid.all_digits])
    if houses:
        post(model, grid, houses)
    return model

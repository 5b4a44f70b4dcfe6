"""Sums step by step: for each sum that the first cells of a list can make, a Boolean that says they make it.

A sum over Booleans is weak: it knows nothing of the one digit a cell. Stated step by step, all that each cell
leaves to the others is seen at once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import add_clause, add_exactly_one, holds, new_booleans
from verifier.puzzle.grid import Grid

__all__ = ["add_running_sum"]


def add_running_sum(
    model: cp_sat.CpModelProto, grid: Grid, cells: Sequence[int], most: int
) -> Mapping[int, int]:
    """State what cells add up to, digits repeated or not.

    Parameters
    ----------
    model : CpModelProto
        What is stated is added to it.
    grid : Grid
        The grid of the cells.
    cells : sequence of int
        At least one.
    most : int
        They may not add up to more.

    Returns
    -------
    mapping of int to int
        For each sum up to `most` the literal that says that they make it; exactly one of them is true.
    """
    first, *others = cells
    made = {digit: holds(grid, first, digit) for digit in grid.all_digits if digit <= most}
    if len(made) < grid.digits:
        add_exactly_one(model, list(made.values()))
    for place, cell in enumerate(others, start=2):
        sums = range(place, min(most, place * grid.digits) + 1)
        numbered = dict(zip(sums, range(new_booleans(model, len(sums)), len(model.variables)), strict=True))
        add_exactly_one(model, list(numbered.values()))
        for before, literal in made.items():
            for digit in grid.all_digits:
                after = numbered.get(before + digit)
                then = [] if after is None else [after]
                add_clause(model, [~literal, ~holds(grid, cell, digit), *then])
        made = numbered
    return made

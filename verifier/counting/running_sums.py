"""Sums step by step: for each sum that the first cells of a list can make, a Boolean that says they make it.

A sum over Booleans is weak: it knows nothing of the one digit a cell. Stated step by step, all that each cell
leaves to the others is seen at once. For the small sums of cages that costs more than it saves; where little
else is known, as with the diagonals of a hard puzzle, the count is twice as fast.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.proto import (
    add_clause,
    add_exactly_one,
    add_linear,
    holds,
    new_booleans,
)
from verifier.puzzle.grid import Grid

__all__ = ["add_running_sum", "add_total", "add_weighted_sum", "takes_few_steps"]

_MOST_STEPS = 10_000
"""Sums with one digit more that are stated one by one; in a 9x9 grid no diagonal takes as many."""


def takes_few_steps(grid: Grid, cells: Sequence[int], most: int) -> bool:
    """Whether a sum is best stated step by step: very many steps cost more than they save."""
    sums = sum(min(most, place * grid.digits) for place in range(1, len(cells)))
    return sums * grid.digits <= _MOST_STEPS


def add_total(model: cp_sat.CpModelProto, grid: Grid, cells: Sequence[int], total: int) -> None:
    """State that the digits of some cells, repeated or not, add up to a total."""
    if not takes_few_steps(grid, cells, total):
        add_weighted_sum(model, grid, [(cell, 1) for cell in cells], total)
        return
    if len(cells) <= total <= grid.digits * len(cells):
        add_running_sum(model, grid, cells, total, total)
    else:
        add_clause(model, [])


def add_weighted_sum(
    model: cp_sat.CpModelProto, grid: Grid, weights: Sequence[tuple[int, int]], total: int
) -> None:
    """State that the digits of some cells, each with its weight, add up to a total."""
    terms = [(cell, weight, digit) for cell, weight in weights for digit in grid.all_digits]
    literals = [holds(grid, cell, digit) for cell, _, digit in terms]
    add_linear(model, literals, [weight * digit for _, weight, digit in terms], total)


def add_running_sum(
    model: cp_sat.CpModelProto, grid: Grid, cells: Sequence[int], least: int, most: int
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
    least, most : int
        They may not add up to less, nor to more.

    Returns
    -------
    mapping of int to int
        For each sum the literal that says that they make it; exactly one of them is true.
    """
    made: dict[int, int] = {}
    for place, cell in enumerate(cells, start=1):
        left = len(cells) - place
        low, high = max(place, least - left * grid.digits), min(place * grid.digits, most - left)
        if place == 1:
            made = {digit: holds(grid, cell, digit) for digit in grid.all_digits if low <= digit <= high}
        else:
            made = _add_cell(model, grid, cell, made, range(low, high + 1))
        add_exactly_one(model, list(made.values()))
    return made


def _add_cell(
    model: cp_sat.CpModelProto, grid: Grid, cell: int, made: Mapping[int, int], sums: range
) -> dict[int, int]:
    """State what a cell makes of each sum before it; return the literals of the new sums."""
    first = new_booleans(model, len(sums))
    numbered = {total: first + number for number, total in enumerate(sums)}
    for before, literal in made.items():
        for digit in grid.all_digits:
            after = numbered.get(before + digit)
            then = [] if after is None else [after]
            add_clause(model, [~literal, ~holds(grid, cell, digit), *then])
    return numbered

"""Symmetries of a grid: where each turn or mirror takes a cell."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from verifier.puzzle.grid import Grid

__all__ = ["SYMMETRIES", "partners", "unmatched"]

_Place = tuple[int, int]

SYMMETRIES: dict[str, Callable[[Grid, int, int], _Place]] = {
    "half-turn": lambda grid, row, column: (grid.rows - 1 - row, grid.columns - 1 - column),
    "quarter-turn": lambda grid, row, column: (column, grid.rows - 1 - row),
    "left-right": lambda grid, row, column: (row, grid.columns - 1 - column),
    "top-bottom": lambda grid, row, column: (grid.rows - 1 - row, column),
    "diagonal": lambda _, row, column: (column, row),
    "antidiagonal": lambda grid, row, column: (grid.columns - 1 - column, grid.rows - 1 - row),
}
"""Where each symmetry takes a row and a column (counted from 0). The mirrors bear the name of what they swap;
``diagonal`` mirrors in the line from r1c1 to the far corner, ``antidiagonal`` in the other one."""


def partners(symmetry: str, grid: Grid) -> tuple[int, ...]:
    """Return for each cell the cell that a symmetry takes it to.

    Examples
    --------
    >>> grid = Grid.square(4)
    >>> [grid.cell_name(partners(name, grid)[1]) for name in ("half-turn", "left-right", "diagonal")]
    ['r4c3', 'r1c3', 'r2c1']
    """
    place = SYMMETRIES[symmetry]
    moved = (place(grid, cell // grid.columns, cell % grid.columns) for cell in range(grid.cell_count))
    return tuple(row * grid.columns + column for row, column in moved)


def unmatched(symmetry: str, grid: Grid, cells: Iterable[int]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of a cell and its partner where only the first is among `cells`.

    Examples
    --------
    >>> unmatched("half-turn", Grid.square(4), [0, 15, 1])
    ((1, 14),)
    """
    chosen = set(cells)
    partner = partners(symmetry, grid)
    return tuple((cell, partner[cell]) for cell in sorted(chosen) if partner[cell] not in chosen)

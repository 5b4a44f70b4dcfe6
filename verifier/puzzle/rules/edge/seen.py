"""From where clues at the edge look into the grid."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["SIDES", "line_name", "side_of", "whole_diagonal"]

SIDES = {"row": ("left", "right"), "column": ("top", "bottom")}
"""The sides from which each kind of line can be seen: first that where it begins."""


def line_name(cells: tuple[int, ...], grid: Grid) -> str:
    """Return the name of the row or column in which cells lie.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> line_name((8, 9, 10, 11), Grid.square(4)), line_name((13, 9, 5, 1), Grid.square(4))
    ('row 3', 'column 2')
    """
    row, column = divmod(cells[0], grid.columns)
    return f"row {row + 1}" if _is_row(cells, grid) else f"column {column + 1}"


def side_of(cells: tuple[int, ...], grid: Grid) -> str:
    """Return the side from which the cells of a line are seen in their order.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> side_of((8, 9, 10, 11), Grid.square(4)), side_of((13, 9, 5, 1), Grid.square(4))
    ('left', 'bottom')
    """
    return SIDES["row" if _is_row(cells, grid) else "column"][cells[0] > cells[-1]]


def whole_diagonal(first: int, next_cell: int, grid: Grid) -> tuple[int, ...]:
    """Return the diagonal on which two cells follow one another, from edge to edge in their direction.

    Empty where the two do not touch at a corner.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> whole_diagonal(6, 11, Grid.square(4)), whole_diagonal(10, 7, Grid.square(4))
    ((1, 6, 11), (13, 10, 7))
    >>> whole_diagonal(0, 1, Grid.square(4)), whole_diagonal(3, 8, Grid.square(4))
    ((), ())
    """
    (row, column), (next_row, next_column) = divmod(first, grid.columns), divmod(next_cell, grid.columns)
    down, across = next_row - row, next_column - column
    if abs(down) != 1 or abs(across) != 1:
        return ()
    back = min(row if down > 0 else grid.rows - 1 - row, column if across > 0 else grid.columns - 1 - column)
    row, column = row - back * down, column - back * across
    cells = []
    while 0 <= row < grid.rows and 0 <= column < grid.columns:
        cells.append(row * grid.columns + column)
        row, column = row + down, column + across
    return tuple(cells)


def _is_row(cells: tuple[int, ...], grid: Grid) -> bool:
    return cells[0] // grid.columns == cells[-1] // grid.columns

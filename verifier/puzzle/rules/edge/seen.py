"""From where clues at the edge look into the grid."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["SIDES", "line_name", "side_of"]

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


def _is_row(cells: tuple[int, ...], grid: Grid) -> bool:
    return cells[0] // grid.columns == cells[-1] // grid.columns

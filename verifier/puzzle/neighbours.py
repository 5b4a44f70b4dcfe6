"""Which cells have a common border, and into how many pieces cells fall."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from verifier.puzzle.grid import Grid

__all__ = ["BESIDE", "apart", "beside", "in_one_piece", "pieces", "touch"]


BESIDE = ((0, 1), (1, 0))
"""How far down and across the moves lead that join neighbours in a row or column; see `apart`."""


def beside(grid: Grid, cell: int) -> list[int]:
    """Return the cells that have a border in common with a cell, in reading order.

    Examples
    --------
    >>> beside(Grid.square(4), 5), beside(Grid.square(4), 3)
    ([1, 4, 6, 9], [2, 7])
    """
    row, column = divmod(cell, grid.columns)
    places = ((row - 1, column), (row, column - 1), (row, column + 1), (row + 1, column))
    return [r * grid.columns + c for r, c in places if 0 <= r < grid.rows and 0 <= c < grid.columns]


def touch(grid: Grid, one: int, other: int) -> bool:
    """Whether two cells have a border or a corner in common.

    Examples
    --------
    >>> grid = Grid.square(4)
    >>> touch(grid, 0, 5), touch(grid, 3, 4), touch(grid, 5, 5)
    (True, False, False)
    """
    (row, column), (other_row, other_column) = divmod(one, grid.columns), divmod(other, grid.columns)
    return one != other and abs(row - other_row) <= 1 and abs(column - other_column) <= 1


def apart(grid: Grid, moves: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of cells that one of some moves leads from one to the other, in reading order.

    Parameters
    ----------
    grid : Grid
        Blocked cells are in no pair.
    moves : iterable of (int, int)
        How far down and across; nothing leads up, nor to the left in the same row.

    Examples
    --------
    >>> apart(Grid.square(4), [(2, 1), (2, -1)])[:3]
    ((0, 9), (1, 8), (1, 10))
    """
    rows, columns, cells = grid.rows, grid.columns, set(grid.cells)
    steps = [(down, across) for down, across in moves]
    pairs = [
        (cell, cell + down * columns + across)
        for cell in grid.cells
        for down, across in steps
        if cell // columns + down < rows and 0 <= cell % columns + across < columns
    ]
    return tuple(sorted(pair for pair in pairs if pair[1] in cells))


def in_one_piece(grid: Grid, cells: Collection[int]) -> bool:
    """Whether one can go from any of the cells to any other through common borders.

    Examples
    --------
    >>> grid = Grid.square(4)
    >>> in_one_piece(grid, [0, 1, 5]), in_one_piece(grid, [0, 5]), in_one_piece(grid, [])
    (True, False, False)
    """
    return len(pieces(grid, cells)) == 1


def pieces(grid: Grid, cells: Collection[int]) -> tuple[tuple[int, ...], ...]:
    """Return the cells piece by piece; inside a piece one can go from any cell to any other.

    Examples
    --------
    >>> pieces(Grid.square(4), [0, 1, 5, 10, 11])
    ((0, 1, 5), (10, 11))
    """
    left = sorted(cells)
    found = []
    while left:
        reached = left[:1]
        for cell in reached:
            reached += [near for near in beside(grid, cell) if near in left and near not in reached]
        left = [cell for cell in left if cell not in reached]
        found.append(tuple(sorted(reached)))
    return tuple(found)

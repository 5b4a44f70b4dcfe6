"""Which cells have a common border, and into how many pieces cells fall."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import combinations

from verifier.puzzle.grid import Grid

__all__ = [
    "BESIDE",
    "apart",
    "around",
    "beside",
    "connected",
    "cuts",
    "in_one_piece",
    "pieces",
    "squares",
    "touch",
]


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


def around(grid: Grid, cell: int) -> list[int]:
    """Return the cells to be filled that touch a cell, corners included, in reading order.

    Examples
    --------
    >>> around(Grid.square(4), 0), around(Grid.square(4), 7)
    ([1, 4, 5], [2, 3, 6, 10, 11])
    """
    row, column = divmod(cell, grid.columns)
    rows, columns = range(max(row - 1, 0), min(row + 2, grid.rows)), range(column - 1, column + 2)
    near = [r * grid.columns + c for r in rows for c in columns if 0 <= c < grid.columns]
    return [other for other in near if other != cell and other not in grid.blocked]


def squares(grid: Grid) -> list[tuple[int, int, int, int]]:
    """Return the blocks of two rows by two columns, in reading order.

    Examples
    --------
    >>> squares(Grid.square(4))[:3]
    [(0, 1, 4, 5), (1, 2, 5, 6), (2, 3, 6, 7)]
    """
    corners = (cell for cell in grid.cells if cell % grid.columns + 1 < grid.columns)
    blocks = ((cell, cell + 1, cell + grid.columns, cell + grid.columns + 1) for cell in corners)
    return [block for block in blocks if block[-1] < grid.cell_count]


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
    return _pieces(grid, tuple(sorted(cells)))


@lru_cache(maxsize=4096)
def _pieces(grid: Grid, cells: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return what `pieces` does; of most puzzles, boxes and small cages have been asked about before."""
    left = list(cells)
    found = []
    while left:
        reached = left[:1]
        for cell in reached:
            reached += [near for near in beside(grid, cell) if near in left and near not in reached]
        left = [cell for cell in left if cell not in reached]
        found.append(tuple(sorted(reached)))
    return tuple(found)


def cuts(grid: Grid, cells: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield the pieces with the first of some cells that leave another piece; even cuts first.

    Each has two cells at least: a cage of one cell would be a given in disguise.

    Examples
    --------
    >>> list(cuts(Grid.square(4), (0, 1, 4, 5)))
    [(0, 1), (0, 4)]
    """
    sizes = sorted(range(2, len(cells) - 1), key=lambda size: (abs(2 * size - len(cells)), size))
    for size in sizes:
        for others in combinations(cells[1:], size - 1):
            piece = (cells[0], *others)
            rest = [cell for cell in cells if cell not in piece]
            if in_one_piece(grid, piece) and in_one_piece(grid, rest):
                yield piece


def connected(grid: Grid, cells: Sequence[int], size: int) -> list[tuple[int, ...]]:
    """Return every set of so many cells in one piece, in reading order.

    Examples
    --------
    >>> connected(Grid.square(4), [0, 1, 4, 10], 2)
    [(0, 1), (0, 4)]
    """
    inside = set(cells)
    layer: set[tuple[int, ...]] = {(cell,) for cell in cells}
    for _ in range(size - 1):
        layer = {
            tuple(sorted((*piece, near)))
            for piece in layer
            for cell in piece
            for near in beside(grid, cell)
            if near in inside and near not in piece
        }
    return sorted(layer)

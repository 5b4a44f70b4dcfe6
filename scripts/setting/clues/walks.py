"""Random walks over a grid, from cell to touching cell, none twice."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from random import Random

from scripts.setting.chance import shuffled
from verifier.puzzle.grid import Grid

__all__ = ["touching", "walks"]

_STARTS = 5000
"""Walks that are begun before one gives up."""


def touching(grid: Grid, cell: int) -> list[int]:
    """Return the cells that touch a cell, corners included, in reading order.

    Examples
    --------
    >>> touching(Grid.square(4), 0), len(touching(Grid.square(4), 5))
    ([1, 4, 5], 8)
    """
    row, column = divmod(cell, grid.columns)
    return [
        r * grid.columns + c
        for r in range(max(0, row - 1), min(grid.rows, row + 2))
        for c in range(max(0, column - 1), min(grid.columns, column + 2))
        if (r, c) != (row, column)
    ]


def walks(
    grid: Grid, length: int, rng: Random, goes_on: Callable[[Sequence[int], int], bool]
) -> Iterator[tuple[int, ...]]:
    """Yield random walks, until very many have been begun.

    Parameters
    ----------
    grid : Grid
        Where they go.
    length : int
        How many cells each has.
    rng : Random
        Seeded by the caller.
    goes_on : callable
        Whether a walk so far may go on to a cell; of an empty one, whether it may begin there.

    Examples
    --------
    >>> next(walks(Grid.square(4), 3, Random(1), lambda walk, cell: cell < 3))
    (0, 1, 2)
    """
    for _ in range(_STARTS):
        walk: list[int] = []
        while len(walk) < length:
            near = touching(grid, walk[-1]) if walk else grid.cells
            fitting = [cell for cell in near if cell not in walk and goes_on(walk, cell)]
            if not fitting:
                break
            walk.append(shuffled(fitting, rng)[0])
        else:
            yield tuple(walk)

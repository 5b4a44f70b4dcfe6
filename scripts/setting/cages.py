"""Random cages drawn on a full grid."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

from scripts.setting.chance import pick_weighted, shuffled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.rules.cage import Cage

__all__ = ["draw_cages", "totalled"]


def draw_cages(grid: Grid, filling: Filling, sizes: Mapping[int, float], rng: Random) -> list[Cage]:
    """Divide the whole grid into cages, each in one piece and with different digits.

    Parameters
    ----------
    grid : Grid
        Size and boxes.
    filling : tuple of int
        The solution, which gives the totals.
    sizes : mapping of int to float
        How often each number of cells is aimed at; where a cage cannot grow so far, it stays smaller, and
        a cell left alone joins a neighbour if it can.
    rng : Random
        Seeded by the caller.

    Examples
    --------
    >>> from scripts.setting.grids import full_grid
    >>> grid, rng = Grid.square(6), Random(1)
    >>> cages = draw_cages(grid, full_grid(grid, rng), {2: 1, 3: 1}, rng)
    >>> sum(cage.total for cage in cages), len({cell for cage in cages for cell in cage.cells})
    (126, 36)
    """
    free = set(range(grid.cell_count))
    drawn: list[list[int]] = []
    for start in shuffled(range(grid.cell_count), rng):
        if start in free:
            cells = _grown(grid, filling, start, pick_weighted(sizes, rng), free, rng)
            free -= set(cells)
            drawn.append(cells)
    return totalled(_without_lone_cells(grid, filling, drawn, max(sizes)), filling)


def totalled(groups: list[list[int]], filling: Filling) -> list[Cage]:
    """Return the groups of cells as cages with the totals that `filling` gives them."""
    return [Cage(tuple(sorted(cells)), sum(filling[cell] for cell in cells)) for cells in sorted(groups)]


def _grown(grid: Grid, filling: Filling, start: int, size: int, free: set[int], rng: Random) -> list[int]:
    cells, digits = [start], {filling[start]}
    while len(cells) < size:
        edge = {n for cell in cells for n in beside(grid, cell) if n in free and n not in cells}
        fitting = shuffled((cell for cell in sorted(edge) if filling[cell] not in digits), rng)
        if not fitting:
            break
        cells.append(fitting[0])
        digits.add(filling[fitting[0]])
    return cells


def _without_lone_cells(
    grid: Grid, filling: Filling, drawn: list[list[int]], largest: int
) -> list[list[int]]:
    """Join each cage of one cell to the smallest neighbour that can take it; a cage of one is a given."""
    cages = [list(cells) for cells in drawn if len(cells) > 1]
    for cell in (cells[0] for cells in drawn if len(cells) == 1):
        near = [c for c in cages if set(beside(grid, cell)) & set(c)]
        fitting = [c for c in near if len(c) < largest and filling[cell] not in {filling[o] for o in c}]
        if fitting:
            min(fitting, key=lambda c: (len(c), c)).append(cell)
        else:
            cages.append([cell])
    return cages

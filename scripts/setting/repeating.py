"""Random killers in some of whose cages digits may repeat, and some of which have no total."""

from __future__ import annotations

from random import Random

from scripts.setting.chance import pick_weighted, shuffled
from scripts.setting.grids import full_grid
from scripts.setting.plain import Exhausted, find_solutions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["draw_repeating"]

_SIZES = {2: 3.0, 3: 3.0, 4: 2.0, 5: 1.0}
_TRIES = 2000
"""Tries of the plain search before a draft counts as too loose and one of its cells is given."""


def draw_repeating(grid: Grid, seed: int, untold: float = 0.0) -> tuple[Puzzle, Filling]:
    """Draw cages over most of the grid, and give cells until the plain search finds one solution.

    Parameters
    ----------
    grid : Grid
        Size and boxes.
    seed : int
        The same seed gives the same killer.
    untold : float
        Share of the cages with different digits that have no total.

    Examples
    --------
    >>> from scripts.setting.plain import plain_count
    >>> puzzle, _ = draw_repeating(Grid.square(4), 1)
    >>> plain_count(puzzle), len(puzzle.repeating_cages) > 0
    (1, True)
    """
    rng = Random(seed)
    filling = full_grid(grid, rng)
    groups = [cells for cells in _groups(grid, rng) if len(cells) > 1]
    cages = [_cage(cells, filling, told=rng.random() >= untold) for cells in groups]
    givens: dict[int, int] = {}
    while True:
        puzzle = make_puzzle("killer", grid, clues=cages, givens=givens)
        try:
            other = next((found for found in find_solutions(puzzle, _TRIES) if found != filling), None)
        except Exhausted:
            other = tuple(givens.get(cell, 0) for cell in grid.cells)
        if other is None:
            return puzzle, filling
        cell = rng.choice([cell for cell in grid.cells if other[cell] != filling[cell]])
        givens[cell] = filling[cell]


def _groups(grid: Grid, rng: Random) -> list[list[int]]:
    """Return the cells of the grid in groups that grow as they come, whatever stands in them."""
    free = set(grid.cells)
    groups = []
    for start in shuffled(grid.cells, rng):
        if start not in free:
            continue
        cells, size = [start], pick_weighted(_SIZES, rng)
        free.remove(start)
        while len(cells) < size and (edge := _edge(grid, cells) & free):
            cells.append(rng.choice(sorted(edge)))
            free.remove(cells[-1])
        groups.append(sorted(cells))
    return groups


def _edge(grid: Grid, cells: list[int]) -> set[int]:
    return {near for cell in cells for near in beside(grid, cell)}


def _cage(cells: list[int], filling: Filling, *, told: bool) -> Rule:
    digits = [filling[cell] for cell in cells]
    if len(set(digits)) < len(digits):
        return LinearSum(tuple((cell, 1) for cell in cells), sum(digits))
    return Cage(tuple(cells), sum(digits)) if told else Different(tuple(cells))

"""Random classics: givens are taken from a full grid as long as it stays the only solution."""

from __future__ import annotations

from random import Random

from scripts.setting.chance import shuffled
from scripts.setting.grids import full_grid
from scripts.setting.plain import Exhausted, plain_count
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle

__all__ = ["draw_classic"]


def draw_classic(
    grid: Grid, seed: int, givens: int, *, tries: int = 2000, symmetric: bool = True
) -> tuple[Puzzle, Filling]:
    """Draw a classic.

    Parameters
    ----------
    grid : Grid
        Size and boxes.
    seed : int
        The same seed gives the same classic.
    givens : int
        How many givens to aim at; there are more where none can go any more.
    tries : int
        How long the plain search may look for a second solution; 1 keeps to puzzles that need no try.
    symmetric : bool
        Whether the givens lie in half-turn symmetry. Without it fewer are left, and more is needed.

    Examples
    --------
    >>> puzzle, _ = draw_classic(Grid.square(4), 1, 6)
    >>> len(puzzle.givens), plain_count(puzzle)
    (6, 1)
    """
    rng = Random(seed)
    filling = full_grid(grid, rng)
    left = dict(enumerate(filling))
    last = grid.cell_count - 1
    for cell in shuffled(range(grid.cell_count // 2 if symmetric else grid.cell_count), rng):
        gone = (cell, last - cell) if symmetric else (cell,)
        fewer = {c: digit for c, digit in left.items() if c not in gone}
        if len(left) > givens and _only_one(grid, fewer, tries):
            left = fewer
    return make_puzzle("classic", grid, givens=left), filling


def _only_one(grid: Grid, givens: dict[int, int], tries: int) -> bool:
    try:
        return plain_count(make_puzzle("classic", grid, givens=givens), tries=tries) == 1
    except Exhausted:
        return False

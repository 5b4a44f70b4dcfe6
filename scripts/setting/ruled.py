"""Random puzzles with houses and rules of any kind, and with no more givens than it takes."""

from __future__ import annotations

from random import Random

from scripts.setting.chance import shuffled
from scripts.setting.plain import Exhausted, count_within, find_solutions
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["draw_ruled"]

_SCATTERED = 8
"""Cells in which a digit is tried at random, so that fillings are not all alike."""

_PATIENCE = 3000
"""Tries of the plain search for one filling."""


def draw_ruled(empty: Puzzle, seed: int, *, more: int = 0, tries: int = 300) -> tuple[Puzzle, Filling]:
    """Give a puzzle as many givens as leave one solution.

    Parameters
    ----------
    empty : Puzzle
        Its houses and rules.
    seed : int
        The same seed gives the same puzzle.
    more : int
        Givens that stay though they could go.
    tries : int
        How long the plain search may look for a second solution.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> puzzle, _ = draw_ruled(make_puzzle("classic", grid, houses=(*grid.houses, *grid.diagonals)), 1)
    >>> count_within(puzzle, 300)
    1
    """
    rng = Random(seed)
    filling = _filling(empty, rng)
    left = [Given(cell, filling[cell]) for cell in empty.grid.cells]
    order = shuffled(left, rng)
    for given in order[: len(order) - more]:
        fewer = [other for other in left if other != given]
        if count_within(empty.changed([], fewer), tries) == 1:
            left = fewer
    return empty.changed([], left), filling


def _filling(empty: Puzzle, rng: Random) -> Filling:
    while True:
        cells = rng.sample(empty.grid.cells, _SCATTERED)
        scattered = [Given(cell, rng.choice(empty.grid.all_digits)) for cell in cells]
        try:
            found = next(find_solutions(empty.changed([], scattered), _PATIENCE), None)
        except Exhausted:
            continue
        if found is not None:
            return found

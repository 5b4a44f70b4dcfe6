"""Random puzzles with houses, rules and clues of any kind, and with no more givens than it takes."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain, repeat
from random import Random
from types import MappingProxyType

from scripts.setting.chance import shuffled
from scripts.setting.clues.drawing import drawn_clues
from scripts.setting.grids import full_grid
from scripts.setting.plain import Exhausted, count_within, find_solutions
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["draw_ruled", "random_filling"]

_SCATTERED = 8
"""Cells in which a digit is tried at random at first, so that fillings are not all alike."""

_PATIENCE = 3000
"""Tries of the plain search for one filling."""


def draw_ruled(
    empty: Puzzle,
    seed: int,
    clues: Mapping[str, int] = MappingProxyType({}),
    *,
    more: int = 0,
    tries: int = 300,
) -> tuple[Puzzle, Filling]:
    """Give a puzzle clues, and as many givens as leave one solution.

    Parameters
    ----------
    empty : Puzzle
        Its houses and rules.
    seed : int
        The same seed gives the same puzzle.
    clues : mapping of str to int
        How many clues of each kind, by the words of `scripts.setting.clues.drawing.CLUES`.
    more : int
        Givens that stay though they could go.
    tries : int
        How long the plain search may look for a second solution.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> empty = make_puzzle("classic", grid, houses=(*grid.houses, *grid.diagonals))
    >>> puzzle, _ = draw_ruled(empty, 1, {"thermometer": 1})
    >>> count_within(puzzle, 300), [rule.word for rule in puzzle.rules if rule.word == "thermometer"]
    (1, ['thermometer'])
    """
    rng = Random(seed)
    filling = random_filling(empty, rng)
    bare = empty.changed([], drawn_clues(clues, empty, filling, rng))
    left = [Given(cell, filling[cell]) for cell in empty.grid.cells]
    order = shuffled(left, rng)
    for given in order[: len(order) - more]:
        fewer = [other for other in left if other != given]
        if count_within(bare.changed([], fewer), tries) == 1:
            left = fewer
    return bare.changed([], left), filling


def random_filling(empty: Puzzle, rng: Random) -> Filling:
    """Return a random filling; where rules leave few, fewer digits of it are tried at random each time."""
    if empty.rules == empty.grid.houses:
        return full_grid(empty.grid, rng)
    for scattered in chain(range(_SCATTERED, 1, -1), repeat(1, _PATIENCE)):
        cells = rng.sample(empty.grid.cells, scattered)
        begun = [Given(cell, rng.choice(empty.grid.all_digits)) for cell in cells]
        try:
            found = next(find_solutions(empty.changed([], begun), _PATIENCE), None)
        except Exhausted:
            continue
        if found is not None:
            return found
    raise ValueError("no filling obeys the rules, or they leave very few")

"""Puzzles that the tests of both counts use."""

from __future__ import annotations

from random import Random

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["EMPTY_4X4", "UNIQUE_4X4", "killer_25x25"]

EMPTY_4X4 = make_puzzle("classic", Grid.square(4))

UNIQUE_4X4 = make_puzzle(
    "killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((3, 7), 6), Cage((9, 13), 4), Cage((14, 15), 3)]
)


def killer_25x25(share_given: float, cells: int = 12) -> tuple[Puzzle, Filling]:
    """Two cages of 12 cells in every box of a 25x25 grid, and a share of the cells given."""
    grid, random = Grid.square(25), Random(1)
    shuffled = random.sample(grid.all_digits, grid.digits)
    filling = tuple(shuffled[(5 * (r % 5) + r // 5 + c) % 25] for r in range(25) for c in range(25))
    parts = [
        house.cells[first : first + cells]
        for house in grid.houses
        if house.kind == "box"
        for first in range(0, grid.digits - cells + 1, cells)
    ]
    cages = [Cage(part, sum(filling[c] for c in part)) for part in parts]
    givens = {c: digit for c, digit in enumerate(filling) if random.random() < share_given}
    return make_puzzle("killer", grid, cages=cages, givens=givens), filling

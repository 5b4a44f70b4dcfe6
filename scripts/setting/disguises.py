"""Puzzles in disguise: the same at bottom, another file."""

from __future__ import annotations

from random import Random

from scripts.setting.chance import shuffled
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["disguised"]


def disguised(puzzle: Puzzle, rng: Random) -> Puzzle:
    """Return a puzzle with its lines reordered inside bands and stacks, and these reordered too.

    Cages may then lie in pieces; number of solutions, tier and steps stay what they are.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)])
    >>> [cage.total for cage in disguised(puzzle, Random(1)).cages]
    [3]
    """
    grid = puzzle.grid
    rows = _order(grid.rows, grid.box_rows, rng)
    columns = _order(grid.columns, grid.box_columns, rng)
    place = {
        row * grid.columns + column: rows[row] * grid.columns + columns[column]
        for row in range(grid.rows)
        for column in range(grid.columns)
    }
    return make_puzzle(
        puzzle.kind,
        grid,
        cages=[Cage(tuple(place[cell] for cell in cage.cells), cage.total) for cage in puzzle.cages],
        givens=[(place[cell], digit) for cell, digit in puzzle.givens],
    )


def _order(lines: int, band: int, rng: Random) -> list[int]:
    bands = shuffled(range(lines // band), rng)
    return [band * b + line for b in bands for line in shuffled(range(band), rng)]

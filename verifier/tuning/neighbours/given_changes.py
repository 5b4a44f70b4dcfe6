"""A given more, a given less."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.diagnosis.repairs.changes import Change, given_change
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["given_changes"]


def given_changes(puzzle: Puzzle, solution: Filling, most: int) -> Iterator[Change]:
    """Yield each given that can go, and each that can come where there may be so many.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid, solution = Grid.square(4), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> puzzle = make_puzzle("classic", grid, givens={0: 1, 1: 2})
    >>> [change.says(grid) for change in given_changes(puzzle, solution, most=2)]
    ['Take out the given 1 in r1c1.', 'Take out the given 2 in r1c2.']
    >>> len(list(given_changes(puzzle, solution, most=3)))
    16
    """
    given = dict(puzzle.givens)
    yield from (given_change(cell, digit, None) for cell, digit in given.items())
    if len(given) < most:
        for cell in puzzle.grid.cells:
            if cell not in given:
                yield given_change(cell, None, solution[cell])

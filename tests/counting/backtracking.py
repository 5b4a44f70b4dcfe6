"""A third way to count: the plainest search there is, cell by cell in reading order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["first_solutions"]


def first_solutions(puzzle: Puzzle, limit: int) -> tuple[Filling, ...]:
    """Return the smallest solutions of a small puzzle, at most `limit`, in order."""
    return tuple(islice(_completed(puzzle, ()), limit))


def _completed(puzzle: Puzzle, so_far: Filling) -> Iterator[Filling]:
    if len(so_far) == puzzle.grid.cell_count:
        yield so_far
        return
    for digit in puzzle.grid.all_digits:
        if _fits(puzzle, (*so_far, digit)):
            yield from _completed(puzzle, (*so_far, digit))


def _fits(puzzle: Puzzle, filled: Filling) -> bool:
    """Whether the last cell filled breaks no rule that can be judged by now."""
    cell = len(filled) - 1
    if any(given != filled[cell] for c, given in puzzle.givens if c == cell):
        return False
    groups = [house.cells for house in puzzle.houses] + [cage.cells for cage in puzzle.cages]
    for cells in groups:
        if cell in cells and any(filled[c] == filled[cell] for c in cells if c < cell):
            return False
    for cage in puzzle.cages:
        if cell in cage.cells:
            digits = [filled[c] for c in cage.cells if c <= cell]
            if sum(digits) > cage.total or (len(digits) == len(cage.cells) and sum(digits) != cage.total):
                return False
    return True

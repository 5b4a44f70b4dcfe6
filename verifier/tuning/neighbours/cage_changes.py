"""Cages drawn otherwise: one split, two joined, a cell moved, a cage more or less; totals follow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from verifier.diagnosis.repairs.cells import cell_moves
from verifier.diagnosis.repairs.changes import CageChange, Change
from verifier.puzzle.cage_layout import bare_cells, cages_side_by_side
from verifier.puzzle.grid import Filling
from verifier.puzzle.neighbours import connected, cuts
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import repeated

__all__ = ["cage_changes"]

_LARGEST_SPLIT = 9
"""A larger cage has too many ways to be cut."""
_ADDED = (2, 3)
"""Cells of a cage that is added."""


def cage_changes(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    """Yield each change of the cages of a killer that its solution allows.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid, solution = Grid.square(4), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> puzzle = make_puzzle("killer", grid, cages=[Cage((0, 1, 4, 5), 10), Cage((2, 3), 7)])
    >>> next(cage_changes(puzzle, solution)).says(grid)
    'Split the cage of 10 at r1c1 in two: r1c1 r1c2 = 3 and r2c1 r2c2 = 7.'
    """
    if puzzle.kind != "killer":
        return
    yield from _splits(puzzle, solution)
    yield from _joins(puzzle, solution)
    yield from _moves(puzzle, solution)
    yield from _additions(puzzle, solution)
    yield from (CageChange((cage,), ()) for cage in puzzle.cages)


def _drawn(cells: tuple[int, ...], solution: Filling) -> Cage:
    return Cage(cells, sum(solution[cell] for cell in cells))


def _splits(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    for cage in puzzle.cages:
        if len(cage.cells) <= _LARGEST_SPLIT:
            for piece in cuts(puzzle.grid, cage.cells):
                rest = tuple(cell for cell in cage.cells if cell not in piece)
                yield CageChange((cage,), (_drawn(piece, solution), _drawn(rest, solution)))


def _joins(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    for pair in cages_side_by_side(puzzle):
        cells = tuple(sorted(cell for cage in pair for cell in cage.cells))
        if not repeated(cells, solution):
            yield CageChange(pair, (_drawn(cells, solution),))


def _moves(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    for move in cell_moves(puzzle):
        digit = solution[move.cell]
        fits = move.new is None or digit not in {solution[cell] for cell in move.new.cells}
        if fits and (move.old is None or len(move.old.cells) > 1):
            yield replace(move, digit=digit)


def _additions(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    given = dict(puzzle.givens)
    bare = [cell for cell in bare_cells(puzzle) if cell not in given]
    for size in _ADDED:
        for cells in connected(puzzle.grid, bare, size):
            if not repeated(cells, solution):
                yield CageChange((), (_drawn(cells, solution),))

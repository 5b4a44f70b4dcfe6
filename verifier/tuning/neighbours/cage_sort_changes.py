"""Cages that may repeat digits, or have no total: one more, one less, a cell more or less, another sort."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.diagnosis.repairs.changes import Change, RuleChange
from verifier.diagnosis.repairs.sorts_of_cages import SortChange
from verifier.puzzle.cage_layout import bare_cells, cage_of_sort
from verifier.puzzle.grid import Filling
from verifier.puzzle.neighbours import beside, connected, in_one_piece
from verifier.puzzle.puzzle import KAKURO, Puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["cage_sort_changes"]

_LEAST, _ADDED = 2, (2, 3)
"""Cells of a cage, and those of one that is added."""


def cage_sort_changes(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    """Yield each change of cages with repeats or without a total that the solution allows.

    Sorts that the puzzle does not have do not come in; a total may always come.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid, solution = Grid.square(4), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> puzzle = make_puzzle("killer", grid, clues=[Different((0, 1, 2))])
    >>> for change in list(cage_sort_changes(puzzle, solution))[:4]:
    ...     print(change.says(grid))
    Give the cage r1c1, r1c2 and r1c3 the total 6.
    Take out the cage without a total in r1c1, r1c2 and r1c3.
    Take r1c1 off the cage without a total in r1c1, r1c2 and r1c3.
    Take r1c3 off the cage without a total in r1c1, r1c2 and r1c3.
    """
    for sort in (Different, LinearSum):
        cages = [cage for cage in rules_of(puzzle.rules, sort) if cage.is_cage]
        for cage in cages:
            yield from _as_sort(cage, Cage, solution)
            yield from _resized(cage, puzzle, solution) if puzzle.kind != KAKURO else ()
        if cages and puzzle.kind != KAKURO:
            for plain in puzzle.cages:
                yield from _as_sort(plain, sort, solution)
            for size in _ADDED:
                for cells in connected(puzzle.grid, bare_cells(puzzle), size):
                    yield from (RuleChange(None, new) for new in _drawn(cells, sort, solution))


def _drawn(cells: tuple[int, ...], sort: type[Rule], solution: Filling) -> Iterator[Rule]:
    """Yield a cage of a sort as it reads in the solution, if its digits differ or need not."""
    if sort is LinearSum or not repeated(cells, solution):
        total = None if sort is Different else sum(solution[cell] for cell in cells)
        yield cage_of_sort(cells, total, repeats=sort is LinearSum)


def _as_sort(cage: Rule, sort: type[Rule], solution: Filling) -> Iterator[Change]:
    yield from (SortChange(cage, new) for new in _drawn(cage.cells, sort, solution))


def _resized(cage: Rule, puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    """Yield the cage taken out, then in one piece with a cell less, and with a bare cell more."""
    yield RuleChange(cage, None)
    less = (tuple(other for other in cage.cells if other != cell) for cell in cage.cells)
    shorter = (cells for cells in less if len(cells) >= _LEAST and in_one_piece(puzzle.grid, cells))
    near = {other for cell in cage.cells for other in beside(puzzle.grid, cell)}
    longer = ((*cage.cells, cell) for cell in bare_cells(puzzle) if cell in near)
    for cells in (*shorter, *longer):
        yield from (RuleChange(cage, new) for new in _drawn(cells, type(cage), solution))

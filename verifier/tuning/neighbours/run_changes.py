"""A kakuro changed: a total hidden or shown, a cell blocked, freed, or both; the totals follow.

What a map can draw stays so: each run has a blocked cell before it, for its total to stand in.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from verifier.diagnosis.repairs.changes import CageChange, Change
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import repeated
from verifier.puzzle.run_layout import before, runs_without_total, stretches, totals_of
from verifier.tuning.neighbours.runs_redrawn import RunsRedrawn, with_blocks

__all__ = ["run_changes"]

_Cells = tuple[int, ...]


def run_changes(puzzle: Puzzle, solution: Filling) -> Iterator[Change]:
    """Yield each change of the runs of a kakuro that keeps the solution of all cells that stay.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid(3, 4, 0, 0, 9, blocked=(0, 1, 2, 3, 4, 8))
    >>> runs = [((5, 6, 7), 6), ((9, 10, 11), 15), ((5, 9), 5), ((6, 10), 7), ((7, 11), 9)]
    >>> puzzle = make_puzzle("kakuro", grid, houses=(), cages=[Cage(*run) for run in runs])
    >>> for change in run_changes(puzzle, (0, 0, 0, 0, 0, 1, 2, 3, 0, 4, 5, 6)):
    ...     print(change.says(grid))
    Block r2c2. That makes the cage of 5 across at r2c3.
    Block r2c3.
    Block r2c4. That makes the cage of 3 across at r2c2.
    Block r3c2. That makes the cage of 11 across at r3c3.
    Block r3c3.
    Block r3c4. That makes the cage of 9 across at r3c2.
    """
    if puzzle.kind == KAKURO:
        drawn = totals_of(puzzle) is not None
        yield from _totals(puzzle, solution, drawn)
        yield from _blocks(puzzle, solution, drawn)


def _totals(puzzle: Puzzle, solution: Filling, drawn: bool) -> Iterator[Change]:
    """Yield each run that can go with its total, and each that can come.

    Where a map draws the runs, all of two cells or more have to have their totals; a single cell need not.
    """
    runs = {run.cells for run in (*puzzle.cages, *runs_without_total(puzzle))}
    for cage in puzzle.cages:
        alone = drawn and len(cage.cells) > 1
        if not alone and _all_in_runs(cage.cells, runs - {cage.cells}, puzzle):
            yield CageChange((cage,), ())
    for cells, across in stretches(puzzle.grid):
        if (
            cells not in runs
            and not repeated(cells, solution)
            and _has_head(puzzle.grid, cells, across, drawn)
        ):
            yield CageChange((), (_run(cells, solution),))


def _all_in_runs(cells: Iterable[int], runs: set[_Cells], puzzle: Puzzle) -> bool:
    """Whether each of some cells lies in one of these runs, or has its digit given."""
    return set(cells) <= {cell for run in runs for cell in run}.union(cell for cell, _ in puzzle.givens)


def _has_head(grid: Grid, cells: _Cells, across: bool, drawn: bool) -> bool:
    """Whether a blocked cell lies before a run; without a map none is needed."""
    return not drawn or before(grid, cells[0], across=across) in grid.blocked


def _run(cells: _Cells, solution: Filling) -> Cage:
    return Cage(cells, sum(solution[cell] for cell in cells))


def _blocks(puzzle: Puzzle, solution: Filling, drawn: bool) -> Iterator[Change]:
    """Yield the ways to block or free a cell, and to move a blocked cell by one.

    There are none where the runs are not what the blocked cells make of them: nobody knows then what those
    of another grid would be.
    """
    whole = {cells for cells, _ in stretches(puzzle.grid) if len(cells) > 1}
    if whole != {cage.cells for cage in puzzle.cages if len(cage.cells) > 1}:
        return
    for freed, blocked in _places(puzzle):
        grid = with_blocks(puzzle.grid, freed, blocked)
        runs = list(stretches(grid))
        if not all(_has_head(grid, *run, drawn) for run in runs if len(run.cells) > 1):
            continue
        become = {cells for cells, _ in runs if len(cells) > 1}
        stay = become.union(run.cells for run in runs if _has_head(grid, *run, drawn))
        gone = tuple(cage for cage in puzzle.cages if cage.cells not in stay)
        touched = {cell for cage in gone for cell in cage.cells}.union(freed).difference(blocked)
        new = [run.cells for run in runs if run.cells in become - whole]
        known = [tuple(cell for cell in cells if cell not in freed) for cells in new]
        if _all_in_runs(touched, become, puzzle) and not any(repeated(cells, solution) for cells in known):
            for digits in _fitting(freed, become, solution, grid):
                change = RunsRedrawn(freed, blocked, gone, (), digits)
                after = change.solution_after(solution)
                yield replace(change, after=tuple(_run(cells, after) for cells in new))


def _places(puzzle: Puzzle) -> Iterator[tuple[_Cells, _Cells]]:
    """Yield the cells to be freed and those to be blocked: one, the other, or both side by side."""
    given = {cell for cell, _ in puzzle.givens}
    open_to_block = [cell for cell in puzzle.grid.cells if cell not in given]
    yield from (((), (new,)) for new in open_to_block)
    for old in puzzle.grid.blocked:
        yield (old,), ()
        yield from (((old,), (new,)) for new in beside(puzzle.grid, old) if new in open_to_block)


def _fitting(freed: _Cells, runs: set[_Cells], solution: Filling, grid: Grid) -> Iterator[tuple[int, ...]]:
    """Yield the digits with which a freed cell repeats none of its runs; nothing where none is freed."""
    if not freed:
        yield ()
    for cell in freed:
        taken = {solution[other] for run in runs if cell in run for other in run}
        yield from ((digit,) for digit in grid.all_digits if digit not in taken)

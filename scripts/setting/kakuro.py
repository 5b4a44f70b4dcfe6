"""Random kakuros: digits are changed until their totals leave one solution. Broken ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from random import Random

from scripts.setting.broken import Broken
from scripts.setting.chance import shuffled
from scripts.setting.plain import Exhausted, find_solutions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import KAKURO, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.run_layout import stretches

__all__ = ["draw_kakuro", "total_left_out", "totals_apart"]

_DIGITS = 9
_PATIENCE = 400
"""Changes of a digit before another filling is taken."""
_TRIES = 60
"""Tries of the plain search for a second solution."""


def draw_kakuro(rows: int, columns: int, seed: int, share: float, longest: int) -> tuple[Puzzle, Filling]:
    """Draw a kakuro with one solution.

    Parameters
    ----------
    rows, columns : int
        Blocked cells counted too; the first row and the first column are blocked.
    seed : int
        The same seed gives the same puzzle.
    share : float
        How many of the other cells are to be filled, at least.
    longest : int
        Cells of the longest run.

    Examples
    --------
    >>> puzzle, filling = draw_kakuro(5, 5, 1, 0.6, 4)
    >>> [found == filling for found in find_solutions(puzzle)]
    [True]
    """
    rng = Random(seed)
    while True:
        grid = _drawn_grid(rows, columns, rng, share, longest)
        runs = [cells for cells, _ in stretches(grid)]
        filling = _settled(grid, runs, rng)
        if filling is not None:
            return _puzzle(grid, runs, filling), tuple(filling)


def _drawn_grid(rows: int, columns: int, rng: Random, share: float, longest: int) -> Grid:
    """Return a grid in which every run has 2 to `longest` cells and all of them hang together."""
    edge = [cell for cell in range(rows * columns) if cell < columns or cell % columns == 0]
    inner = [cell for cell in range(rows * columns) if cell not in set(edge)]
    while True:
        blocked = set(edge)
        for cell in shuffled(inner, rng):
            if len(inner) - len(blocked) + len(edge) <= share * len(inner):
                break
            pair = {cell, inner[len(inner) - 1 - inner.index(cell)]}
            if _fits(Grid(rows, columns, 0, 0, _DIGITS, tuple(sorted(blocked | pair)))):
                blocked |= pair
        grid = Grid(rows, columns, 0, 0, _DIGITS, tuple(sorted(blocked)))
        if all(len(cells) <= longest for cells, _ in stretches(grid)):
            return grid


def _fits(grid: Grid) -> bool:
    return all(len(cells) > 1 for cells, _ in stretches(grid)) and in_one_piece(grid, grid.cells)


def _settled(grid: Grid, runs: Sequence[tuple[int, ...]], rng: Random) -> list[int] | None:
    """Return digits whose totals leave one solution; None where changing them leads nowhere."""
    peers: dict[int, set[int]] = {cell: set() for cell in grid.cells}
    for cells in runs:
        for cell in cells:
            peers[cell].update(other for other in cells if other != cell)
    filling = _filled(grid, peers, rng)
    swing = None if filling is None else _swing(grid, runs, filling)
    for _ in range(_PATIENCE):
        if filling is None or swing is None:
            return None
        if not swing:
            return filling
        cell = rng.choice(swing)
        open_digits = set(grid.all_digits) - {filling[peer] for peer in peers[cell]} - {filling[cell]}
        if not open_digits:
            continue
        changed = list(filling)
        changed[cell] = rng.choice(sorted(open_digits))
        left = _swing(grid, runs, changed)
        if left is not None and len(left) <= len(swing):
            filling, swing = changed, left
    return None


def _filled(grid: Grid, peers: Mapping[int, set[int]], rng: Random) -> list[int] | None:
    """Return random digits of which no two of a run are equal; None where they do not come out."""
    filling = [0] * grid.cell_count
    for cell in grid.cells:
        open_digits = set(grid.all_digits) - {filling[peer] for peer in peers[cell]}
        if not open_digits:
            return None
        filling[cell] = rng.choice(sorted(open_digits))
    return filling


def _swing(grid: Grid, runs: Sequence[tuple[int, ...]], filling: list[int]) -> list[int] | None:
    """Return the cells in which two solutions differ, if there are two; None where the search gives up."""
    found = find_solutions(_puzzle(grid, runs, filling), _TRIES)
    try:
        for other in found:
            if list(other) != filling:
                return [cell for cell in grid.cells if other[cell] != filling[cell]]
    except Exhausted:
        return None
    return []


def _puzzle(grid: Grid, runs: Sequence[tuple[int, ...]], filling: Sequence[int]) -> Puzzle:
    cages = [Cage(cells, sum(filling[cell] for cell in cells)) for cells in runs]
    return make_puzzle(KAKURO, grid, houses=(), cages=cages)


def totals_apart(puzzle: Puzzle, seed: int) -> Broken:
    """Change a total by one that its run can still make: across and down then disagree."""
    rng = Random(seed)
    for cage in shuffled(puzzle.cages, rng):
        size, total = len(cage.cells), cage.total + rng.choice((-1, 1))
        if size * (size + 1) <= 2 * total <= size * (2 * _DIGITS + 1 - size):
            broken = puzzle.changed([cage], [replace(cage, total=total)])
            run = " ".join(map(puzzle.grid.cell_name, cage.cells))
            return Broken(broken, f"the run {run} got {total} for {cage.total}", ("run-sum",))
    raise ValueError("no total that can be changed by one: take another seed")


def total_left_out(puzzle: Puzzle, seed: int) -> Broken:
    """Leave a total out. It follows from the others, since across and down agree: one solution stays."""
    cage = shuffled(puzzle.cages, Random(seed))[0]
    broken = puzzle.changed([cage], [Different(cage.cells)])
    run = " ".join(map(puzzle.grid.cell_name, cage.cells))
    return Broken(broken, f"the total of the run {run} was left out", ("run-total",), solutions=1)

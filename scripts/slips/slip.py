"""One slip of the pen in a sound killer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import permutations, product
from random import Random

from verifier.diagnosis.repairs.changes import (
    CageChange,
    CellMove,
    Change,
    changed,
    given_change,
    total_change,
)
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside, in_one_piece, pieces
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["SLIPS", "Slip"]

_MOST_OFF = 9
"""A slipped total is off by 1 to 9."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A broken puzzle, and what was meant.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle as it was sent in.
    meant : Puzzle
        The puzzle before the slip; the true repair leads back to it.
    """

    puzzle: Puzzle
    meant: Puzzle


def _slipped(meant: Puzzle, *changes: Change) -> Slip:
    return Slip(changed(meant, changes), meant)


def _total(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One total is off by 1 to 9."""
    cage = random.choice([cage for cage in puzzle.cages if len(cage.cells) > 1])
    nearby = range(max(1, cage.total - _MOST_OFF), cage.total + _MOST_OFF + 1)
    return _slipped(puzzle, total_change(cage, random.choice([t for t in nearby if t != cage.total])))


def _exchange(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """Two totals have changed places."""
    one = random.choice(puzzle.cages)
    other = random.choice([cage for cage in puzzle.cages if cage.total != one.total])
    return _slipped(puzzle, total_change(one, other.total), total_change(other, one.total))


def _cell(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One cell was drawn into the neighbouring cage; the cage it left is still in one piece."""
    grid = puzzle.grid
    moves = [
        CellMove(cell, old, new)
        for old, new in permutations(puzzle.cages, 2)
        for cell in old.cells
        if len(new.cells) < grid.digits
        and any(near in new.cells for near in beside(grid, cell))
        and in_one_piece(grid, _but(old, cell))
    ]
    return _slipped(puzzle, random.choice(moves))


def _given(puzzle: Puzzle, solution: Filling, random: Random) -> Slip:
    """One given is wrong; two right ones are put in beside it."""
    wrong, *right = random.sample(range(puzzle.grid.cell_count), 3)
    digit = random.choice([digit for digit in puzzle.grid.all_digits if digit != solution[wrong]])
    old = dict(puzzle.givens)
    meant = changed(puzzle, [given_change(cell, old.get(cell), solution[cell]) for cell in (wrong, *right)])
    return _slipped(meant, given_change(wrong, solution[wrong], digit))


def _shared_mark(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One mark was used for two cages that do not touch; its total is that of one of them."""
    pairs = [
        (one, other)
        for one, other in permutations(puzzle.cages, 2)
        if len(pieces(puzzle.grid, (*one.cells, *other.cells))) == 2
    ]
    one, other = random.choice(pairs)
    both = Cage((*one.cells, *other.cells), one.total)
    return _slipped(puzzle, CageChange((one, other), (both,)))


def _two_cells(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """Two cells bear each other's mark: typed in the wrong order, or with a border drawn wrong.

    In the first case they stand side by side in a row; in the second both cages stay in one piece.
    """
    grid, typed = puzzle.grid, random.random() < 1 / 2
    ways = [
        (cell, one, twin, other)
        for one, other in permutations((cage for cage in puzzle.cages if len(cage.cells) > 1), 2)
        for cell, twin in product(one.cells, other.cells)
        if (_side_by_side(grid, cell, twin) if typed else _in_pieces_neither(grid, cell, one, twin, other))
    ]
    cell, one, twin, other = random.choice(ways)
    left, grown = Cage(tuple(_but(one, cell)), one.total), Cage(_plus(other, cell), other.total)
    return _slipped(puzzle, CellMove(cell, one, other), CellMove(twin, grown, left))


def _side_by_side(grid: Grid, cell: int, twin: int) -> bool:
    return twin == cell + 1 and twin % grid.columns > 0


def _in_pieces_neither(grid: Grid, cell: int, one: Cage, twin: int, other: Cage) -> bool:
    return in_one_piece(grid, [*_but(one, cell), twin]) and in_one_piece(grid, [*_but(other, twin), cell])


def _forgotten(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One cell of a covered grid bears no mark."""
    cage = random.choice([cage for cage in puzzle.cages if len(cage.cells) > 1])
    return _slipped(puzzle, CellMove(random.choice(cage.cells), cage, None))


def _alike(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One cell bears ``l``, the mark of another cage, for ``I``: of a cage beside it, or of any other."""
    grid, beside_it = puzzle.grid, random.random() < 1 / 2
    moves = [
        CellMove(cell, old, new)
        for old, new in permutations(puzzle.cages, 2)
        if len(old.cells) > 1
        for cell in old.cells
        if any(near in new.cells for near in beside(grid, cell)) is beside_it
    ]
    move = random.choice(moves)
    slip = _slipped(puzzle, move)
    return replace(slip, puzzle=replace(slip.puzzle, marks=_marks(puzzle, move)))


def _marks(puzzle: Puzzle, move: CellMove) -> tuple[str, ...]:
    """Return a mark for each cell; only those of the two cages of a move look alike."""
    names = {cage: f"a{number}" for number, cage in enumerate(puzzle.cages)} | {move.old: "I", move.new: "l"}
    mark_of = {cell: names[cage] for cage in puzzle.cages for cell in cage.cells} | {move.cell: "l"}
    return tuple(mark_of.get(cell, ".") for cell in range(puzzle.grid.cell_count))


def _but(cage: Cage, cell: int) -> list[int]:
    return [other for other in cage.cells if other != cell]


def _plus(cage: Cage, cell: int) -> tuple[int, ...]:
    return tuple(sorted((*cage.cells, cell)))


SLIPS: dict[str, Callable[[Puzzle, Filling, Random], Slip]] = {
    "total": _total,
    "exchange": _exchange,
    "cell": _cell,
    "given": _given,
    "shared mark": _shared_mark,
    "two cells": _two_cells,
    "forgotten": _forgotten,
    "alike": _alike,
}
"""The slips of the study, by name."""

"""One slip of the pen in a sound killer, and the change that puts it right again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from verifier.diagnosis.changes import CellMove, Change, GivenChange, TotalChange, changed
from verifier.diagnosis.neighbours import beside, in_one_piece
from verifier.puzzle.grid import Filling
from verifier.puzzle.parts import Cage
from verifier.puzzle.puzzle import Puzzle

__all__ = ["SLIPS", "Slip"]

_MOST_OFF = 9
"""A slipped total is off by 1 to 9."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A broken puzzle, and what puts it right.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle as it was sent in.
    undone_by : frozenset of Change
        The true repair, in the terms of the broken puzzle.
    """

    puzzle: Puzzle
    undone_by: frozenset[Change]


def _total(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One total is off by 1 to 9."""
    cage = random.choice([cage for cage in puzzle.cages if len(cage.cells) > 1])
    nearby = range(max(1, cage.total - _MOST_OFF), cage.total + _MOST_OFF + 1)
    total = random.choice([total for total in nearby if total != cage.total])
    undo = TotalChange(Cage(cage.cells, total), cage.total)
    return Slip(changed(puzzle, [TotalChange(cage, total)]), frozenset([undo]))


def _exchange(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """Two totals have changed places."""
    one = random.choice(puzzle.cages)
    other = random.choice([cage for cage in puzzle.cages if cage.total != one.total])
    done = [TotalChange(one, other.total), TotalChange(other, one.total)]
    undo = [
        TotalChange(Cage(one.cells, other.total), one.total),
        TotalChange(Cage(other.cells, one.total), other.total),
    ]
    return Slip(changed(puzzle, done), frozenset(undo))


def _cell(puzzle: Puzzle, _: Filling, random: Random) -> Slip:
    """One cell was drawn into the neighbouring cage."""
    grid = puzzle.grid
    cage_of = {cell: cage for cage in puzzle.cages for cell in cage.cells}
    moves = [
        (cell, old, cage_of[near])
        for cell, old in cage_of.items()
        for near in beside(grid, cell)
        if cage_of.get(near, old) != old
        and len(cage_of[near].cells) < grid.digits
        and in_one_piece(grid, [c for c in old.cells if c != cell])
    ]
    cell, old, new = random.choice(moves)
    without = Cage(tuple(c for c in old.cells if c != cell), old.total)
    with_it = Cage(tuple(sorted((*new.cells, cell))), new.total)
    return Slip(changed(puzzle, [CellMove(cell, old, new)]), frozenset([CellMove(cell, with_it, without)]))


def _given(puzzle: Puzzle, solution: Filling, random: Random) -> Slip:
    """One given is wrong; two right ones are put in beside it."""
    wrong, *right = random.sample(range(puzzle.grid.cell_count), 3)
    digit = random.choice([digit for digit in puzzle.grid.all_digits if digit != solution[wrong]])
    cells = {cell: solution[cell] for cell in right} | {wrong: digit}
    old = dict(puzzle.givens)
    put_in = [GivenChange(cell, old.get(cell), new) for cell, new in cells.items()]
    return Slip(changed(puzzle, put_in), frozenset([GivenChange(wrong, digit, solution[wrong])]))


SLIPS: dict[str, Callable[[Puzzle, Filling, Random], Slip]] = {
    "total": _total,
    "exchange": _exchange,
    "cell": _cell,
    "given": _given,
}
"""The slips of the study, by name."""

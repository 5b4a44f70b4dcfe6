"""Cells in the wrong cage: one that belongs to a neighbouring cage, and two that changed places."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from verifier.diagnosis.repairs.changes import CellMove
from verifier.diagnosis.repairs.mends import Kind, Mend, misread_marks, proved
from verifier.diagnosis.repairs.slips import Allow
from verifier.diagnosis.search_budget import SearchBudget
from verifier.puzzle.cage_layout import cages_in_pieces, lone_bare_cell
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import beside, in_one_piece
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["astray", "cell_exchanges", "cell_moves", "moves"]

_MOST_SOLUTIONS = 200
"""With more solutions than this without two cages, each exchange between them is tried by itself."""


def moves(puzzle: Puzzle, allow: Allow, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each move of a cell to a neighbouring cage that leaves exactly one solution."""
    for move in cell_moves(puzzle):
        if allow([cage for cage in (move.old, move.new) if cage is not None]):
            yield from proved(puzzle, Kind.CELL, [move], budget)


def cell_moves(puzzle: Puzzle) -> Iterator[CellMove]:
    """Yield each move of a cell to a cage beside it, or out of its cage to bare cells beside it."""
    cage_of: dict[int, Cage | None] = dict.fromkeys(range(puzzle.grid.cell_count))
    cage_of.update({cell: cage for cage in puzzle.cages for cell in cage.cells})
    for cell, old in cage_of.items():
        for new in dict.fromkeys(cage_of[near] for near in beside(puzzle.grid, cell)):
            if new != old and _can_move(puzzle.grid, cell, old, new):
                yield CellMove(cell, old, new)


def _can_move(grid: Grid, cell: int, old: Cage | None, new: Cage | None) -> bool:
    """Whether the cage that is left stays in one piece, and the other does not grow too large."""
    if new is not None and len(new.cells) >= grid.digits:
        return False
    return old is None or in_one_piece(grid, [other for other in old.cells if other != cell])


def astray(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each repair that gives a cell to the cage it lies beside, where it shows that it went astray.

    It shows where a cell is the only one in no cage: its mark was forgotten. Where its mark looks like that
    of the cage beside it. And where cages lie in pieces: one cell bears the mark of a cage elsewhere, or two
    cells bear each other's.
    """
    bare, parted = lone_bare_cell(puzzle), cages_in_pieces(puzzle)
    lone = {bare} | {found[0] for fallen in parted.values() for found in fallen if len(found) == 1}
    for move in cell_moves(puzzle):
        if move.new is not None and (move.cell in lone or misread_marks(puzzle, move)):
            yield from proved(puzzle, Kind.CELL, [move], budget)
    yield from cell_exchanges(puzzle, lambda cages: any(cage in parted for cage in cages), budget)


def cell_exchanges(puzzle: Puzzle, allow: Allow, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each exchange of two cells between cages that leaves exactly one solution.

    Both cages are in one piece afterwards. What their cells hold in the solutions without them says which
    exchanges are worth a proof.
    """
    for one, other in combinations(puzzle.cages, 2):
        ways = list(_exchanges(puzzle.grid, one, other))
        if ways and allow((one, other)):
            freed = budget.count(puzzle.changed((one, other)), _MOST_SOLUTIONS)
            for both_moves, cages in ways:
                fit = sum(all(cage.holds(filling) for cage in cages) for filling in freed.solutions)
                if fit == 1 or not freed.complete:
                    yield from proved(puzzle, Kind.CELLS, both_moves, budget)


def _exchanges(grid: Grid, one: Cage, other: Cage) -> Iterator[tuple[list[CellMove], tuple[Cage, ...]]]:
    """Yield two moves, one after the other, and the cages that they leave, each in one piece."""
    if not any(near in other.cells for cell in one.cells for near in beside(grid, cell)):
        return
    if len(one.cells) == 1:  # the first move must leave a cage for the second
        one, other = other, one
    for cell, twin in product(one.cells, other.cells) if len(one.cells) > 1 else ():
        first = CellMove(cell, one, other)
        left, grown = first.come
        second = CellMove(twin, grown, left)
        if all(in_one_piece(grid, cage.cells) for cage in second.come):
            yield [first, second], second.come

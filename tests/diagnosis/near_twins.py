"""Near twins: puzzles that only look like the same one in another guise."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.diagnosis.repairs.changes import CellMove, changed, total_change
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["twins"]


def twins(puzzle: Puzzle) -> Iterator[Puzzle]:
    """Puzzles that differ in one total, in two totals exchanged, in one given or in one border."""
    cages = puzzle.cages
    for cage in cages[:2]:
        yield changed(puzzle, [total_change(cage, cage.total + 1)])
    other = next((cage for cage in cages if cage.total != cages[0].total), None)
    if other is not None:
        yield changed(puzzle, [total_change(cages[0], other.total), total_change(other, cages[0].total)])
    if puzzle.givens:
        cell, digit = puzzle.givens[0]
        yield puzzle.changed([Given(cell, digit)], [Given(cell, digit % puzzle.grid.digits + 1)])
    cage_of = {cell: cage for cage in cages for cell in cage.cells}
    for cell, old in list(cage_of.items())[:3]:
        near = [cage_of[c] for c in beside(puzzle.grid, cell) if cage_of.get(c, old) != old]
        if near and len(near[0].cells) < puzzle.grid.digits:
            yield changed(puzzle, [CellMove(cell, old, near[0])])

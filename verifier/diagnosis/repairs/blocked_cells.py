"""A kakuro drawn otherwise: totals that are missing, and blocked cells that belong elsewhere."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from verifier.diagnosis.clues import cells_named
from verifier.diagnosis.repairs.changes import Change
from verifier.diagnosis.repairs.mends import Kind, Mend, proved
from verifier.diagnosis.repairs.slips import Allow
from verifier.diagnosis.repairs.sorts_of_cages import SortChange
from verifier.diagnosis.search_budget import SearchBudget
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import Totals, runs_of, runs_without_total, totals_of

__all__ = ["block_changes", "totals_put_in"]

_MOST_SOLUTIONS = 200
"""With more solutions than this, what the missing totals are is anybody's guess."""

_MOST_TOTALS = 5
"""Ways to put missing totals in that are tried; there may be many as good."""


@dataclass(frozen=True, slots=True)
class BlockChange(Change):
    """A blocked cell goes elsewhere with its totals, or one is added, or taken away.

    Parameters
    ----------
    old, new : int or None
        The cell that is no longer blocked, and the one that is.
    before, after : tuple of Rule
        The runs that differ.
    """

    old: int | None
    new: int | None
    before: tuple[Rule, ...]
    after: tuple[Rule, ...]

    @property
    def gone(self) -> tuple[Rule, ...]:
        """The runs as they are."""
        return self.before

    @property
    def come(self) -> tuple[Rule, ...]:
        """The runs as they would be."""
        return self.after

    @property
    def seen_at(self) -> tuple[int, ...]:
        """The cells that are blocked before or after."""
        return tuple(cell for cell in (self.old, self.new) if cell is not None)

    def made_in(self, puzzle: Puzzle) -> Puzzle:
        """Return the puzzle after the change; a solution that the file brings belongs to the other grid."""
        grid = _with_blocks(puzzle.grid, self.old, self.new)
        return replace(puzzle.changed(self.gone, self.come), grid=grid, solution=None)

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return both cells."""
        old, new = (cell if cell is None else grid.cell_name(cell) for cell in (self.old, self.new))
        return {"what": "blocked", "from": old, "to": new}

    def says(self, grid: Grid) -> str:
        """Name the cells."""
        if self.new is None:
            return f"Let {cells_named(grid, self.seen_at)} be filled, which is blocked."
        if self.old is None:
            return f"Block {cells_named(grid, self.seen_at)}."
        old, new = map(grid.cell_name, self.seen_at)
        return f"Move the blocked cell {old}, with what stands in it, to {new}."


def totals_put_in(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield the totals that runs without one may have had, so that exactly one solution is left."""
    runs = runs_without_total(puzzle)
    found = budget.count(puzzle, _MOST_SOLUTIONS) if runs else None
    if found is None or not found.complete:
        return
    often = Counter(tuple(sum(filling[c] for c in run.cells) for run in runs) for filling in found.solutions)
    once = sorted(totals for totals, times in often.items() if times == 1)
    for totals in once[:_MOST_TOTALS]:
        changes = [SortChange(run, Cage(run.cells, total)) for run, total in zip(runs, totals, strict=True)]
        yield from proved(puzzle, Kind.TOTAL, changes, budget)


def block_changes(puzzle: Puzzle, allow: Allow, budget: SearchBudget) -> Iterator[Mend]:
    """Yield each blocked cell that one can move by one, add or take away so that one solution is left.

    The totals of a cell that moves go with it. What would leave a total without a run, or a run without a
    total, is passed over; so is a puzzle whose runs are not what its blocked cells make of them.
    """
    totals = totals_of(puzzle)
    if totals is None:
        return
    for old, new in _places(puzzle):
        grid = _with_blocks(puzzle.grid, old, new)
        moved = {
            (new if cell == old and new is not None else cell, way): n for (cell, way), n in totals.items()
        }
        change = _change(puzzle, grid, old, new, moved)
        if change is not None and allow(change.gone):
            yield from proved(puzzle, Kind.CELL, [change], budget)


def _places(puzzle: Puzzle) -> Iterator[tuple[int | None, int | None]]:
    """Yield the cells to be changed: moves to a neighbour first."""
    given, blocked = dict(puzzle.givens), set(puzzle.grid.blocked)
    for old in puzzle.grid.blocked:
        for new in beside(puzzle.grid, old):
            if new not in blocked and new not in given:
                yield old, new
    yield from ((None, new) for new in puzzle.grid.cells if new not in given)
    yield from ((old, None) for old in puzzle.grid.blocked)


def _with_blocks(grid: Grid, old: int | None, new: int | None) -> Grid:
    left = [cell for cell in grid.blocked if cell != old]
    return replace(grid, blocked=tuple(sorted(left if new is None else [*left, new])))


def _change(
    puzzle: Puzzle, grid: Grid, old: int | None, new: int | None, totals: Totals
) -> BlockChange | None:
    """Return the change to a grid with other blocked cells, if all its runs and totals fit together."""
    runs, left = runs_of(grid, totals)
    if left or any(isinstance(run, Different) for run in runs):
        return None
    was, becomes = set(puzzle.cages), set(runs)
    gone = tuple(cage for cage in puzzle.cages if cage not in becomes)
    return BlockChange(old, new, gone, tuple(run for run in runs if run not in was)) if gone else None

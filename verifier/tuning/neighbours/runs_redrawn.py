"""A kakuro with other blocked cells: runs are split, joined, longer or shorter, and their totals follow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from verifier.diagnosis.clues import cages_named, cells_named
from verifier.diagnosis.repairs.changes import Change
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.rule import Rule

__all__ = ["RunsRedrawn", "with_blocks"]


@dataclass(frozen=True, slots=True)
class RunsRedrawn(Change):
    """Cells are blocked, or no longer, and the runs there become others.

    Parameters
    ----------
    freed, blocked : tuple of int
        The cells that are to be filled from now on, and those that are not any more.
    before, after : tuple of Rule
        The runs that go and those that come.
    digits : tuple of int, optional
        What the freed cells hold in the solution that is kept; empty where none is known.
    """

    freed: tuple[int, ...]
    blocked: tuple[int, ...]
    before: tuple[Rule, ...]
    after: tuple[Rule, ...]
    digits: tuple[int, ...] = ()

    @property
    def gone(self) -> tuple[Rule, ...]:
        """The runs that go."""
        return self.before

    @property
    def come(self) -> tuple[Rule, ...]:
        """The runs that come."""
        return self.after

    @property
    def seen_at(self) -> tuple[int, ...]:
        """The cells that are blocked before or after."""
        return tuple(sorted((*self.freed, *self.blocked)))

    def made_in(self, puzzle: Puzzle) -> Puzzle:
        """Return the puzzle after the change; its solution goes along where the digits are known."""
        grid = with_blocks(puzzle.grid, self.freed, self.blocked)
        solution = self.solution_after(puzzle.solution) if puzzle.solution and self._is_known else None
        return replace(puzzle.changed(self.gone, self.come), grid=grid, solution=solution)

    @property
    def _is_known(self) -> bool:
        return len(self.digits) == len(self.freed)

    def solution_after(self, solution: Filling) -> Filling:
        """Return the solution with nothing in the blocked cells, and a digit in the others."""
        held = {**dict.fromkeys(self.blocked, 0), **dict(zip(self.freed, self.digits, strict=True))}
        return tuple(held.get(cell, digit) for cell, digit in enumerate(solution))

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the cells, what the freed ones hold where that is known, and the runs."""
        names = [grid.cell_name(cell) for cell in self.freed]
        return {
            "what": "runs",
            "blocked": [grid.cell_name(cell) for cell in self.blocked],
            "freed": dict(zip(names, self.digits, strict=True)) if self._is_known else names,
            "from": [run.record(grid) for run in self.before],
            "to": [run.record(grid) for run in self.after],
        }

    def says(self, grid: Grid) -> str:
        """Name the cells, and the runs as they are afterwards."""
        done = []
        if self.blocked:
            done.append(f"block {cells_named(grid, self.blocked)}")
        if self.freed:
            holds = f", with {listed(map(str, self.digits))} in the solution" if self.digits else ""
            done.append(f"let {cells_named(grid, self.freed)} be filled{holds}")
        sentence = ", and ".join(done)
        totals = [run for run in self.after if isinstance(run, Cage)]
        told = f" That makes {cages_named(grid, totals)}." if totals else ""
        return f"{sentence[0].upper()}{sentence[1:]}.{told}"


def with_blocks(grid: Grid, freed: Iterable[int], blocked: Iterable[int]) -> Grid:
    """Return a grid in which some cells are no longer blocked, and others are.

    Examples
    --------
    >>> with_blocks(Grid(2, 3, 0, 0, 9, blocked=(0, 5)), freed=[5], blocked=[4]).blocked
    (0, 4)
    """
    return replace(grid, blocked=tuple(sorted({*grid.blocked, *blocked}.difference(freed))))

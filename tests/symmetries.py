"""Other forms of a puzzle: turned, mirrored, lines permuted, digits relabelled, cages listed anew."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hypothesis import strategies as st

from tests.strategies import line_orders
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["Rearrangement", "rearrangements", "reordered"]


@dataclass(frozen=True)
class Rearrangement:
    """Where each cell goes, and what each digit becomes.

    `cells` names the new place of each cell, `digits` the new digit of each digit (with 0 staying 0); `grid`
    is the grid they lead to, which is another one where boxes of 2x3 are turned to 3x2. Killers keep their
    sums only if the digits stay as they are or are complemented.
    """

    grid: Grid
    cells: tuple[int, ...]
    digits: tuple[int, ...]

    def puzzle(self, puzzle: Puzzle) -> Puzzle:
        """The puzzle in its other form."""
        return make_puzzle(
            puzzle.kind,
            self.grid,
            cages=[Cage(tuple(self.cells[cell] for cell in c.cells), self._total(c)) for c in puzzle.cages],
            givens=[(self.cells[cell], self.digits[digit]) for cell, digit in puzzle.givens],
        )

    def filling(self, filling: Filling) -> Filling:
        """A solution in its other form."""
        moved = [0] * len(filling)
        for cell, digit in enumerate(filling):
            moved[self.cells[cell]] = self.digits[digit]
        return tuple(moved)

    def _total(self, cage: Cage) -> int:
        complemented = self.digits[1] != 1
        return len(cage.cells) * (self.grid.digits + 1) - cage.total if complemented else cage.total


@st.composite
def rearrangements(draw: st.DrawFn, puzzle: Puzzle) -> Rearrangement:
    """Turns, mirrors and permutations of rows, columns, bands and stacks; any digits for a classic, the same
    or complemented ones for a killer."""
    grid = puzzle.grid
    size = grid.digits
    rows = draw(line_orders(size, grid.box_rows))
    columns = draw(line_orders(size, grid.box_columns))
    on_its_side = draw(st.booleans())
    places = [(rows[r], columns[c]) for r in range(size) for c in range(size)]
    digits = list(grid.all_digits)
    if puzzle.kind == "classic":
        digits = draw(st.permutations(digits))
    elif draw(st.booleans()):
        digits.reverse()
    return Rearrangement(
        Grid.square(size, (grid.box_columns, grid.box_rows)) if on_its_side else grid,
        tuple(c * size + r if on_its_side else r * size + c for r, c in places),
        (0, *digits),
    )


@st.composite
def reordered(draw: st.DrawFn, puzzle: Puzzle) -> Puzzle:
    """The same puzzle with its cages listed in another order."""
    others = [rule for rule in puzzle.rules if rule not in puzzle.cages]
    return replace(puzzle, rules=(*others, *draw(st.permutations(puzzle.cages))))

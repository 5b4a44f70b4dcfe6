"""Turned and relabelled boards: what is found on them must be the old steps, turned and relabelled."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from hypothesis import strategies as st

from grader.board import Board, bits, layout_of, mask_of
from grader.steps import DerivedSum, Step
from tests.strategies import line_orders
from verifier.puzzle.grid import Grid
from verifier.puzzle.parts import Cage, LinearSum
from verifier.puzzle.puzzle import make_puzzle

__all__ = ["Symmetry", "symmetries"]


@dataclass(frozen=True)
class Symmetry:
    """Where each cell goes (`cells`) and what each digit becomes (`digits`, with 0 staying 0).

    On a board with cages, digits may stay as they are or be complemented; nothing else keeps sums.
    """

    cells: tuple[int, ...]
    digits: tuple[int, ...]

    def board(self, board: Board) -> Board:
        """The board turned and relabelled."""
        grid = board.layout.grid
        cages = [Cage(self._cells(cage.cells), self._cage_total(cage)) for cage in board.layout.cages]
        layout = layout_of(make_puzzle("killer", grid, cages=cages))
        candidates = [0] * grid.cell_count
        for cell, mask in enumerate(board.candidates):
            candidates[self.cells[cell]] = self._digits(mask)
        return Board(layout, candidates, self._mask(board.placed), self._mask(board.fresh))

    def steps(self, steps: Iterable[Step], old: Board, new: Board) -> set[Step]:
        """Steps found on the board `old`, as they must be found on its image `new`."""
        return {self._step(step, old, new) for step in steps}

    def _step(self, step: Step, old: Board, new: Board) -> Step:
        return in_order(
            replace(
                step,
                places=tuple((self.cells[cell], self.digits[digit]) for cell, digit in step.places),
                removes=tuple((self.cells[cell], self._digits(gone)) for cell, gone in step.removes),
                houses=self._houses(step.houses, old, new),
                cages=self._cages(step.cages, old, new),
                sums=tuple(self._sum(premise, old, new) for premise in step.sums),
                looks=self._cells(step.looks),
                focus=self._cells(step.focus),
                digits=self._digits(step.digits),
            )
        )

    def _sum(self, premise: DerivedSum, old: Board, new: Board) -> DerivedSum:
        weights = premise.linear.weights
        turned = tuple(sorted((self.cells[cell], weight) for cell, weight in weights))
        total = self._total(sum(weight for _, weight in weights), premise.linear.total)
        return DerivedSum(
            LinearSum(turned, total),
            tuple(sorted(self._houses(premise.houses, old, new))),
            tuple(sorted(self._cages(premise.cages, old, new))),
        )

    def _houses(self, houses: tuple[int, ...], old: Board, new: Board) -> tuple[int, ...]:
        return tuple(new.layout.house_masks.index(self._mask(old.layout.house_masks[h])) for h in houses)

    def _cages(self, cages: tuple[int, ...], old: Board, new: Board) -> tuple[int, ...]:
        return tuple(new.layout.cage_masks.index(self._mask(old.layout.cage_masks[c])) for c in cages)

    def _cage_total(self, cage: Cage) -> int:
        return self._total(len(cage.cells), cage.total)

    def _total(self, weight: int, total: int) -> int:
        """The total of cells of so much weight: unchanged, or complemented with the digits."""
        return total if self.digits[1] == 1 else weight * len(self.digits) - total

    def _cells(self, cells: Iterable[int]) -> tuple[int, ...]:
        return tuple(self.cells[cell] for cell in cells)

    def _mask(self, cells: int) -> int:
        return mask_of(self._cells(bits(cells)))

    def _digits(self, digits: int) -> int:
        return mask_of(self.digits[digit] for digit in bits(digits))


def in_order(step: Step) -> Step:
    """The step with every list in it sorted: two ways to write down one step compare equal."""
    return replace(
        step,
        places=tuple(sorted(step.places)),
        removes=tuple(sorted(step.removes)),
        houses=tuple(sorted(step.houses)),
        cages=tuple(sorted(step.cages)),
        sums=tuple(sorted(step.sums, key=repr)),
        looks=tuple(sorted(step.looks)),
        focus=tuple(sorted(step.focus)),
    )


@st.composite
def symmetries(draw: st.DrawFn, grid: Grid, *, sums: bool = False) -> Symmetry:
    """Rows and columns shuffled inside and with their bands and stacks, mirrored in the diagonal or not,
    digits relabelled; where `sums` must be kept, left alone or complemented."""
    size = grid.digits
    rows = draw(line_orders(size, grid.box_rows))
    columns = draw(line_orders(size, grid.box_columns))
    mirrored = grid.box_rows == grid.box_columns and draw(st.booleans())
    places = [(rows[r], columns[c]) for r in range(size) for c in range(size)]
    digits = list(grid.all_digits)
    if not sums:
        digits = draw(st.permutations(digits))
    elif draw(st.booleans()):
        digits.reverse()
    return Symmetry(
        tuple(c * size + r if mirrored else r * size + c for r, c in places),
        (0, *digits),
    )

"""Rearranged boards: what is found on them must be the old steps, rearranged in the same way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from grader.board.board import Board
from grader.board.layout import layout_of
from grader.board.steps import DerivedSum, Step
from tests.symmetries import Rearrangement
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["Turned", "in_order"]


@dataclass(frozen=True)
class Turned:
    """A board of a puzzle, and another form of that puzzle."""

    puzzle: Puzzle
    old: Board
    form: Rearrangement

    @cached_property
    def board(self) -> Board:
        """The board in its other form."""
        layout = layout_of(self.form.puzzle(self.puzzle))
        candidates = [0] * len(self.form.cells)
        for cell, mask in enumerate(self.old.candidates):
            candidates[self.form.cells[cell]] = self._digits(mask)
        return Board(layout, candidates, self._mask(self.old.placed), self._mask(self.old.fresh))

    def steps(self, steps: Iterable[Step]) -> set[Step]:
        """Steps found on the old board, as they must be found on the other."""
        return {self._step(step) for step in steps}

    def _step(self, step: Step) -> Step:
        return in_order(
            replace(
                step,
                places=tuple((self.form.cells[cell], self.form.digits[digit]) for cell, digit in step.places),
                removes=tuple((self.form.cells[cell], self._digits(gone)) for cell, gone in step.removes),
                rules=self._rules(step.rules),
                sums=tuple(self._sum(premise) for premise in step.sums),
                looks=self._cells(step.looks),
                focus=self._cells(step.focus),
                digits=self._digits(step.digits),
            )
        )

    def _sum(self, premise: DerivedSum) -> DerivedSum:
        weights, total = premise.linear.weights, premise.linear.total
        if self.form.digits[1] != 1:  # complemented: each digit d is now n + 1 - d
            total = sum(weight for _, weight in weights) * len(self.form.digits) - total
        turned = tuple(sorted((self.form.cells[cell], weight) for cell, weight in weights))
        return DerivedSum(LinearSum(turned, total), tuple(sorted(self._rules(premise.rules))))

    def _rules(self, rules: tuple[int, ...]) -> tuple[int, ...]:
        old, new = self.old.layout, self.board.layout
        houses = [new.house_masks.index(self._mask(old.masks[house])) for house in old.houses_among(rules)]
        cages = {mask: number for number, mask in new.cage_masks}
        return (*houses, *(cages[self._mask(old.masks[cage])] for cage in old.cages_among(rules)))

    def _cells(self, cells: Iterable[int]) -> tuple[int, ...]:
        return tuple(self.form.cells[cell] for cell in cells)

    def _mask(self, cells: int) -> int:
        return mask_of(self._cells(bits(cells)))

    def _digits(self, digits: int) -> int:
        return mask_of(self.form.digits[digit] for digit in bits(digits))


def in_order(step: Step) -> Step:
    """The step with every list in it sorted: two ways to write down one step compare equal.

    The chain and the pattern are left out. They are for the sentence, a chain can be told from either end;
    what counts of both stands in the other fields.
    """
    return replace(
        step,
        places=tuple(sorted(step.places)),
        removes=tuple(sorted(step.removes)),
        rules=tuple(sorted(step.rules)),
        sums=tuple(sorted(step.sums, key=repr)),
        looks=tuple(sorted(step.looks)),
        focus=tuple(sorted(step.focus)),
        chain=(),
        pattern=None,
    )

"""A mark between two neighbours that differ by so much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.marks.pair_mark import PairMark
from verifier.puzzle.rules.rule import is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Difference"]


@dataclass(frozen=True, slots=True)
class Difference(PairMark):
    """Two neighbours that differ by `difference`.

    Examples
    --------
    >>> mark = Difference((0, 1), 3)
    >>> mark.broken_in((1, 4, 2, 3)), mark.broken_in((1, 3, 2, 4))
    ((), (0, 1))
    """

    word: ClassVar[str] = "difference"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]
    difference: int

    @property
    def figure(self) -> int:
        """By how much."""
        return self.difference

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits differ by so much."""
        return abs(one - other) == self.difference

    def called(self, grid: Grid) -> str:
        """Return it by its number and its cells."""
        return f"the difference {self.difference} {self.between(grid)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its number and its cells, as a file lists a clue."""
        return {self.word: self.difference, "cells": written(self.cells, grid)}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the mark itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

"""A mark between two neighbours, one of which is so many times the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.marks.pair_mark import PairMark
from verifier.puzzle.rules.rule import is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Ratio"]


@dataclass(frozen=True, slots=True)
class Ratio(PairMark):
    """Two neighbours, one of which is `ratio` times the other.

    Examples
    --------
    >>> mark = Ratio((0, 1), 2)
    >>> mark.broken_in((2, 4, 1, 3)), mark.broken_in((4, 2, 1, 3)), mark.broken_in((1, 3, 2, 4))
    ((), (), (0, 1))
    """

    word: ClassVar[str] = "ratio"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]
    ratio: int

    @property
    def figure(self) -> int:
        """How many times."""
        return self.ratio

    def fits(self, one: int, other: int) -> bool:
        """Whether one digit is so many times the other."""
        return one == self.ratio * other or other == self.ratio * one

    def called(self, grid: Grid) -> str:
        """Return it by its number and its cells."""
        return f"the ratio {self.ratio} {self.between(grid)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its number and its cells, as a file lists a clue."""
        return {self.word: self.ratio, "cells": written(self.cells, grid)}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the mark itself where digits stay: no other digits have all the same ratios."""
        return self if is_same(digits) else None

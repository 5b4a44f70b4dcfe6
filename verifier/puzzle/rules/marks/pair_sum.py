"""A mark between two neighbours that add up to a number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from verifier.puzzle.rules.marks.pair_mark import PairMark
from verifier.puzzle.rules.rule import written
from verifier.puzzle.rules.totalled import Totalled

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["PairSum"]


@dataclass(frozen=True, slots=True)
class PairSum(Totalled, PairMark):
    """Two neighbours that add up to `total`.

    Examples
    --------
    >>> mark = PairSum((0, 1), 4)
    >>> mark.broken_in((1, 3, 2, 4)), mark.broken_in((1, 2, 3, 4)), mark.relabelled((0, 4, 3, 2, 1))
    ((), (0, 1), PairSum(cells=(0, 1), total=6))
    """

    word: ClassVar[str] = "pair_sum"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]
    total: int

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits add up to the total."""
        return one + other == self.total

    def called(self, grid: Grid) -> str:
        """Return it by its total and its cells."""
        return f"the sum {self.total} {self.between(grid)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its total and its cells, as a file lists a clue."""
        return {self.word: self.total, "cells": written(self.cells, grid)}

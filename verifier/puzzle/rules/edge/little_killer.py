"""A little killer: the digits of a diagonal add up to a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import written
from verifier.puzzle.rules.totalled import Totalled

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["LittleKiller"]


@dataclass(frozen=True, slots=True)
class LittleKiller(Totalled):
    """A diagonal from edge to edge that adds up to `total`; its digits may repeat.

    Parameters
    ----------
    cells : tuple of int
        In order, from the end at which the clue stands.
    total : int
        What the digits add up to.

    Examples
    --------
    >>> clue = LittleKiller((1, 2), 4)
    >>> clue.broken_in((1, 2, 2, 3)), clue.broken_in((1, 2, 3, 4)), clue.relabelled((0, 4, 3, 2, 1))
    ((), (1, 2), LittleKiller(cells=(1, 2), total=6))
    """

    word: ClassVar[str] = "little_killer"
    rank: ClassVar[int] = 7

    cells: tuple[int, ...]
    total: int

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return all its cells where the sum is another."""
        return () if sum(filling[cell] for cell in self.cells) == self.total else self.cells

    def called(self, grid: Grid) -> str:
        """Return it by its total and its ends."""
        first, last = self.cells[0], self.cells[-1]
        return f"the little killer {self.total} from {grid.cell_name(first)} to {grid.cell_name(last)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its total and its cells, as a file lists a clue."""
        return {self.word: self.total, "cells": written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the clue elsewhere."""
        return replace(self, cells=tuple(places[cell] for cell in self.cells))

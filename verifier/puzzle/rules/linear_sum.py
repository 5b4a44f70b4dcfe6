"""A sum over cells, each with its weight: what the rule of 45 comes to, and a cage that may repeat digits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import is_complement, is_same
from verifier.puzzle.rules.totalled import Totalled

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["LinearSum"]


@dataclass(frozen=True, slots=True)
class LinearSum(Totalled):
    """Whole-number weights on cells that add up to `total`; digits may repeat.

    Parameters
    ----------
    weights : tuple of (int, int)
        Pairs of cell and weight, in reading order of the cells.
    total : int
        The sum of weight times digit over the cells.

    Examples
    --------
    >>> LinearSum(((0, 1), (9, -1)), 6).cells
    (0, 9)
    """

    word: ClassVar[str] = "cage_with_repeats"
    rank: ClassVar[int] = 3
    has_total: ClassVar[bool] = True

    weights: tuple[tuple[int, int], ...]
    total: int

    @property
    def cells(self) -> tuple[int, ...]:
        """The cells with a weight, in reading order."""
        return tuple(cell for cell, _ in self.weights)

    @property
    def is_cage(self) -> bool:
        """Whether all weights are 1: then it is a cage that may repeat digits."""
        return all(weight == 1 for _, weight in self.weights)

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return all its cells where the sum is another."""
        made = sum(weight * filling[cell] for cell, weight in self.weights)
        return () if made == self.total else self.cells

    def called(self, grid: Grid) -> str:
        """Return it by its cells and its total."""
        what = f"cage of {self.total} with repeats in" if self.is_cage else f"sum of {self.total} over"
        return f"the {what} {grid.cell_names(self.cells)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return it as a file lists a cage with repeats; else its weights by the names of its cells."""
        if self.is_cage:
            return {"total": self.total, "repeats": "yes", "cells": [grid.cell_name(c) for c in self.cells]}
        return {"cells": {grid.cell_name(cell): w for cell, w in self.weights}, "total": self.total}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the sum elsewhere."""
        return replace(self, weights=tuple(sorted((places[cell], weight) for cell, weight in self.weights)))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it with the total of the new digits: where they are complemented, or stay."""
        if is_complement(digits):
            weight = sum(weight for _, weight in self.weights)
            return replace(self, total=weight * len(digits) - self.total)
        return self if is_same(digits) else None

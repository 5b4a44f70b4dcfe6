"""A cage: cells with different digits that add up to a total."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.totalled import Totalled

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Cage"]


@dataclass(frozen=True, slots=True)
class Cage(Totalled):
    """Cells whose digits are all different and add up to `total`.

    Parameters
    ----------
    cells : tuple of int
        In reading order, each once.
    total : int
        What the digits add up to. A total that no digits can make is a fault that
        `verifier.puzzle.checking.arithmetic` reports; the cage itself can be written down.

    Examples
    --------
    >>> cage = Cage((0, 1), 3)
    >>> cage.broken_in((1, 2, 3, 4)), cage.broken_in((1, 3, 2, 4)), cage.relabelled((0, 4, 3, 2, 1))
    ((), (0, 1), Cage(cells=(0, 1), total=7))
    """

    word: ClassVar[str] = "cage"
    rank: ClassVar[int] = 1
    differs: ClassVar[bool] = True
    has_total: ClassVar[bool] = True

    cells: tuple[int, ...]
    total: int

    @property
    def is_cage(self) -> bool:
        """It is one."""
        return True

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of repeated digits, or all of them where only the total is missed."""
        again = repeated(self.cells, filling)
        return again or (() if sum(filling[cell] for cell in self.cells) == self.total else self.cells)

    def called(self, grid: Grid) -> str:
        """Return it by its total and its cells."""
        return f"the cage of {self.total} in {grid.cell_names(self.cells)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its total and its cells, as a file lists a cage."""
        return {"total": self.total, "cells": [grid.cell_name(cell) for cell in self.cells]}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the cage elsewhere."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))

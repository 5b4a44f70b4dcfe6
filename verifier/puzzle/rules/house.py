"""A house: cells that hold every digit once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import Rule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["House", "repeated"]


@dataclass(frozen=True, slots=True)
class House(Rule):
    """Cells that hold every digit once.

    Parameters
    ----------
    kind : str
        ``row``, ``column`` or ``box``.
    number : int
        Counted from 1; boxes in reading order.
    cells : tuple of int
        In reading order.

    Examples
    --------
    >>> House("row", 3, (18, 19, 20)).name
    'row 3'
    """

    word: ClassVar[str] = "house"
    rank: ClassVar[int] = 0

    kind: str
    number: int
    cells: tuple[int, ...]

    @property
    def name(self) -> str:
        """The name people use, such as ``row 3``."""
        return f"{self.kind} {self.number}"

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of digits that stand in the house more than once."""
        return repeated(self.cells, filling)

    def called(self, grid: Grid) -> str:  # noqa: ARG002 - other rules are called by their cells
        """Return its name."""
        return self.name

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its name and its cells."""
        return {"house": self.name, "cells": [grid.cell_name(cell) for cell in self.cells]}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the house elsewhere; the puzzle that it goes to names its houses anew."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))

    def relabelled(self, digits: Sequence[int]) -> Self:  # noqa: ARG002 - any digits will do
        """Return the house itself."""
        return self


def repeated(cells: tuple[int, ...], filling: Filling) -> tuple[int, ...]:
    """Return those of some cells whose digit stands in another of them too.

    Examples
    --------
    >>> repeated((0, 1, 2, 3), (4, 1, 4, 2))
    (0, 2)
    """
    digits = [filling[cell] for cell in cells]
    if len(set(digits)) == len(digits):
        return ()
    return tuple(cell for cell, digit in zip(cells, digits, strict=True) if digits.count(digit) > 1)

"""Digits written where four cells meet, each of which stands in one of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.printable import listed
from verifier.puzzle.rules.rule import Rule, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Quadruple"]

_APART = 1000
"""No digit is as large, so that `figure` tells all lists of digits apart."""


@dataclass(frozen=True, slots=True)
class Quadruple(Rule):
    """Four cells of a square that hold some digits, each at least as often as it is named.

    Parameters
    ----------
    cells : tuple of int
        In reading order.
    digits : tuple of int
        Smallest first; a digit may be named more than once.

    Examples
    --------
    >>> mark = Quadruple((0, 1, 2, 3), (1, 1, 3))
    >>> mark.broken_in((1, 3, 2, 1)), mark.broken_in((1, 3, 2, 4)), mark.relabelled((0, 4, 3, 2, 1))
    ((), (0, 1, 2, 3), Quadruple(cells=(0, 1, 2, 3), digits=(2, 4, 4)))
    """

    word: ClassVar[str] = "quadruple"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]
    digits: tuple[int, ...]

    @property
    def figure(self) -> int:
        """A number made of its digits."""
        return sum(digit * _APART**place for place, digit in enumerate(self.digits))

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return all its cells where a digit stands in them less often than it is named."""
        held = [filling[cell] for cell in self.cells]
        return self.cells if any(held.count(d) < self.digits.count(d) for d in self.digits) else ()

    def called(self, grid: Grid) -> str:
        """Return it by its digits and its cells."""
        return f"the quadruple of {listed(map(str, self.digits))} in {grid.cell_names(self.cells)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its digits and its cells, as a file lists a clue."""
        return {self.word: " ".join(map(str, self.digits)), "cells": written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the digits elsewhere."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))

    def relabelled(self, digits: Sequence[int]) -> Self:
        """Return it with its new digits."""
        return replace(self, digits=tuple(sorted(digits[digit] for digit in self.digits)))

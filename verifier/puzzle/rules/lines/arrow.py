"""An arrow: the digits along its line add up to what stands in its circle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import Rule, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["TENS", "Arrow"]

TENS = 10
"""What the first cell of a circle of two counts, whatever the size of the grid."""


@dataclass(frozen=True, slots=True)
class Arrow(Rule):
    """A line that adds up to the number in its circle; its digits may repeat.

    Parameters
    ----------
    circle : tuple of int
        One cell, or two neighbours: the tens, which are the left or upper cell, and the units.
    line : tuple of int
        In order, from the circle on and without it.

    Examples
    --------
    >>> Arrow((0,), (1, 2)).broken_in((4, 3, 1, 2)), Arrow((0,), (1, 2)).broken_in((4, 3, 2, 1))
    ((), (0, 1, 2))
    >>> Arrow((0, 1), (2, 3)).holds((1, 2, 3, 9)), Arrow((0, 1), (2, 3)).holds((2, 1, 3, 9))
    (True, False)
    """

    word: ClassVar[str] = "arrow"
    rank: ClassVar[int] = 6

    circle: tuple[int, ...]
    line: tuple[int, ...]

    @property
    def cells(self) -> tuple[int, ...]:
        """The circle and the line."""
        return self.circle + self.line

    @property
    def figure(self) -> int:
        """Of how many cells its circle is."""
        return len(self.circle)

    @property
    def weights(self) -> tuple[tuple[int, int], ...]:
        """Pairs of cell and weight; the digits, each with its weight, add up to 0."""
        circle = zip(self.circle, (TENS, 1)[-len(self.circle) :], strict=True)
        return (*circle, *((cell, -1) for cell in self.line))

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return all its cells where the line makes another sum."""
        return self.cells if sum(weight * filling[cell] for cell, weight in self.weights) else ()

    def called(self, grid: Grid) -> str:
        """Return it by its circle and its end."""
        return f"the arrow from {grid.cell_names(self.circle)} to {grid.cell_name(self.line[-1])}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its circle and its line, as a file lists a clue."""
        return {self.word: written(self.circle, grid), "cells": written(self.line, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the arrow elsewhere; its tens stay the tens, wherever they go."""
        return type(self)(
            tuple(places[cell] for cell in self.circle), tuple(places[cell] for cell in self.line)
        )

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the arrow itself where digits stay, or where it says that two digits are equal."""
        equal = len(self.circle) == len(self.line) == 1
        return self if equal or is_same(digits) else None

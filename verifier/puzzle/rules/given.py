"""A given: a digit printed in a cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import Rule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Given"]


@dataclass(frozen=True, slots=True)
class Given(Rule):
    """A digit printed in a cell.

    Examples
    --------
    >>> given = Given(0, 4)
    >>> given.holds((4, 1, 2, 3)), given.moved((2, 3, 0, 1)), given.relabelled((0, 2, 1, 4, 3))
    (True, Given(cell=2, digit=4), Given(cell=0, digit=3))
    """

    word: ClassVar[str] = "given"
    rank: ClassVar[int] = 9

    cell: int
    digit: int

    @property
    def cells(self) -> tuple[int, ...]:
        """The one cell."""
        return (self.cell,)

    @property
    def figure(self) -> int:
        """Its digit."""
        return self.digit

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cell where another digit stands in it."""
        return () if filling[self.cell] == self.digit else self.cells

    def called(self, grid: Grid) -> str:
        """Return it by its digit and its cell."""
        return f"the given {self.digit} in {grid.cell_name(self.cell)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its digit by the name of its cell."""
        return {grid.cell_name(self.cell): self.digit}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the given elsewhere."""
        return type(self)(places[self.cell], self.digit)

    def relabelled(self, digits: Sequence[int]) -> Self:
        """Return it with its new digit."""
        return type(self)(self.cell, digits[self.digit])

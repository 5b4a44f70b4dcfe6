"""A cage without a total: cells that differ from one another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.rule import Rule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Different"]


@dataclass(frozen=True, slots=True)
class Different(Rule):
    """Cells whose digits are all different.

    Examples
    --------
    >>> Different((0, 1, 3)).broken_in((1, 2, 3, 1)), Different((0, 1)).moved((3, 2, 1, 0))
    ((0, 3), Different(cells=(2, 3)))
    """

    word: ClassVar[str] = "cage_without_total"
    rank: ClassVar[int] = 2
    differs: ClassVar[bool] = True

    cells: tuple[int, ...]

    @property
    def is_cage(self) -> bool:
        """A cage without a total."""
        return True

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of digits that stand in more than one of them."""
        return repeated(self.cells, filling)

    def called(self, grid: Grid) -> str:
        """Return it by its cells."""
        return f"the cage without a total in {grid.cell_names(self.cells)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a cage without a total."""
        return {"cells": [grid.cell_name(cell) for cell in self.cells]}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the rule elsewhere."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))

    def relabelled(self, digits: Sequence[int]) -> Self:  # noqa: ARG002 - any digits will do
        """Return the rule itself."""
        return self

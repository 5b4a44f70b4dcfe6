"""What marks on the border of two neighbours have in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Self

from verifier.puzzle.rules.pair_rule import PairRule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["PairMark"]


class PairMark(PairRule):
    """A mark between two neighbours that says the same of them in either order.

    Attributes
    ----------
    cells : tuple of int
        The two cells, in reading order.
    """

    __slots__ = ()

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """Its two cells."""
        one, other = self.cells
        return ((one, other),)

    def between(self, grid: Grid) -> str:
        """Return where it stands, as part of a sentence."""
        return f"between {grid.cell_names(self.cells)}"

    def moved(self, places: Sequence[int]) -> Self:
        """Return the mark elsewhere."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))  # type: ignore[type-var]

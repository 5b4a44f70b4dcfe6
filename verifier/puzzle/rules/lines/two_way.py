"""What lines have in common: cells in their order, which for some of them may be told from either end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Self

from verifier.puzzle.rules.rule import Rule, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["TwoWayLine", "along", "either_way"]


class TwoWayLine(Rule):
    """A line that says the same from either end.

    Attributes
    ----------
    cells : tuple of int
        In order along the line, from the end that makes them come first; see `either_way`.
    """

    __slots__ = ()

    def called(self, grid: Grid) -> str:
        """Return it by its ends."""
        return f"the {self.word} from {grid.cell_name(self.cells[0])} to {grid.cell_name(self.cells[-1])}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the line elsewhere."""
        cells = either_way(tuple(places[cell] for cell in self.cells))
        return replace(self, cells=cells)  # type: ignore[type-var]


def either_way(cells: tuple[int, ...]) -> tuple[int, ...]:
    """Return the cells of a line from the end that makes them come first.

    Examples
    --------
    >>> either_way((7, 4, 2)), either_way((2, 4, 7))
    ((2, 4, 7), (2, 4, 7))
    """
    return min(cells, cells[::-1])


def along(cells: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of cells that follow one another on a line.

    Examples
    --------
    >>> along((2, 4, 7))
    ((2, 4), (4, 7))
    """
    return tuple(pairwise(cells))

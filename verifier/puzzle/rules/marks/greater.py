"""A sign between two neighbours: the digit on one side is greater than that on the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from verifier.puzzle.rules.pair_rule import OneWayRule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Greater"]


@dataclass(frozen=True, slots=True)
class Greater(OneWayRule):
    """Two neighbours, the first of which is greater.

    Parameters
    ----------
    cells : tuple of int
        The greater cell, then the smaller one.

    Examples
    --------
    >>> sign = Greater((1, 0))
    >>> sign.broken_in((1, 2, 3, 4)), sign.broken_in((3, 2, 1, 4)), sign.relabelled((0, 4, 3, 2, 1))
    ((), (0, 1), Greater(cells=(0, 1)))
    """

    word: ClassVar[str] = "greater"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """Its two cells."""
        more, less = self.cells
        return ((more, less),)

    def fits(self, one: int, other: int) -> bool:
        """Whether the first digit is greater."""
        return one > other

    def called(self, grid: Grid) -> str:
        """Return it by its cells, the greater first."""
        more, less = map(grid.cell_name, self.cells)
        return f"the sign that {more} is greater than {less}"

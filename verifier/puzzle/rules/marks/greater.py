"""A sign between two neighbours: the digit on one side is greater than that on the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Greater"]


@dataclass(frozen=True, slots=True)
class Greater(PairRule):
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

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, the greater first, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the sign elsewhere."""
        return type(self)(tuple(places[cell] for cell in self.cells))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it the other way round where digits are complemented, itself where they stay."""
        if is_complement(digits):
            return type(self)(self.cells[::-1])
        return self if is_same(digits) else None

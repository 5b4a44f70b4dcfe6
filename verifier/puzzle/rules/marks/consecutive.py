"""A mark between two neighbours that differ by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.marks.pair_mark import PairMark
from verifier.puzzle.rules.rule import is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Consecutive"]


@dataclass(frozen=True, slots=True)
class Consecutive(PairMark):
    """Two neighbours that differ by one.

    Examples
    --------
    >>> mark = Consecutive((0, 1))
    >>> mark.broken_in((2, 3, 1, 4)), mark.broken_in((1, 3, 2, 4)), mark.moved((2, 0, 1, 3))
    ((), (0, 1), Consecutive(cells=(0, 2)))
    """

    word: ClassVar[str] = "consecutive"
    rank: ClassVar[int] = 3

    cells: tuple[int, ...]

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits differ by one."""
        return abs(one - other) == 1

    def called(self, grid: Grid) -> str:
        """Return it by its cells."""
        return f"the consecutive mark {self.between(grid)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the mark itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

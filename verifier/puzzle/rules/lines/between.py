"""A between line: its inner digits lie between those of its ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Self

from verifier.puzzle.rules.lines.two_way import TwoWayLine
from verifier.puzzle.rules.rule import is_complement, is_same

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Between"]


@dataclass(frozen=True, slots=True)
class Between(TwoWayLine):
    """A line whose inner digits lie strictly between the digits of its two ends.

    Parameters
    ----------
    cells : tuple of int
        Three at least, in order along the line, see `verifier.puzzle.rules.lines.two_way.either_way`.

    Examples
    --------
    >>> line = Between((0, 1, 2, 3))
    >>> line.broken_in((4, 2, 3, 1)), line.broken_in((1, 2, 4, 4)), line.broken_in((4, 3, 3, 2))
    ((), (0, 2, 3), ())
    """

    word: ClassVar[str] = "between"
    rank: ClassVar[int] = 6

    cells: tuple[int, ...]

    @property
    def ends(self) -> tuple[int, int]:
        """The two ends."""
        return self.cells[0], self.cells[-1]

    @property
    def inner(self) -> tuple[int, ...]:
        """The cells between the ends."""
        return self.cells[1:-1]

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the ends and the cells whose digits do not lie between theirs."""
        low, high = sorted(filling[cell] for cell in self.ends)
        outside = tuple(cell for cell in self.inner if not low < filling[cell] < high)
        return (self.cells[0], *outside, self.cells[-1]) if outside else ()

    def called(self, grid: Grid) -> str:
        """Return it by its ends."""
        return f"the line between {grid.cell_names(self.ends)}"

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the line itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

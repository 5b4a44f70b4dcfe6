"""A renban: different digits without a gap, in any order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Self

from verifier.puzzle.rules.house import repeated
from verifier.puzzle.rules.lines.two_way import TwoWayLine
from verifier.puzzle.rules.rule import is_complement, is_same

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling

__all__ = ["Renban"]


@dataclass(frozen=True, slots=True)
class Renban(TwoWayLine):
    """A line of different digits that follow one another, in any order.

    Parameters
    ----------
    cells : tuple of int
        In order along the line, see `verifier.puzzle.rules.lines.two_way.either_way`.

    Examples
    --------
    >>> line = Renban((0, 1, 2))
    >>> line.broken_in((3, 4, 2, 1)), line.broken_in((1, 4, 2, 3)), line.broken_in((3, 4, 3, 1))
    ((), (0, 1, 2), (0, 2))
    """

    word: ClassVar[str] = "renban"
    rank: ClassVar[int] = 6

    cells: tuple[int, ...]

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of repeated digits, or all of them where there is only a gap."""
        digits = [filling[cell] for cell in self.cells]
        again = repeated(self.cells, filling)
        return again or (() if max(digits) - min(digits) < len(digits) else self.cells)

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the line itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

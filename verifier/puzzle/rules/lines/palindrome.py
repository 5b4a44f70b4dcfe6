"""A palindrome: the line reads the same from both ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Self

from verifier.puzzle.rules.lines.two_way import TwoWayLine
from verifier.puzzle.rules.pair_rule import PairRule

__all__ = ["Palindrome"]


@dataclass(frozen=True, slots=True)
class Palindrome(TwoWayLine, PairRule):
    """A line with the same digits from both ends.

    Parameters
    ----------
    cells : tuple of int
        In order along the line, see `verifier.puzzle.rules.lines.two_way.either_way`.

    Examples
    --------
    >>> line = Palindrome((0, 1, 2, 3))
    >>> line.pairs, line.broken_in((1, 2, 2, 1)), line.broken_in((1, 2, 3, 1))
    (((0, 3), (1, 2)), (), (1, 2))
    """

    word: ClassVar[str] = "palindrome"
    rank: ClassVar[int] = 6

    cells: tuple[int, ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """The cells as far from one end as from the other, the ends first."""
        half = len(self.cells) // 2
        return tuple(zip(self.cells[:half], self.cells[::-1], strict=False))

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits are equal."""
        return one == other

    def relabelled(self, digits: Sequence[int]) -> Self:  # noqa: ARG002 - any digits will do
        """Return the line itself."""
        return self

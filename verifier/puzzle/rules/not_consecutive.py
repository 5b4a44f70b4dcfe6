"""No neighbours that differ by one: a rule of the whole grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.pair_rule import WholeGridPairs
from verifier.puzzle.rules.rule import is_complement, is_same

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["NotConsecutive"]


@dataclass(frozen=True, slots=True)
class NotConsecutive(WholeGridPairs):
    """Neighbours in a row or column never differ by one, all over the grid.

    Examples
    --------
    >>> rule = NotConsecutive(((0, 1), (1, 2)))
    >>> rule.broken_in((1, 4, 3)), rule.holds((2, 4, 1))
    ((1, 2), True)
    """

    word: ClassVar[str] = "not_consecutive"
    rank: ClassVar[int] = 5

    pairs: tuple[tuple[int, int], ...]

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits differ by something else than one."""
        return abs(one - other) != 1

    def called(self, grid: Grid) -> str:  # noqa: ARG002 - it is said of the whole grid
        """Return what it forbids."""
        return "the rule that no neighbours differ by one"

    def record(self, grid: Grid) -> dict[str, Any]:  # noqa: ARG002
        """Return its key."""
        return {self.word: "yes"}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the rule itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

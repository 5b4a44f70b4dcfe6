"""All marks of a kind are there: neighbours without one are not so. A rule of the whole grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.printable import listed
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.pair_rule import WholeGridPairs
from verifier.puzzle.rules.rule import is_complement, is_same

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Unmarked"]

_CALLED = {
    Consecutive.word: "the rule that all consecutive neighbours are marked",
    Ratio.word: "the rule that all neighbours in the ratio {values} are marked",
    PairSum.word: "the rule that all neighbours that add up to {values} are marked",
}
_CALLED_OF_NONE = {
    Ratio.word: "the rule that all neighbours are marked that are in the ratio of a mark",
    PairSum.word: "the rule that all neighbours are marked that add up to the sum of a mark",
}
"""The same where no mark of the kind is in the grid, so that the rule forbids nothing."""


@dataclass(frozen=True, slots=True)
class Unmarked(WholeGridPairs):
    """Neighbours without a mark of a kind are such that none would be true of them.

    Parameters
    ----------
    kind : str
        The `word` of the marks: ``consecutive``, ``ratio`` or ``pair_sum``.
    values : tuple of int
        The ratios or totals that occur among the marks, smallest first; none where marks have no number.
    pairs : tuple of (int, int)
        The neighbours that bear no such mark, nor another by which they may be so.

    Examples
    --------
    >>> rule = Unmarked("ratio", (2, 3), ((0, 1), (1, 2)))
    >>> rule.broken_in((4, 3, 1)), rule.holds((1, 4, 3))
    ((1, 2), True)
    """

    word: ClassVar[str] = "all_marked"
    rank: ClassVar[int] = 5

    kind: str
    values: tuple[int, ...]
    pairs: tuple[tuple[int, int], ...]

    @property
    def figure(self) -> int:
        """Which kind of marks it is."""
        return list(_CALLED).index(self.kind)

    def fits(self, one: int, other: int) -> bool:
        """Whether no mark of the kind is true of the digits."""
        if self.kind == Consecutive.word:
            return abs(one - other) != 1
        if self.kind == PairSum.word:
            return one + other not in self.values
        return not any(one == ratio * other or other == ratio * one for ratio in self.values)

    def called(self, grid: Grid) -> str:  # noqa: ARG002 - it is said of the whole grid
        """Return what it says of all neighbours."""
        called = _CALLED if self.values else {**_CALLED, **_CALLED_OF_NONE}
        return called[self.kind].format(values=listed(map(str, self.values), "or"))

    def record(self, grid: Grid) -> dict[str, Any]:  # noqa: ARG002
        """Return its kind."""
        return {self.word: self.kind}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it with the values of the new digits: where they are complemented, or stay."""
        if is_same(digits) or (self.kind == Consecutive.word and is_complement(digits)):
            return self
        if self.kind == PairSum.word and is_complement(digits):
            return replace(self, values=tuple(sorted(2 * len(digits) - total for total in self.values)))
        return None

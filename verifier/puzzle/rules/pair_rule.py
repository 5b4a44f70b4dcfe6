"""What rules over pairs of cells have in common: the digits of each pair must fit one another."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Self

from verifier.puzzle.rules.rule import Rule, is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["OneWayRule", "PairRule", "WholeGridPairs"]


class PairRule(Rule):
    """A rule that is obeyed where the digits of each of its pairs of cells fit.

    Attributes
    ----------
    pairs : tuple of (int, int)
        The pairs, each in the order in which `fits` takes their digits.
    """

    __slots__ = ()

    if TYPE_CHECKING:

        @property
        def pairs(self) -> tuple[tuple[int, int], ...]:
            """The pairs of cells."""

    @abstractmethod
    def fits(self, one: int, other: int) -> bool:
        """Whether two digits may stand in a pair."""

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of the pairs whose digits do not fit."""
        broken = {cell for a, b in self.pairs if not self.fits(filling[a], filling[b]) for cell in (a, b)}
        return tuple(sorted(broken))


class OneWayRule(PairRule):
    """A rule that says which of two cells that follow one another is greater.

    Attributes
    ----------
    cells : tuple of int
        In an order that matters: the other way round it says the opposite.
    """

    __slots__ = ()

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells in their order, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the rule elsewhere."""
        return replace(self, cells=tuple(places[cell] for cell in self.cells))  # type: ignore[type-var]

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it the other way round where digits are complemented, itself where they stay."""
        if is_complement(digits):
            return replace(self, cells=self.cells[::-1])  # type: ignore[type-var]
        return self if is_same(digits) else None


class WholeGridPairs(PairRule):
    """A rule of the whole grid, over all pairs of cells that lie in some way to each other.

    Attributes
    ----------
    pairs : tuple of (int, int)
        The pairs, each in reading order, and sorted.
    """

    __slots__ = ()

    @property
    def cells(self) -> tuple[int, ...]:
        """All cells of the pairs."""
        return tuple(sorted({cell for pair in self.pairs for cell in pair}))

    def moved(self, places: Sequence[int]) -> Self:
        """Return the rule elsewhere."""
        there = [(places[one], places[other]) for one, other in self.pairs]
        return replace(self, pairs=tuple(sorted((min(pair), max(pair)) for pair in there)))  # type: ignore[type-var]

"""What rules over pairs of cells have in common: the digits of each pair must fit one another."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

from verifier.puzzle.rules.rule import Rule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling

__all__ = ["PairRule"]


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

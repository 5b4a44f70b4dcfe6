"""What rules have in common whose digits add up to a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Self

from verifier.puzzle.rules.rule import Rule, is_complement, is_same

__all__ = ["Totalled"]


class Totalled(Rule):
    """A rule by which the digits of its cells add up to its total.

    Attributes
    ----------
    total : int
        What they add up to.
    """

    __slots__ = ()

    if TYPE_CHECKING:

        @property
        def total(self) -> int:
            """What the digits add up to."""

    @property
    def figure(self) -> int:
        """Its total."""
        return self.total

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it with the total of the new digits: where they are complemented, or stay."""
        if is_complement(digits):
            return replace(self, total=len(self.cells) * len(digits) - self.total)  # type: ignore[type-var]
        return self if is_same(digits) else None

"""A whisper: neighbours on the line differ by much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.lines.two_way import TwoWayLine, along
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Whisper"]


@dataclass(frozen=True, slots=True)
class Whisper(TwoWayLine, PairRule):
    """A line whose neighbours differ by at least so much.

    Parameters
    ----------
    cells : tuple of int
        In order along the line, see `verifier.puzzle.rules.lines.two_way.either_way`.
    least : int
        The least difference.

    Examples
    --------
    >>> line = Whisper((0, 1, 2), 2)
    >>> line.broken_in((1, 4, 2, 3)), line.broken_in((1, 3, 4, 2)), line.moved((2, 1, 0, 3))
    ((), (1, 2), Whisper(cells=(0, 1, 2), least=2))
    """

    word: ClassVar[str] = "whisper"
    rank: ClassVar[int] = 6

    cells: tuple[int, ...]
    least: int

    @property
    def figure(self) -> int:
        """The least difference."""
        return self.least

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """Its neighbours."""
        return along(self.cells)

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits differ by so much at least."""
        return abs(one - other) >= self.least

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the difference and its cells, as a file lists a clue."""
        return {self.word: self.least, "cells": written(self.cells, grid)}

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the line itself where digits are complemented, or stay."""
        return self if is_complement(digits) or is_same(digits) else None

"""Forks: candidates of which one is right, so that what follows from each of them follows in any case."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import reduce
from operator import or_

from grader.board.basis import Basis
from grader.board.patterns import Fork
from grader.reasoning.lines_of_forcing.branch import Origin
from verifier.puzzle.masks import bits

__all__ = ["LEVELS_AT_MOST", "Ways", "forks"]

LEVELS_AT_MOST = 12
"""A person follows one line no further than this many levels."""


@dataclass(frozen=True, slots=True)
class Ways:
    """The ways of a fork: the candidates of a cell, or the places of a digit in a house.

    Parameters
    ----------
    ways : tuple of (int, int)
        Pairs of cell and digit.
    why : Basis
        Why one of them is right.
    """

    ways: tuple[tuple[int, int], ...]
    why: Basis

    @property
    def pattern(self) -> Fork:
        """Of what they are the ways."""
        (one, _), (other, _), *_ = self.ways
        return Fork("cell" if one == other else "digit")

    @property
    def focus(self) -> tuple[int, ...]:
        """The cell of each way."""
        return tuple(cell for cell, _ in self.ways)

    @property
    def digits(self) -> int:
        """Mask of the digits of all ways."""
        return reduce(or_, [1 << digit for _, digit in self.ways])


def forks(origin: Origin, fewest: int, most: int) -> Iterator[Ways]:
    """Yield the forks of a board that have so many ways: cells first, then houses.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> fork = next(forks(Origin(board_from_text("12 . . . 123")), 2, 2))
    >>> fork.ways, fork.why.looks
    (((0, 1), (0, 2)), 1)
    """
    layout = origin.board.layout
    for cell, mask in enumerate(origin.board.candidates):
        if fewest <= mask.bit_count() <= most:
            yield Ways(tuple((cell, digit) for digit in bits(mask)), Basis(looks=1 << cell))
    for house, cells in enumerate(layout.house_masks):
        for digit in layout.grid.all_digits:
            places = origin.places[digit] & cells
            if fewest <= places.bit_count() <= most:
                why = Basis(rules=1 << house, looks=cells & ~places)
                yield Ways(tuple((cell, digit) for cell in bits(places)), why)

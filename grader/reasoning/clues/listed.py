"""All ways to fill a clue, listed once: what is left of them where less is open takes a few operations.

In a line of reasoning a clue is asked about again and again, each time with a little less open. Its ways are
numbered, and a mask over their numbers says for each cell and digit which of them put the digit there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache, reduce
from itertools import islice
from math import prod
from operator import or_

from grader.board.layout import Layout
from grader.reasoning.clues.clue import Clue
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.ways import ClueWays
from verifier.puzzle.masks import digits_of

__all__ = ["clue_ways", "left_if_listed", "list_ways"]

_CHOICES_AT_MOST = 5000
"""Where more choices of digits are open, going through them once takes longer than it saves."""
_WAYS_AT_MOST = 1000
"""More ways are not kept."""


class _Listed:
    """The ways to fill a clue.

    Parameters
    ----------
    masks : sequence of int
        What was open in each cell.
    ways : sequence of tuple of int
        The digits of the cells, way by way.
    """

    def __init__(self, masks: Sequence[int], ways: Sequence[tuple[int, ...]]) -> None:
        self._masks = masks
        self._every = (1 << len(ways)) - 1
        self._with = [dict.fromkeys(digits_of(mask), 0) for mask in masks]
        for number, way in enumerate(ways):
            for there, digit in zip(self._with, way, strict=True):
                there[digit] |= 1 << number
        self._some: list[dict[int, int]] = [{} for _ in masks]

    def cover(self, masks: Sequence[int]) -> bool:
        """Whether no more is open than when they were listed."""
        return all(not mask & ~own for mask, own in zip(masks, self._masks, strict=True))

    def left(self, masks: Sequence[int]) -> list[int]:
        """Return what the ways leave in each cell, where no more is open than this."""
        ways = self._every
        for place, mask in enumerate(masks):
            some, there = self._some[place], self._with[place]
            if mask not in some:
                some[mask] = reduce(or_, [there[digit] for digit in digits_of(mask)], 0)
            ways &= some[mask]
        return [
            sum([1 << digit for digit in digits_of(mask) if there[digit] & ways])
            for mask, there in zip(masks, self._with, strict=True)
        ]


class _Page:
    """Where the ways of one clue are kept once they are listed."""

    listed: _Listed | None = None


@lru_cache(maxsize=1 << 7)
def _page(layout: Layout, number: int) -> _Page:  # noqa: ARG001 - a page for each clue of each layout
    return _Page()


def list_ways(layout: Layout, number: int, candidates: Sequence[int]) -> None:
    """List the ways to fill a clue, if that is worth it and they are not listed yet."""
    page, masks = _page(layout, number), _open_in(layout, number, candidates)
    covered = page.listed is not None and page.listed.cover(masks)
    if not covered and prod([mask.bit_count() for mask in masks]) <= _CHOICES_AT_MOST:
        filled = clue_ways(layout, number, masks)
        ways = list(islice(filled.each(), _WAYS_AT_MOST + 1))
        if len(ways) <= _WAYS_AT_MOST:
            places = [filled.cells.index(cell) for cell in layout.rules[number].cells]
            page.listed = _Listed(masks, [tuple([way[place] for place in places]) for way in ways])


def left_if_listed(layout: Layout, number: int, masks: Sequence[int]) -> Mapping[int, int] | None:
    """Return what is left by the ways to fill a clue, cell by cell; None where they are not listed.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.arrow import Arrow
    >>> board = board_from_text("34 2 12", size=4, clues=[Arrow((0,), (1, 2))])
    >>> number = len(board.layout.rules) - 1
    >>> list_ways(board.layout, number, board.candidates)
    >>> left_if_listed(board.layout, number, (0b11000, 0b100, 0b10))
    {0: 8, 1: 4, 2: 2}
    """
    listed = _page(layout, number).listed
    if listed is None or not listed.cover(masks):
        return None
    return dict(zip(layout.rules[number].cells, listed.left(masks), strict=True))


def clue_ways(layout: Layout, number: int, masks: tuple[int, ...]) -> ClueWays:
    """Return the ways to fill a clue, from what is open in its cells."""
    rule = layout.rules[number]
    clue = Clue(layout, number, dict(zip(rule.cells, masks, strict=True)))
    return ClueWays.of_clue(clue, MACHINES[type(rule)])


def _open_in(layout: Layout, number: int, candidates: Sequence[int]) -> tuple[int, ...]:
    return tuple([candidates[cell] for cell in layout.rules[number].cells])

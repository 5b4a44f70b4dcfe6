"""What is left of a clue with few empty cells or few ways: for lines of reasoning that look at all clues."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import islice

from grader.board.layout import Layout
from grader.reasoning.clues.clue import clues_of
from grader.reasoning.clues.listed import clue_ways, left_if_listed
from grader.reasoning.clues.machines import MACHINES
from verifier.puzzle.masks import bits

__all__ = [
    "EMPTY_AT_MOST",
    "FewWays",
    "few_ways",
    "filled_clues",
    "left_by_clue",
    "left_by_each",
    "left_in_cells",
]

EMPTY_AT_MOST = 4
"""In the midst of a line of reasoning nobody fills more cells of a clue than this."""
_LINKED_AT_MOST = 5
"""What digits in two cells do to one another a person sees in a clue with so many empty cells."""
_WAYS_AT_MOST, _CELLS_AT_MOST = 8, 7
"""So many ways, of so many empty cells, a person keeps in mind."""

FewWays = tuple[tuple[int, ...], tuple[tuple[int, ...], ...]]
"""The empty cells of a clue in the order in which they are filled in, and their digits, way by way."""


@lru_cache(maxsize=8)
def filled_clues(layout: Layout) -> tuple[tuple[int, int], ...]:
    """Return the clues of which all ways can be gone through, by number, each with the mask of its cells."""
    numbers = [number for kind, found in clues_of(layout).items() if kind in MACHINES for number in found]
    return tuple((number, layout.masks[number]) for number in sorted(numbers))


def left_by_clue(
    layout: Layout, number: int, candidates: Sequence[int] | Mapping[int, int]
) -> Mapping[int, int]:
    """Return what the ways to fill a clue leave in its cells; nothing said where too many are empty.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.arrow import Arrow
    >>> board = board_from_text("1234 2 12", size=4, clues=[Arrow((0,), (1, 2))])
    >>> number = len(board.layout.rules) - 1
    >>> [(cell, bin(mask)) for cell, mask in left_by_clue(board.layout, number, board.candidates).items()]
    [(0, '0b1000'), (1, '0b100'), (2, '0b10')]
    """
    masks = tuple([candidates[cell] for cell in layout.rules[number].cells])
    if sum([mask & (mask - 1) > 0 for mask in masks]) > EMPTY_AT_MOST:
        return {}
    return _left(layout, number, masks)


@lru_cache(maxsize=1 << 13)
def left_in_cells(layout: Layout, number: int, masks: tuple[int, ...]) -> tuple[int, ...]:
    """Return what the ways to fill a clue leave of what is open, both in the order of its cells."""
    kept = _left(layout, number, masks)
    return tuple([kept[cell] for cell in layout.rules[number].cells])


@lru_cache(maxsize=1 << 13)
def _left(layout: Layout, number: int, masks: tuple[int, ...]) -> Mapping[int, int]:
    listed = left_if_listed(layout, number, masks)
    return clue_ways(layout, number, masks).kept if listed is None else listed


def left_by_each(
    layout: Layout, number: int, candidates: Sequence[int] | Mapping[int, int]
) -> Mapping[tuple[int, int], Mapping[int, int]]:
    """Return, for each empty cell of a clue and each digit there, what the ways with it leave in its cells.

    Nothing said where too many cells are empty, unless there are few ways.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.arrow import Arrow
    >>> board = board_from_text("34 2 12", size=4, clues=[Arrow((0,), (1, 2))])
    >>> number = len(board.layout.rules) - 1
    >>> [(mask, left[0]) for mask, left in left_by_each(board.layout, number, board.candidates).items()][2:]
    [((2, 1), 8), ((2, 2), 0)]
    """
    return _left_by_each(layout, number, tuple([candidates[cell] for cell in layout.rules[number].cells]))


@lru_cache(maxsize=1 << 12)
def _left_by_each(
    layout: Layout, number: int, masks: tuple[int, ...]
) -> Mapping[tuple[int, int], Mapping[int, int]]:
    cells = layout.rules[number].cells
    empty = [place for place, mask in enumerate(masks) if mask & (mask - 1)]
    if len(empty) > _LINKED_AT_MOST and not _few(layout, number, masks)[1]:
        return {}
    return {
        (cells[place], digit): _left(layout, number, (*masks[:place], 1 << digit, *masks[place + 1 :]))
        for place in empty
        for digit in bits(masks[place])
    }


def few_ways(layout: Layout, number: int, candidates: Sequence[int] | Mapping[int, int]) -> FewWays:
    """Return the ways to fill a clue where they are few; none where there are more, or none.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.arrow import Arrow
    >>> board = board_from_text("34 2 12", size=4, clues=[Arrow((0,), (1, 2))])
    >>> few_ways(board.layout, len(board.layout.rules) - 1, board.candidates)
    ((0, 2), ((3, 1),))
    """
    return _few(layout, number, tuple([candidates[cell] for cell in layout.rules[number].cells]))


@lru_cache(maxsize=1 << 12)
def _few(layout: Layout, number: int, masks: tuple[int, ...]) -> FewWays:
    if not 0 < sum([mask & (mask - 1) > 0 for mask in masks]) <= _CELLS_AT_MOST:
        return (), ()
    filled = clue_ways(layout, number, masks)
    ways = tuple(islice(filled.each(), _WAYS_AT_MOST + 1))
    open_in = dict(zip(layout.rules[number].cells, masks, strict=True))
    empty = [place for place, cell in enumerate(filled.cells) if open_in[cell] & (open_in[cell] - 1)]
    told = tuple(tuple(way[place] for place in empty) for way in ways) if len(ways) <= _WAYS_AT_MOST else ()
    return tuple(filled.cells[place] for place in empty), told

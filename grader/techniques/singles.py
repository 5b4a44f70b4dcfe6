"""Singles: a cell with one digit left, or a digit with one place left."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique, Trait

__all__ = ["HIDDEN_SINGLE_BOX", "HIDDEN_SINGLE_LINE", "LAST_CELL_OF_HOUSE", "NAKED_SINGLE"]


def find_last_cells_of_houses(board: Board) -> Iterator[Step]:
    """A house with one empty cell left has there the digit that is missing.

    It needs every digit once::

        row 1    before  4 1 . 8 2 9 3 7 5    after  4 1 6 8 2 9 3 7 5
                             ^                           ^

    Yields
    ------
    Step
        In the order of the houses. Two houses with the same last cell give two steps.

    Notes
    -----
    Sound in every solution: a house holds each digit once.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> step, = find_last_cells_of_houses(board_from_text("4 1 . 8 2 9 3 7 5"))
    >>> step.places
    ((2, 6),)
    """
    placed, candidates = board.placed, board.candidates
    fresh = board.fresh
    for index, mask in enumerate(board.layout.house_masks):
        empty = mask & ~placed
        if not empty or empty & (empty - 1) or not mask & fresh:
            continue
        cell = empty.bit_length() - 1
        digits = board.layout.all_digits
        others = tuple(c for c in board.layout.houses[index].cells if c != cell)
        for other in others:
            digits &= ~candidates[other]
        digit = digits.bit_length() - 1
        if digits == 1 << digit and candidates[cell] & digits:
            yield Step(
                "last-cell-of-house",
                places=((cell, digit),),
                rules=(index,),
                looks=others,
                focus=(cell,),
                digits=digits,
            )


def find_hidden_singles_in_boxes(board: Board) -> Iterator[Step]:
    """A digit that has one place left in a box stands there.

    The box needs the digit, and only one of its cells can still take it::

        box 1    before   2  68 168     after   2 68 1
                         68   5   3            68  5 3
                          4   7   9             4  7 9
                                  1 has one place: r1c3

    Yields
    ------
    Step
        In the order of the boxes, then of the digits.

    Notes
    -----
    Sound in every solution: a house holds each digit once, so the digit must stand in one of the cells that
    can take it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 2 68 168
    ... 68 5 3
    ... 4 7 9'''
    >>> [step.places for step in find_hidden_singles_in_boxes(board_from_text(text))]
    [((2, 1),)]
    """
    return _hidden_singles(board, "hidden-single-box", boxes=True)


def find_hidden_singles_in_lines(board: Board) -> Iterator[Step]:
    """A digit that has one place left in a row or a column stands there.

    As in a box, but dearer to see: the cells of a line do not stand together::

        row 1    before  2 68 168 68 5 3 4 7 9    after  2 68 1 68 5 3 4 7 9
                              ^ the only place for 1

    Yields
    ------
    Step
        In the order of the houses, then of the digits.

    Notes
    -----
    Sound in every solution, as the hidden single in a box. Rows and columns are one technique, so that a
    puzzle and its mirror image grade the same.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> step, = find_hidden_singles_in_lines(board_from_text("2 68 168 68 5 3 4 7 9"))
    >>> step.places
    ((2, 1),)
    """
    return _hidden_singles(board, "hidden-single-line", boxes=False)


def _hidden_singles(board: Board, technique: str, *, boxes: bool) -> Iterator[Step]:
    candidates, placed, fresh = board.candidates, board.placed, board.fresh
    for index, cells_of_house, cells in _houses(board.layout, boxes=boxes):
        if not cells_of_house & fresh or not cells_of_house & ~placed:
            continue
        once = twice = 0
        for cell in cells:
            mask = candidates[cell]
            twice |= once & mask
            once |= mask
        single = once & ~twice
        if not single:
            continue
        for cell in cells:
            if candidates[cell] & single and not placed >> cell & 1:
                found = candidates[cell] & single
                if found & (found - 1):
                    continue  # two digits for one cell: a contradiction, which the replay sees by itself
                yield Step(
                    technique,
                    places=((cell, found.bit_length() - 1),),
                    rules=(index,),
                    looks=tuple(c for c in cells if c != cell),
                    focus=(cell,),
                    digits=found,
                )


@lru_cache(maxsize=8)
def _houses(layout: Layout, *, boxes: bool) -> tuple[tuple[int, int, tuple[int, ...]], ...]:
    """Return the boxes or the other houses: the number of each, its cells as a mask, and its cells."""
    numbered = enumerate(zip(layout.house_masks, layout.houses, strict=True))
    return tuple((n, mask, house.cells) for n, (mask, house) in numbered if (house.kind == "box") is boxes)


def find_naked_singles(board: Board) -> Iterator[Step]:
    """A cell with one candidate left takes it.

    The cells it sees have taken all the others::

        row 1    before  1 2 3 4 . . . . 6?    after  1 2 3 4 . . . . 6
                                         ^

    Yields
    ------
    Step
        In reading order.

    Notes
    -----
    Sound in every solution: the cell must hold one of its candidates.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> step, = find_naked_singles(board_from_text("1 2 3 4 . . . . 6?"))
    >>> step.places
    ((8, 6),)
    """
    placed = board.placed
    for cell, mask in enumerate(board.candidates):
        if mask and not mask & (mask - 1) and not placed >> cell & 1:
            yield Step(
                "naked-single",
                places=((cell, mask.bit_length() - 1),),
                looks=(cell,),
                focus=(cell,),
                digits=mask,
            )


LAST_CELL_OF_HOUSE = Technique(
    "last-cell-of-house", "last cell of a house", find_last_cells_of_houses, traits=Trait.EASY_DIGIT
)
HIDDEN_SINGLE_BOX = Technique(
    "hidden-single-box",
    "hidden single in a box",
    find_hidden_singles_in_boxes,
    traits=Trait.FOLLOWS_ITS_DIGITS | Trait.EASY_DIGIT,
    source='Named "exclusion" by Lee, Goodwin and Johnson-Laird, Thinking & Reasoning 14(4), 2008.',
)
HIDDEN_SINGLE_LINE = Technique(
    "hidden-single-line",
    "hidden single in a line",
    find_hidden_singles_in_lines,
    traits=Trait.FOLLOWS_ITS_DIGITS | Trait.EASY_DIGIT,
)
NAKED_SINGLE = Technique(
    "naked-single",
    "naked single",
    find_naked_singles,
    traits=Trait.EASY_DIGIT,
    source='Named "inclusion" by Lee, Goodwin and Johnson-Laird, Thinking & Reasoning 14(4), 2008.',
)

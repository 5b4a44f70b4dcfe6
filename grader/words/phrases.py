"""The small words of the sentences: lists, cells, houses, cages, digits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from grader.board.layout import Layout
from grader.board.patterns import DeadEnd
from grader.words.wording import line_words, sum_words
from verifier.puzzle.masks import digits_of
from verifier.puzzle.printable import listed
from verifier.puzzle.rules.house import by_kind
from verifier.puzzle.run_layout import cage_at

__all__ = [
    "cage_in_words",
    "cells_in_words",
    "combination_in_words",
    "combinations_in_words",
    "dead_end_in_words",
    "digits_in_words",
    "houses_in_words",
    "list_in_words",
    "sentence",
]


_MISSING_AT_MOST = 2
"""A combination that lacks no more digits than this is told by what it lacks."""


def list_in_words(words: Sequence[str], last: str = "and") -> str:
    """Return a list as one says it.

    Examples
    --------
    >>> list_in_words(["row 1"]), list_in_words(["3", "7"], "or"), list_in_words(["1", "2", "3"])
    ('row 1', '3 or 7', '1, 2 and 3')
    """
    return listed(words, last, most=len(words))  # a step is told whole, however many cells it has


def digits_in_words(digits: int, last: str = "and") -> str:
    """Return a mask of digits in words.

    Examples
    --------
    >>> digits_in_words(0b10010100)
    '2, 4 and 7'
    """
    return list_in_words([str(digit) for digit in digits_of(digits)], last)


def cells_in_words(cells: Iterable[int], layout: Layout, last: str = "and") -> str:
    """Return the names of cells as one says them: ``r1c1 and r1c4``."""
    return list_in_words([layout.grid.cell_name(cell) for cell in cells], last)


def houses_in_words(houses: Iterable[int], layout: Layout) -> str:
    """Name houses as one says them: ``row 3``; ``rows 1 to 4``; ``row 1 and boxes 2 and 3``."""
    return list_in_words(by_kind((layout.houses[house] for house in houses), _numbers_in_words))


def _numbers_in_words(numbers: Sequence[int]) -> str:
    """Return numbers as one says them, three or more neighbours as a span."""
    if len(numbers) > 2 and list(numbers) == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return list_in_words([str(number) for number in numbers])


def cage_in_words(cage: int, layout: Layout) -> str:
    """Return what people call a cage: its total and its first cell, of a run also its way."""
    return sum_words.CAGE.format(cage=cage_at(layout.grid, layout.cage(cage)))


def combination_in_words(combination: int, layout: Layout, join: str = "+") -> str:
    """Return one combination as one says it; of nearly all digits, those that are missing.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> layout = board_from_text("").layout
    >>> combination_in_words(0b100001000, layout), combination_in_words(0b1111101110, layout)
    ('3+8', 'every digit but 4')
    """
    missing = layout.all_digits & ~combination
    if missing.bit_count() <= _MISSING_AT_MOST and combination.bit_count() > 2 * _MISSING_AT_MOST:
        return f"every digit but {digits_in_words(missing)}" if missing else "every digit"
    return join.join(map(str, digits_of(combination))) if join else digits_in_words(combination)


def combinations_in_words(combinations: Sequence[int], layout: Layout) -> str:
    """Return combinations as one says them: ``1+9 or 3+8``."""
    return list_in_words([combination_in_words(digits, layout) for digits in combinations], "or")


def sentence(text: str) -> str:
    """Return a text with a capital and a full stop; a cell keeps its small letter, for r1c1 is a name.

    Examples
    --------
    >>> sentence("row 1 is full"), sentence("r1c1 is 5")
    ('Row 1 is full.', 'r1c1 is 5.')
    """
    starts_with_cell = text[:1] == "r" and text[1:2].isdigit()
    return f"{text if starts_with_cell else text[:1].upper() + text[1:]}."


def dead_end_in_words(end: DeadEnd, layout: Layout) -> str:
    """Tell where digits lead nowhere; goes on from "that would leave".

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> dead_end_in_words(DeadEnd("house", 0, 7), board_from_text("").layout)
    'no place for 7 in row 1'
    """
    return line_words.DEAD_ENDS[end.kind].format(
        cell=layout.grid.cell_name(end.where) if end.kind in ("cell", "clash") else "",
        house=layout.houses[end.where].name if end.kind == "house" else "",
        cage=cage_in_words(end.where, layout) if end.kind == "cage" else "",
        clue=layout.rules[end.where].called(layout.grid) if end.kind == "clue" else "",
        digit=end.digit,
    )

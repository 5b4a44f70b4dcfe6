"""What a step does, told: the digit that is placed, the digits that go, or those that stay."""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.words.phrases import cells_in_words, digits_in_words, houses_in_words, list_in_words
from grader.words.wording import evidence
from verifier.puzzle.masks import mask_of

__all__ = ["effect_in_words", "gone_digits", "never_in_words"]

_NAMED_AT_MOST = 3
"""So many digits, or cells, are named one by one where there is a shorter way for more."""


def effect_in_words(step: Step, layout: Layout, board: Board | None = None) -> str:
    r"""Return what a step does.

    Parameters
    ----------
    step : Step
        Any step of a replay or walk of the puzzle.
    layout : Layout
        The puzzle's layout.
    board : Board, optional
        The board on which the step is taken. With it, many cells are told as the rest of a house, and
        many digits that go by the few that stay.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.intersections import find_locked_candidates
    >>> board = board_from_text("14 24 3\n5 6 7\n8 9 12")
    >>> step, = find_locked_candidates(board)
    >>> effect_in_words(step, board.layout), effect_in_words(step, board.layout, board)
    ('4 goes from r1c4, r1c5, r1c6, r1c7, r1c8 and r1c9', '4 goes from the rest of row 1')
    """
    if step.places:
        return list_in_words([f"{layout.grid.cell_name(cell)} is {digit}" for cell, digit in step.places])
    gone = gone_digits(step)
    if board is not None:
        houses = _rest_of_houses(step, gone, board) if len(step.removes) > _NAMED_AT_MOST else ()
        if houses:
            where = evidence.REST_OF.format(houses=houses_in_words(houses, layout))
            return _numbered(evidence.GO, gone).format(digits=digits_in_words(gone), cells=where)
        kept = [(cell, board.candidates[cell] & ~digits) for cell, digits in step.removes]
        fewer_stay = all(0 < digits.bit_count() < gone.bit_count() for _, digits in kept)
        if gone.bit_count() > _NAMED_AT_MOST and fewer_stay:
            return _by_cells(kept, evidence.STAY, layout)
    return _by_cells(step.removes, evidence.GO, layout)


def never_in_words(step: Step, layout: Layout) -> str:
    """Return what a step removes as what never stands there, whichever way one goes about it."""
    return _by_cells(step.removes, evidence.NEVER, layout)


def gone_digits(step: Step) -> int:
    """Return the mask of all digits that a step removes anywhere."""
    return reduce(or_, (digits for _, digits in step.removes), 0)


def _rest_of_houses(step: Step, gone: int, board: Board) -> tuple[int, ...]:
    """Return houses of the step such that it clears them of `gone`, its own cells left aside; or none."""
    layout = board.layout
    own = mask_of(step.focus)
    for cage in layout.cages_among(step.rules):
        own |= layout.masks[cage]
    cleared = dict(step.removes)
    every = layout.houses_among(step.rules)
    for houses in (every[len(every) // 2 :], every):
        cells = {cell for house in houses for cell in layout.houses[house].cells if not own >> cell & 1}
        there = {cell: board.candidates[cell] & gone for cell in cells if board.candidates[cell] & gone}
        if there == cleared:
            return houses
    return ()


def _by_cells(pairs: Iterable[tuple[int, int]], templates: tuple[str, str], layout: Layout) -> str:
    """Tell pairs of a cell and digits, the cells with the same digits together."""
    cells_of: dict[int, list[int]] = {}
    for cell, digits in pairs:
        cells_of.setdefault(digits, []).append(cell)
    return list_in_words(
        [
            _numbered(templates, digits).format(
                digits=digits_in_words(digits), cells=cells_in_words(cells, layout)
            )
            for digits, cells in cells_of.items()
        ]
    )


def _numbered(templates: tuple[str, str], digits: int) -> str:
    """Return the template for one digit, or the one for several."""
    return templates[digits & (digits - 1) != 0]

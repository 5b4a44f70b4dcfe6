"""Where a contradiction shows on a board: what has nothing left, and the cells in which one sees it."""

from __future__ import annotations

from typing import NamedTuple

from grader.board.board import Board
from verifier.puzzle.masks import mask_of
from verifier.puzzle.run_layout import cage_at
from verifier.walkthrough import wording

__all__ = ["SeenContradiction", "contradiction_on"]


class SeenContradiction(NamedTuple):
    """A contradiction.

    Parameters
    ----------
    says : str
        In words, as part of a sentence.
    cells : int
        Mask of the cells in which it shows.
    """

    says: str
    cells: int


def contradiction_on(board: Board) -> SeenContradiction | None:
    """Return the first contradiction that a board shows; None where it shows none in a cell, house or rule.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> contradiction_on(board_from_text("12 12 12 3", size=4)).says
    'row 1 has no place for 4'
    """
    layout = board.layout
    name = layout.grid.cell_name
    if 0 in board.candidates:
        empty = list(board.candidates).index(0)
        return SeenContradiction(wording.NOTHING_LEFT.format(cell=name(empty)), 1 << empty)
    for house in layout.houses:
        for digit in layout.grid.all_digits:
            if not any(board.candidates[cell] >> digit & 1 for cell in house.cells):
                says = wording.NO_PLACE.format(house=house.name, digit=digit)
                return SeenContradiction(says, mask_of(house.cells))
    for number, mask in layout.summed_masks:
        cage = layout.cage(number)
        made = sum(board.candidates[cell].bit_length() - 1 for cell in cage.cells)
        if not mask & ~board.placed and made != cage.total:
            says = wording.FULL_CAGE.format(cage=cage_at(layout.grid, cage), made=made)
            return SeenContradiction(says, mask)
    for number in range(layout.cage_numbers.stop, len(layout.rules)):
        rule = layout.rules[number]
        if not layout.masks[number] & ~board.placed and not rule.holds(board.filling):
            return SeenContradiction(
                wording.BROKEN.format(rule=rule.called(layout.grid)), layout.masks[number]
            )
    return None

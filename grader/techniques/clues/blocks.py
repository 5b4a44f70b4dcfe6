"""Blocks of four cells that hold some digits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.around import gone_around
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from verifier.puzzle.masks import mask_of
from verifier.puzzle.rules.marks.quadruple import Quadruple

__all__ = ["BLOCK_CELLS", "CERTAIN_IN_BLOCK"]


def find_block_cells(board: Board) -> Iterator[Step]:
    """A block that needs all its empty cells for its digits takes no others, nor a digit's last cells.

    With 1, 4 and 9 in a block in which one cell has a 2 already::

        r1c1 r1c2  before  2 13459          after  2 149
        r2c1 r2c2  before  1234 456789      after  14 49

    Yields
    ------
    Step
        In the order of the blocks; all cells together, then digit by digit. `focus` is the cells that lose
        something.

    Notes
    -----
    Sound in every solution: each digit of the block stands in one of its cells, as often as it is named.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> lines = "2 13459", "1234 456789"
    >>> board = board_from_text(chr(10).join(lines), clues=[Quadruple((0, 1, 9, 10), (1, 4, 9))])
    >>> [[digits_of(gone) for _, gone in step.removes] for step in find_block_cells(board)]
    [[(3, 5), (2, 3), (5, 6, 7, 8)]]
    """
    yield from clue_steps(board, "block-cells", {Quadruple: _full})


def _missing(clue: Clue) -> tuple[Counter[int], list[int]]:
    """Return the digits that a block still needs, and its cells in which more than one digit is open."""
    left = [cell for cell in clue.cells if clue.candidates[cell].bit_count() > 1]
    standing = Counter(clue.low(cell) for cell in clue.cells if cell not in left)
    return Counter(clue.rule.digits) - standing, left


def _full(clue: Clue) -> Iterator[ClueFinding]:
    missing, left = _missing(clue)
    digits = mask_of(missing)
    if missing.total() == len(left):
        removes = tuple((cell, gone) for cell in left if (gone := clue.open_in(cell, ~digits)))
        if removes:
            yield ClueFinding(removes, clue.cells, clue.says("block-full", digits=digits, number=len(left)))
    for digit, count in missing.items():
        places = [cell for cell in left if clue.candidates[cell] >> digit & 1]
        removes = tuple((cell, gone) for cell in places if (gone := clue.open_in(cell, ~(1 << digit))))
        if len(places) == count and removes:
            said = clue.says("block-place", digits=1 << digit, cells=tuple(places))
            yield ClueFinding(removes, clue.cells, said)


def find_certain_in_blocks(board: Board) -> Iterator[Step]:
    """A digit that a block needs goes from the cells that see all its places in the block.

    With a 5 in the block of r1c1, r1c2, r2c1 and r2c2, which has no place in row 2::

        row 1    before  1356 5789 12345    after  1356 5789 1234

    Yields
    ------
    Step
        In the order of the blocks, then of the digits. `focus` is the places of the digit.

    Notes
    -----
    Sound in every solution: the digit stands in one of these places.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> lines = "135 357 2345 . . . . . .", "123 789"
    >>> board = board_from_text(chr(10).join(lines), clues=[Quadruple((0, 1, 9, 10), (2, 5))])
    >>> [(step.focus, step.removes[0] == (2, 1 << 5)) for step in find_certain_in_blocks(board)]
    [((0, 1), True)]
    """
    yield from clue_steps(board, "certain-in-block", {Quadruple: _locked})


def _locked(clue: Clue) -> Iterator[ClueFinding]:
    missing, left = _missing(clue)
    for digit in missing:
        places = [1 << cell for cell in left if clue.candidates[cell] >> digit & 1]
        yield from gone_around(clue, digit, "certain-in-block", by_way=places)


BLOCK_CELLS = Technique("block-cells", "cells that a block needs", find_block_cells)
CERTAIN_IN_BLOCK = Technique("certain-in-block", "digits of a block", find_certain_in_blocks)

"""Locked candidates: a digit that a box and a line, or two boxes and two lines, keep between them."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.hall import confined_digits
from verifier.puzzle.masks import bits

__all__ = ["LOCKED_CANDIDATES", "TWO_BOX_LOCKED"]


def find_locked_candidates(board: Board) -> Iterator[Step]:
    """From box to line, from line to box: what one has only where they cross goes from the rest of the other.

    The box or the line holds the digit in one of the cells that both share, so the rest of the other has no
    place for it.

    From box to line: in box 1 the 4 lies in row 1, so it goes from the rest of row 1::

        box 1    14 24 3    row 1 outside the box    before  45 489    after  5 89
                  5  6 7
                  8  9 12

    From line to box: in row 1 the 7 lies in box 1, so it goes from the rest of box 1::

        row 1    478 47 2 1 3 5 6 9 48    box 1 outside the row    before  79 5 78    after  9 5 8
                 ^   ^

    Yields
    ------
    Step
        In the order of the houses, then of the digits. Its `houses` are first the house in which the
        digit is locked, then the house it goes from.

    Notes
    -----
    Sound in every solution: the first house holds the digit in one of the cells that both houses share, and
    the second holds it once. A digit with one place in the house is a hidden single and left out.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> step, = find_locked_candidates(board_from_text('''
    ... 14 24 3
    ... 5 6 7
    ... 8 9 12'''))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 4
    ((0, 1), [3, 4, 5, 6, 7, 8], True)
    >>> step, = find_locked_candidates(board_from_text("478 47 2 1 3 5 6 9 48"))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 7
    ((0, 1), [9, 10, 11, 18, 19, 20], True)
    """
    layout, places = board.layout, board.places()
    masks = layout.house_masks
    for index in board.fresh_houses():
        house = masks[index]
        for digit in layout.grid.all_digits:
            found = places[digit] & house
            if not found & (found - 1):
                continue
            for other in layout.houses_of[found.bit_length() - 1]:
                if other == index or found & ~masks[other]:
                    continue
                gone = places[digit] & masks[other] & ~house
                if gone:
                    yield Step(
                        "locked-candidates",
                        removes=tuple((cell, 1 << digit) for cell in bits(gone)),
                        rules=(index, other),
                        looks=tuple(bits(house & ~masks[other])),
                        focus=tuple(bits(found)),
                        digits=1 << digit,
                    )


def find_two_box_locks(board: Board) -> Iterator[Step]:
    """A digit that two boxes have only on the same two lines goes from the rest of these lines.

    The same holds of two lines that have the digit only in the same two boxes. In box 1 and in box 4 the 5
    lies in columns 1 and 2. So these boxes take the 5 of both columns, and in box 7, below them, it is in
    column 3::

        box 1    59  58  1
                  2  35  4
                  6  78  37
        box 4    57  56  3
                  8   9  67
                  1  45  24
        box 7     .   .  .      before  357 35 56    after  37 3 56

    Yields
    ------
    Step
        First boxes locked to lines, then lines locked to boxes; in the order of digits, then of houses.
        Its `houses` are first the two in which the digit is locked, then the two it goes from.

    Notes
    -----
    Sound in every solution: the two boxes hold the digit in two cells, one on each of the two lines, and each
    line holds it once. Where a band has three boxes and three lines, as in a 9x9 grid, the third line then
    has the digit in the third box only, so that a step from line to box, or a hidden single, removes the
    same: there the technique is another way to see it and never needed. Likewise the second form, two lines
    locked to two boxes, is a step from box to line. With four boxes and four lines the two forms are each
    other's counterpart; with five they differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> step = next(find_two_box_locks(board_from_text('''
    ... 59 58 1
    ... 2 35 4
    ... 6 78 37
    ... 57 56 3
    ... 8 9 67
    ... 1 45 24''')))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 5
    ((0, 1, 10, 27, 28, 46), [54, 55, 63, 64, 72, 73], True)
    """
    ways = (("box", "row"), ("box", "column"), ("row", "box"), ("column", "box"))
    return confined_digits(board, "two-box-locked", 2, ways)


LOCKED_CANDIDATES = Technique(
    "locked-candidates",
    "locked candidates",
    find_locked_candidates,
    traits=Trait.FOLLOWS_ITS_DIGITS | Trait.MERGED,
)
TWO_BOX_LOCKED = Technique(
    "two-box-locked",
    "locked candidates over two boxes",
    find_two_box_locks,
    traits=Trait.FOLLOWS_ITS_DIGITS,
    source=(
        "Own derivation: what is locked in some boxes and lines leaves the other lines to the other boxes."
    ),
)

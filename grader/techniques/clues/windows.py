"""Lines of different digits without a gap: the windows of digits that they may hold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from operator import and_, or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.around import gone_around
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.lines.renban import Renban

__all__ = ["CERTAIN_IN_WINDOWS", "WINDOWS"]


def find_windows(board: Board) -> Iterator[Step]:
    """A line of different digits without a gap holds a window of digits in a row, and only some are open.

    A renban of four that holds a 1 is 1234, and one that holds an 8 is 5678 or 6789. A window is open where
    each cell takes a digit of it, and each of its digits has a cell. With a renban of r1c1 to r1c4::

        row 1    before  8? 123456789 123456789 123456789    after  8? 56789 56789 56789

    Yields
    ------
    Step
        In the order of the lines. `focus` is all cells of the line.

    Notes
    -----
    Sound in every solution: different digits without a gap are a window, and it is open.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("1? 1234 1234", size=4, clues=[Renban((0, 1, 2))])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_windows(board)]
    [[(1, (4,)), (2, (4,))]]
    """
    yield from clue_steps(board, "windows", {Renban: _outside})


def _windows(clue: Clue) -> list[int]:
    """Return the masks of the windows that are open."""
    masks = [clue.candidates[cell] for cell in clue.cells]
    together, size = reduce(or_, masks), len(masks)
    windows = [mask_of(range(first, first + size)) for first in range(1, clue.digits + 2 - size)]
    return [window for window in windows if not window & ~together and all(window & mask for mask in masks)]


def _outside(clue: Clue) -> Iterator[ClueFinding]:
    windows = _windows(clue)
    kept = reduce(or_, windows, 0)
    removes = tuple((cell, gone) for cell in clue.cells if (gone := clue.open_in(cell, ~kept)))
    if windows and removes:
        held = [cell for cell in clue.cells if clue.candidates[cell].bit_count() == 1]
        said = clue.says(
            "window-with" if held else "windows-left",
            number=len(clue.cells),
            total=clue.low(held[0]) if held else 0,
            ways=tuple(tuple(bits(window)) for window in windows),
        )
        yield ClueFinding(removes, clue.cells, said, focus=clue.cells)


def find_certain_in_windows(board: Board) -> Iterator[Step]:
    """A digit that every window of a line has goes from the cells that see all its places on the line.

    If it has one place there, nothing else stands in that. A renban of five has a 5 whatever else it holds.
    With one over r1c1 to r1c5, no other cell of the row can take it::

        row 1    before  123456789 . . . . 12345    after  123456789 . . . . 1234

    Yields
    ------
    Step
        In the order of the lines, then of the digits. `focus` is the places of the digit.

    Notes
    -----
    Sound in every solution: the line holds one of its open windows, so it holds the digit, in one of the
    cells where it is open.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text(". . . 12", size=4, clues=[Renban((0, 1, 2))])
    >>> [(step.focus, step.removes == ((3, 1 << 2),)) for step in find_certain_in_windows(board)][:1]
    [((0, 1, 2), True)]
    """
    yield from clue_steps(board, "certain-in-windows", {Renban: _certain})


def _certain(clue: Clue) -> Iterator[ClueFinding]:
    windows = _windows(clue)
    for digit in bits(reduce(and_, windows)) if windows else ():
        places = [cell for cell in clue.cells if clue.candidates[cell] >> digit & 1]
        gone = clue.open_in(places[0], ~(1 << digit))
        if len(places) == 1 and gone:
            said = clue.says("only-on-line", digits=1 << digit, cells=(places[0],))
            yield ClueFinding(((places[0], gone),), clue.cells, said)
        yield from gone_around(clue, digit, "certain-on-line")


WINDOWS = Technique("windows", "windows of digits", find_windows)
CERTAIN_IN_WINDOWS = Technique("certain-in-windows", "digits of every window", find_certain_in_windows)

"""Lines along which the digits rise: each cell bounds those before it and those after it."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from verifier.puzzle.rules.lines.thermometer import Thermometer

__all__ = ["RISING_BOUNDS"]


def find_rising_bounds(board: Board) -> Iterator[Step]:
    """Along a line that rises, each cell is above all before it and below all after it.

    So many cells before it, so much it is above the smallest digit or the least of an earlier cell; and
    likewise from the other end. On a thermometer of four cells, the second of which is at least 5::

        row 1    before  123456789 56789 123456789 123456789    after  12345 567 678 789

    Yields
    ------
    Step
        In the order of the lines and of their cells; what is too small, then what is too large. `focus` is
        the cell.

    Notes
    -----
    Sound in every solution: from cell to cell the digit grows by one at least.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("1234 34 1234", size=4, clues=[Thermometer((0, 1, 2))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_rising_bounds(board)]
    [((0,), (3, 4)), ((1,), (4,)), ((2,), (1, 2, 3))]
    """
    yield from clue_steps(board, "rising-bounds", {Thermometer: _rising})


def _rising(clue: Clue) -> Iterator[ClueFinding]:
    for place, cell in enumerate(clue.cells):
        yield from _too_small(clue, place, cell)
        yield from _too_large(clue, place, cell)


def _too_small(clue: Clue, place: int, cell: int) -> Iterator[ClueFinding]:
    """Yield what is too small in a cell: for its place on the line, or for a cell before it."""
    by_cell = [(clue.low(other) + place - at, at) for at, other in enumerate(clue.cells[:place])]
    least, at = max(by_cell, default=(0, 0))
    if least > place + 1:
        if gone := clue.open_in(cell, clue.below(least)):
            other = clue.cells[at]
            said = clue.says("above", bound=least, number=place - at, total=clue.low(other), cells=(other,))
            yield ClueFinding(((cell, gone),), (other,), said)
    elif gone := clue.open_in(cell, clue.below(place + 1)):
        yield ClueFinding(((cell, gone),), (), clue.says("rise-to", bound=place + 1, number=place + 1))


def _too_large(clue: Clue, place: int, cell: int) -> Iterator[ClueFinding]:
    """Yield what is too large in a cell: for its place on the line, or for a cell behind it."""
    count = len(clue.cells) - place
    room = clue.digits + 1 - count
    by_cell = [
        (clue.high(other) - at, place + at) for at, other in enumerate(clue.cells[place + 1 :], start=1)
    ]
    most, at = min(by_cell, default=(clue.digits, place))
    if most < room:
        if gone := clue.open_in(cell, clue.above(most)):
            other = clue.cells[at]
            said = clue.says("below", bound=most, number=at - place, total=clue.high(other), cells=(other,))
            yield ClueFinding(((cell, gone),), (other,), said)
    elif gone := clue.open_in(cell, clue.above(clue.digits + 1 - count)):
        yield ClueFinding(
            ((cell, gone),), (), clue.says("rise-from", bound=clue.digits + 1 - count, number=count)
        )


RISING_BOUNDS = Technique("rising-bounds", "bounds along a rising line", find_rising_bounds)

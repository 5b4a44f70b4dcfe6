"""Clues at the edge that count what is seen from there, each digit a building of that height."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, Finding, clue_steps
from verifier.puzzle.rules.edge.skyscraper import Skyscraper

__all__ = ["SEEN_HEIGHTS"]


def find_seen_heights(board: Board) -> Iterator[Step]:
    """The nearer to the edge, the lower a digit must be for as many to be seen as the clue asks.

    Before it there are so many cells, and behind it only higher ones are seen. If one is seen, the highest
    stands first; if all are, they rise all along. With 4 to be seen from the left::

        row 1    before  123456789 123456789 123456789 123456789    after  123456 1234567 12345678 123456789

    Yields
    ------
    Step
        In the order of the clues and of their cells. `focus` is the cell.

    Notes
    -----
    Sound in every solution: seen are at most the cells before a digit, itself, and the digits above it. A
    first cell that is not the highest does not hide it.

    Examples
    --------
    >>> from grader.board.board import board_from_text, digits_of
    >>> board = board_from_text("", size=4, clues=[Skyscraper((0, 1, 2, 3), 3)])
    >>> [(step.focus, digits_of(step.digits)) for step in find_seen_heights(board)]
    [((0,), (3, 4)), ((1,), (4,))]
    """
    yield from clue_steps(board, "seen-heights", {Skyscraper: _too_high})


def _too_high(clue: Clue) -> Iterator[Finding]:
    count, top = clue.rule.count, clue.digits
    if clue.house is None:
        return
    if count == 1:
        first = clue.cells[0]
        if gone := clue.open_in(first, clue.below(top)):
            yield Finding(((first, gone),), (), clue.says("sees-one", bound=top), (clue.house,))
        return
    for before, cell in enumerate(clue.cells):
        most = top - count + 1 + before
        if gone := clue.open_in(cell, clue.above(most)):
            how = "sees-all" if count == top else "too-high-first" if not before else "too-high"
            said = clue.says(how, bound=most, number=before, total=count)
            yield Finding(((cell, gone),), (), said, (clue.house,))


SEEN_HEIGHTS = Technique("seen-heights", "heights near the edge", find_seen_heights)

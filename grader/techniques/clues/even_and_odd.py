"""Cells that are marked as even or odd."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from verifier.puzzle.masks import mask_of
from verifier.puzzle.rules.marks.parity import Even, Odd

__all__ = ["EVEN_AND_ODD"]


def find_even_and_odd(board: Board) -> Iterator[Step]:
    """A cell that is marked as even or odd takes no other digits.

    With an even r1c1 and an odd r1c2::

        row 1    before  123456789 123456789    after  2468 13579

    Yields
    ------
    Step
        One for each mark, which may be over several cells: even ones, then odd ones.

    Notes
    -----
    Sound in every solution: it is what the mark says.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("1234 1234", size=4, clues=[Even((0,)), Odd((1,))])
    >>> [digits_of(step.removes[0][1]) for step in find_even_and_odd(board)]
    [(1, 3), (2, 4)]
    """
    yield from clue_steps(board, "even-and-odd", {Even: _of_other_kind, Odd: _of_other_kind})


def _of_other_kind(clue: Clue) -> Iterator[ClueFinding]:
    others = mask_of(digit for digit in clue.layout.grid.all_digits if digit % 2 != clue.rule.rest)
    removes = tuple((cell, gone) for cell in clue.cells if (gone := clue.open_in(cell, others)))
    if removes:
        yield ClueFinding(removes, (), clue.says(clue.rule.word))


EVEN_AND_ODD = Technique("even-and-odd", "even and odd cells", find_even_and_odd)

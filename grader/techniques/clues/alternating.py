"""Lines whose neighbours are far apart: low and high digits take turns."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board, mask_of
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, Finding, clue_steps
from verifier.puzzle.rules.lines.whisper import Whisper

__all__ = ["LOW_AND_HIGH"]


def find_low_and_high(board: Board) -> Iterator[Step]:
    """Along a line whose neighbours are far apart, low and high digits take turns.

    Where neighbours differ by more than half of the digits, no two low ones stand side by side, nor two high
    ones. Once one cell is known to be low or high, so are all. On a whisper of 5 over r1c1 to r1c3::

        row 1    before  12346789 678 12346789    after  1234 678 1234

    Yields
    ------
    Step
        In the order of the lines. `focus` is the cells that lose something.

    Notes
    -----
    Sound in every solution: a low digit has only high ones far enough from it, and the other way about.

    Examples
    --------
    >>> from grader.board.board import board_from_text, digits_of
    >>> board = board_from_text("1234 4 1234", size=4, clues=[Whisper((0, 1, 2), 2)])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_low_and_high(board)]
    [[(0, (3, 4)), (2, (3, 4))]]
    """
    yield from clue_steps(board, "low-and-high", {Whisper: _in_turn})


def _in_turn(clue: Clue) -> Iterator[Finding]:
    top, least = clue.digits, clue.rule.least
    sides = mask_of(range(1, top - least + 1)), mask_of(range(1 + least, top + 1))
    if sides[0] & sides[1]:
        return  # a digit in the middle may have neighbours on both sides
    for place, cell in enumerate(clue.cells):
        side = next((at for at, digits in enumerate(sides) if not clue.candidates[cell] & ~digits), None)
        if side is not None:
            removes = tuple(
                (other, gone)
                for at, other in enumerate(clue.cells)
                if other != cell and (gone := clue.open_in(other, ~sides[(at - place + side) % 2]))
            )
            if removes:
                said = clue.says(("take-turns-low", "take-turns-high")[side], cells=(cell,))
                yield Finding(removes, (cell,), said)
                return


LOW_AND_HIGH = Technique("low-and-high", "low and high in turn", find_low_and_high)

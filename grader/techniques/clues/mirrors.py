"""Lines that read the same from both ends: what stands in a cell stands in its mirror cell."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps, clues_of
from verifier.puzzle.rules.lines.palindrome import Palindrome

__all__ = ["MIRRORED_CANDIDATES", "MIRRORED_DIGIT"]


def find_mirrored_digits(board: Board) -> Iterator[Step]:
    """On a line that reads the same from both ends, a digit stands in the mirror cell too.

    On a palindrome over r1c1, r2c2, r3c3 and r4c4::

        r1c1  before  7           after  7
        r4c4  before  123456789   after  7

    Yields
    ------
    Step
        In the order of the lines, from their ends to the middle. `focus` is the cell, then its mirror cell.

    Notes
    -----
    Sound in every solution: it is what the line says.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("4", size=4, clues=[Palindrome((0, 5, 10))])
    >>> [step.places for step in find_mirrored_digits(board)]
    [((10, 4),)]
    """
    layout, candidates = board.layout, board.candidates
    for number in clues_of(layout).get(Palindrome, ()):
        for pair in Clue(layout, number, candidates).rule.pairs if board.fresh & layout.masks[number] else ():
            for cell, mirror in (pair, pair[::-1]):
                there = candidates[mirror]
                if board.placed >> mirror & 1 and not board.placed >> cell & 1 and candidates[cell] & there:
                    yield Step(
                        "mirrored-digit",
                        places=((cell, there.bit_length() - 1),),
                        rules=(number,),
                        looks=(mirror,),
                        focus=(cell, mirror),
                        digits=there,
                        pattern=Clue(layout, number, candidates).says("mirrored", cells=(mirror,)),
                    )


def find_mirrored_candidates(board: Board) -> Iterator[Step]:
    """On a line that reads the same from both ends, what is closed in a cell is closed in its mirror cell.

    On a palindrome over r1c1, r2c2, r3c3 and r4c4::

        r1c1  before  378         after  378
        r4c4  before  123456789   after  378

    Yields
    ------
    Step
        In the order of the lines, from their ends to the middle. `focus` is the cell.

    Notes
    -----
    Sound in every solution: the two cells hold the same digit.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("34", size=4, clues=[Palindrome((0, 5, 10))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_mirrored_candidates(board)]
    [((10,), (1, 2))]
    """
    yield from clue_steps(board, "mirrored-candidates", {Palindrome: _closed})


def _closed(clue: Clue) -> Iterator[ClueFinding]:
    for pair in clue.rule.pairs:
        for cell, mirror in (pair, pair[::-1]):
            if gone := clue.open_in(cell, ~clue.candidates[mirror]):
                yield ClueFinding(((cell, gone),), (mirror,), clue.says("mirror-closed", cells=(mirror,)))


MIRRORED_DIGIT = Technique("mirrored-digit", "digit of the mirror cell", find_mirrored_digits)
MIRRORED_CANDIDATES = Technique(
    "mirrored-candidates", "candidates of the mirror cell", find_mirrored_candidates
)

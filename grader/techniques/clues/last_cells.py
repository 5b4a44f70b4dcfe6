"""Clues in which one empty cell is left, which takes what the others leave it."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue
from grader.reasoning.clues.machines import MACHINES
from grader.reasoning.clues.narrow import filled_clues
from grader.reasoning.clues.ways import ClueWays

__all__ = ["LAST_CELL_OF_CLUE"]


def find_last_cells_of_clues(board: Board) -> Iterator[Step]:
    """The last empty cell of a clue takes the one digit with which the clue is obeyed.

    The circle of an arrow is what its line makes, and the last cell of a line is what the circle lacks. With
    the circle r1c1 and the line r1c2 and r1c3::

        row 1    before  9 2 4567    after  9 2 7

    Yields
    ------
    Step
        In the order of the clues. `focus` is the cell.

    Notes
    -----
    Sound in every solution: every other digit that is open there breaks the clue.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.lines.arrow import Arrow
    >>> board = board_from_text("9 2 4567", clues=[Arrow((0,), (1, 2))])
    >>> [step.places for step in find_last_cells_of_clues(board)]
    [((2, 7),)]
    """
    layout = board.layout
    for number, mask in filled_clues(layout):
        empty = mask & ~board.placed
        if not empty or empty & (empty - 1) or not mask & board.fresh:
            continue
        cell, clue = empty.bit_length() - 1, Clue(layout, number, board.candidates)
        left = ClueWays.of_clue(clue, MACHINES[type(clue.rule)], seeing=False).kept[cell]
        if left and not left & (left - 1):
            yield Step(
                "last-cell-of-clue",
                places=((cell, left.bit_length() - 1),),
                rules=(number,),
                looks=tuple(sorted(clue.cells)),
                focus=(cell,),
                digits=left,
                pattern=clue.says("last-cell"),
            )


LAST_CELL_OF_CLUE = Technique("last-cell-of-clue", "last cell of a clue", find_last_cells_of_clues)

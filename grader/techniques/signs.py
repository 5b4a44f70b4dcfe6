"""A sign between two neighbours: what one of them can be bounds the other."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from verifier.puzzle.rules.marks.greater import Greater

__all__ = ["SIGN_BOUNDS"]


def find_sign_bounds(board: Board) -> Iterator[Step]:
    """Of two cells with a sign between them, the greater is above the least the other can be.

    Likewise the smaller one is below the most that the greater can be. Along a row of signs that all point
    one way, each bounds the next.

    With the sign that r1c1 is greater than r1c2::

        row 1    before  1234 23    after  34 23

    Yields
    ------
    Step
        In the order of the signs; first what goes from the greater cell, then what goes from the smaller one.

    Notes
    -----
    Sound in every solution: the digit in the smaller cell is at least the least that is open there, and the
    digit in the greater cell is above it.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> board = opening_board(make_puzzle("classic", Grid.square(4), clues=[Greater((0, 1))]))
    >>> [step.removes for step in find_sign_bounds(board)] == [((0, 1 << 1),), ((1, 1 << 4),)]
    True
    """
    layout, candidates = board.layout, board.candidates
    for number in range(layout.cage_numbers.stop, len(layout.rules)):
        rule = layout.rules[number]
        if type(rule) is not Greater or not board.fresh & layout.masks[number]:
            continue
        more, less = rule.cells
        if not candidates[more] or not candidates[less]:
            continue
        least, most = candidates[less] & -candidates[less], 1 << candidates[more].bit_length() - 1
        for cell, other, gone in (
            (more, less, candidates[more] & (2 * least - 1)),
            (less, more, candidates[less] & -most),
        ):
            if gone:
                yield Step(
                    "sign-bounds",
                    removes=((cell, gone),),
                    rules=(number,),
                    looks=(other,),
                    focus=(cell, other),
                )


SIGN_BOUNDS = Technique("sign-bounds", "bounds of a sign", find_sign_bounds, source="Own derivation.")

"""What follows from a sum over the cells left over: the digit of one, or what several cannot hold."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.reasoning.assignments import left_by_sum, others_if_alone
from grader.reasoning.rule_of_45 import InnieOutieSum

__all__ = ["one_cell_left", "unsupported_digits"]


def one_cell_left(board: Board, left: InnieOutieSum, technique: str) -> Iterator[Step]:
    """Yield the digit of the one cell that lacks one; where none fits, that nothing can stand there."""
    cell = (left.unknown_plus | left.unknown_minus).bit_length() - 1
    digit = left.rest(board) if left.unknown_plus else -left.rest(board)
    others = tuple(c for c in left.cells if c != cell)
    if digit > 0 and board.candidates[cell] >> digit & 1:
        yield Step(
            technique,
            places=((cell, digit),),
            sums=(left.derived(),),
            looks=others,
            focus=(cell,),
            digits=1 << digit,
        )
    elif board.candidates[cell]:  # what is left over cannot stand there: nothing can
        gone = board.candidates[cell]
        yield Step(
            technique,
            removes=((cell, gone),),
            sums=(left.derived(),),
            looks=left.cells,
            focus=(cell,),
            digits=gone,
        )


def unsupported_digits(board: Board, left: InnieOutieSum, technique: str) -> Iterator[Step]:
    """Yield one step with every digit that the sum leaves without partners."""
    kept = left_by_sum(board, left.unknown_plus, left.unknown_minus, left.rest(board))
    if kept.removes:
        yield Step(
            technique,
            removes=kept.removes,
            rules=kept.rules,
            sums=(left.derived(),),
            looks=others_if_alone(left.cells, kept.removes),
            focus=kept.cells,
            digits=kept.digits,
        )

"""Cages in which digits may repeat: sums known from the start, over cells of which some may be equal."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.reasoning.rule_of_45 import InnieOutieSum

__all__ = ["repeating_cages"]


def repeating_cages(board: Board, unknown: range) -> Iterator[InnieOutieSum]:
    """Yield the cages with repeats in which something changed, as sums without a house.

    Parameters
    ----------
    board : Board
        Read, never changed.
    unknown : range
        How many empty cells they may have.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.linear_sum import LinearSum
    >>> cage = LinearSum(((1, 1), (4, 1), (6, 1)), 9)
    >>> board = opening_board(make_puzzle("killer", Grid.square(4), clues=[cage], givens={4: 2}))
    >>> [(left.cells, left.rest(board)) for left in repeating_cages(board, range(2, 5))]
    [((1, 4, 6), 7)]
    """
    layout = board.layout
    for cage, mask in layout.summed_masks[: len(layout.summed) - len(layout.cage_numbers)]:
        empty = mask & ~board.placed
        if mask & board.fresh and empty.bit_count() in unknown:
            yield InnieOutieSum((), (cage,), mask, 0, layout.cage(cage).total, empty, 0)

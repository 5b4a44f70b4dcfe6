"""Cages in which digits may repeat, by themselves."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.assignments import left_by_sum, others_if_alone
from grader.reasoning.repeating_sums import repeating_cages
from grader.reasoning.rule_of_45 import LEFT_AT_MOST

__all__ = ["REPEATING_CAGE"]


def find_repeating_cages(board: Board) -> Iterator[Step]:
    """A cage in which digits may repeat holds only digits that make its total with the others.

    Cells that see each other still differ. Two to four empty cells are gone through in full; of more, only
    what is too small or too large is asked for, as with any sum::

        cage of 4 in r1c3, r1c4 and r2c4, where r1c4 sees both others    before  123 123 123    after  1 2 1

    Yields
    ------
    Step
        In the order of the cages.

    Notes
    -----
    Sound in every solution: each digit removed has no partners left in the other cells, those that stand
    taken off, where cells that see each other hold different digits and all others may hold the same.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.linear_sum import LinearSum
    >>> cage = LinearSum(((2, 1), (3, 1), (12, 1)), 4)
    >>> step, = find_repeating_cages(opening_board(make_puzzle("killer", Grid.square(9), clues=[cage])))
    >>> [(cell, 2 in bits(gone)) for cell, gone in step.removes]
    [(2, True), (3, False), (12, True)]
    """
    for left in repeating_cages(board, range(2, LEFT_AT_MOST + 1)):
        kept = left_by_sum(board, left.unknown_plus, 0, left.rest(board))
        if kept.removes:
            yield Step(
                "repeating-cage",
                removes=kept.removes,
                rules=tuple(sorted({*left.cages, *kept.rules})),
                looks=others_if_alone(left.cells, kept.removes),
                focus=kept.cells,
                digits=kept.digits,
            )


REPEATING_CAGE = Technique(
    "repeating-cage",
    "cage in which digits may repeat",
    find_repeating_cages,
    traits=Trait.ARITHMETIC,
    source="Own derivation.",
)

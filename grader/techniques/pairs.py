"""Pairs of cells whose digits must fit by a rule."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import chain

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.barring import says_more
from grader.reasoning.pairs import fits_of
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.marks.greater import Greater

__all__ = ["PAIR_VALUES"]

_TOLD_OTHERWISE = (Greater, Thermometer, Palindrome)
"""What these leave is told by bounds, and by what a mirror cell has lost."""


def find_pair_values(board: Board) -> Iterator[Step]:
    """A digit goes from a cell where no digit of its neighbour fits it.

    With the rule that no neighbours differ by one, no 5 stands beside a cell that can only be 4 or 6::

        row 1    before  46 3579    after  46 379

    Yields
    ------
    Step
        In the order of the pairs; `focus` is the cell, then its neighbour.

    Notes
    -----
    Sound in every solution: the neighbour holds one of its open digits, and each of them bars the digit.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.not_consecutive import NotConsecutive
    >>> rule = NotConsecutive(((0, 1),))
    >>> board = opening_board(make_puzzle("classic", Grid.square(4), givens={0: 2}, clues=[rule]))
    >>> [(step.focus, digits_of(step.removes[0][1])) for step in find_pair_values(board)]
    [((1, 0), (1, 3))]
    """
    fits_by_pair = fits_of(board.layout)
    if not fits_by_pair:
        return
    candidates, told_otherwise = board.candidates, _told_otherwise(board.layout)
    for (other, cell), fits in fits_by_pair.items():
        if not board.fresh >> other & 1 or not candidates[cell] & (candidates[cell] - 1):
            continue
        for rule, left in fits:
            if rule in told_otherwise:
                continue
            gone = candidates[cell]
            for digit in digits_of(candidates[other]):
                gone &= ~left[digit]
            if gone:
                yield Step(
                    "pair-values", removes=((cell, gone),), rules=(rule,), looks=(other,), focus=(cell, other)
                )


@lru_cache(maxsize=8)
def _told_otherwise(layout: Layout) -> frozenset[int]:
    """Return the numbers of the rules that a cell sees by, or that have a technique of their own."""
    pairs = chain.from_iterable(fits_of(layout).values())
    differ = (fit.rule for fit in pairs if not says_more(fit.left, layout.all_digits))
    others = (number for number, rule in enumerate(layout.rules) if type(rule) in _TOLD_OTHERWISE)
    return frozenset(chain(differ, others))


PAIR_VALUES = Technique("pair-values", "digits that fit a pair", find_pair_values, source="Own derivation.")

"""Cages that cross, told: what two of them have in common, and what the runs of an area have to go."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import DerivedSum, Step
from grader.reasoning.areas import runs_apart
from grader.reasoning.combinations import combinations_by_total, rest_of_cage
from grader.words.phrases import (
    cage_in_words,
    cells_in_words,
    combinations_in_words,
    digits_in_words,
    list_in_words,
)
from grader.words.wording import sum_words

__all__ = ["area_in_words", "crossing_in_words"]

_LISTED_AT_MOST = 3
"""Of more combinations only the digits are told."""


def area_in_words(derived: DerivedSum, layout: Layout, board: Board | None = None) -> str:
    """Return the sum of an area as evidence, as it is read from the board if that is known.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from textwrap import fill
    >>> from grader.reasoning.areas import area_sums
    >>> from grader.reasoning.rule_of_45 import SumKind
    >>> from verifier.puzzle.rules.cage import Cage
    >>> runs = [Cage((0, 1, 2), 7), Cage((9, 10), 9), Cage((0, 9), 4), Cage((1, 10), 10)]
    >>> board = board_from_text("", runs)
    >>> left, = area_sums(board, SumKind.ONE)
    >>> print(fill(area_in_words(left.derived(), board.layout), 96))
    across, the cages of 7 and 9 have 16 to go; down, the cages of 4 and 10 have 14. All their cells
    but r1c3 lie in two of them
    """
    across, down = runs_apart(layout, derived.rules)
    unknown = derived.linear.cells if board is None else derived.left(board)[0]
    return sum_words.AREA.format(
        across=_runs(across, layout, board),
        down=_runs(down, layout, board),
        unknown=cells_in_words(unknown, layout),
    )


def crossing_in_words(step: Step, board: Board) -> str:
    """Tell what each of two cages that cross can be, as one reads it from their totals.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.techniques.crossing_cages import find_crossing_cells
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text(". . . .  3 . . .", [Cage((0, 1), 4), Cage((0, 4, 8), 6)], size=4)
    >>> print(crossing_in_words(next(find_crossing_cells(board)), board))
    the cage of 4 at r1c1 can only be 1+3; the rest of the cage of 6 at r1c1 can only be 1+2
    """
    return "; ".join(_options(cage, board) for cage in board.layout.cages_among(step.rules))


def _options(cage: int, board: Board) -> str:
    _, _, filled = rest_of_cage(board, cage)
    found = combinations_by_total(board, cage)
    named = cage_in_words(cage, board.layout)
    few = len(found) <= _LISTED_AT_MOST
    options = combinations_in_words(found, board.layout) if few else digits_in_words(reduce(or_, found, 0))
    return sum_words.OPTIONS[few].format(rest=sum_words.REST if filled else "", cage=named, options=options)


def _runs(runs: Sequence[int], layout: Layout, board: Board | None) -> str:
    rests = [layout.cage(run).total if board is None else rest_of_cage(board, run)[1] for run in runs]
    return sum_words.AREA_RUNS[len(runs) == 1].format(
        cage=cage_in_words(runs[0], layout),
        totals=list_in_words([str(layout.cage(run).total) for run in runs]),
        rest=sum(rests),
    )

"""Sums by the rule of 45: cells whose sum or difference follows from houses and cages."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.leftovers import one_cell_left, unsupported_digits
from grader.reasoning.rule_of_45 import SumKind, fresh_sums

__all__ = [
    "CAGES_AT_A_GLANCE",
    "DERIVED_SUM_OF_TWO",
    "DERIVED_SUM_OF_UP_TO_FOUR",
    "INNIE_OUTIE_DIFFERENCE",
    "REST_OF_HOUSE",
    "RULE_OF_45",
    "RULE_OF_45_MORE_HOUSES",
    "RULE_OF_45_TWO_HOUSES",
]


CAGES_AT_A_GLANCE = 2
"""So many rests are taken from a house at a glance; more are added up."""


def find_rests_of_houses(board: Board) -> Iterator[Step]:
    """Where the rest of a house and of one or two of its cages differ by one cell, that gives its digit.

    What stands in the house is taken off first, and so is what stands in the cages::

        row 5    4 2 9 1 15 15 5 8 7    3 and 6 are missing, which make 9: of the cage of 15
                         15             that leaves 6 for the cell below

    Yields
    ------
    Step
        In the order of the houses.

    Notes
    -----
    Sound in every solution: subtract what the cages need from what the house needs. This is the rule of 45 as
    it is read from the board, with no total in it of what is filled by now.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("4 2 9 1 . . 5 8 7", [Cage((4, 5, 14), 15)])
    >>> [step.places for step in find_rests_of_houses(board)]
    [((14, 6),)]
    """
    for left in fresh_sums(board, SumKind.ONE, houses=[1]):
        if len(left.cages) <= CAGES_AT_A_GLANCE:
            yield from one_cell_left(board, left, "rest-of-house")


def find_rule_of_45(board: Board) -> Iterator[Step]:
    """Where a house and three or more of its cages differ by one cell, the totals give its digit.

    The house adds up to a known total, 45 on a 9x9 grid. Where its cages leave one cell over, the innie, this
    is what they lack; where they stick out by one cell, the outie, it is what they have too much::

        row 1    12 12 12 12 18 18 18 16 16    the cages add up to 12 + 18 + 16 = 46, one more
                                      16       than 45: the cell of 16 outside the row is a 1

    Yields
    ------
    Step
        In the order of the houses.

    Notes
    -----
    Sound in every solution: subtract the cages' totals from the house's. Cells that have their digit by now
    are subtracted with it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)]
    >>> [step.places for step in find_rule_of_45(board_from_text("", cages))]
    [((17, 1),)]
    """
    for left in fresh_sums(board, SumKind.ONE, houses=[1]):
        if len(left.cages) > CAGES_AT_A_GLANCE:
            yield from one_cell_left(board, left, "rule-of-45")


def find_rule_of_45_over_two_houses(board: Board) -> Iterator[Step]:
    """Where two houses and their cages differ by one cell, the totals give its digit.

    As for one house, over two rows, columns or boxes that share a cage across their border. They add up to
    90::

        rows 1 and 2 add up to 90, the cages inside to 83: the one cell left over is a 7

    Yields
    ------
    Step
        In the order of the pairs.

    Notes
    -----
    Sound in every solution, as the rule of 45. Only houses of one kind that straddling cages link are added
    up: a group that falls apart says no more than its parts.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage((*range(8), 9), 41), Cage((8, *range(10, 17)), 42)]
    >>> [step.places for step in find_rule_of_45_over_two_houses(board_from_text("", cages))]
    [((17, 7),)]
    """
    for left in fresh_sums(board, SumKind.ONE, houses=[2]):
        yield from one_cell_left(board, left, "rule-of-45-2-houses")


def find_rule_of_45_over_more_houses(board: Board) -> Iterator[Step]:
    """Where three or four houses and their cages differ by one cell, the totals give its digit.

    As for two houses; three add up to 135, four to 180::

        columns 1 to 3 add up to 135, the cages inside to 131: the one cell left over is a 4

    Yields
    ------
    Step
        In the order of the groups.

    Notes
    -----
    Sound in every solution, as the rule of 45 over two houses.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage((*range(8), 9), 41), Cage((8, *range(10, 17), 18), 45), Cage((17, *range(19, 26)), 45)]
    >>> {step.places for step in find_rule_of_45_over_more_houses(board_from_text("", cages))}
    {((26, 4),)}
    """
    for left in fresh_sums(board, SumKind.ONE, houses=[3, 4]):
        yield from one_cell_left(board, left, "rule-of-45-3-4-houses")


def find_derived_sums_of_two(board: Board) -> Iterator[Step]:
    """Two cells with a known sum hold only digits that have a partner in the other cell.

    Two innies, or two outies, act like a cage of two. Where the cells do not see each other they may
    hold the same digit::

        two innies that add up to 16    before  5789 3789    after  79 79     in one house: 7 + 9
                                                                    789 789   elsewhere also 8 + 8

    Yields
    ------
    Step
        In the order of the sums: single houses, then groups.

    Notes
    -----
    Sound in every solution: the sum follows by the rule of 45, and each digit removed has no partner left in
    the other cell.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage((0, 1, 2, 3, 4, 5, 6), 29), Cage((7, 8, 17), 18)])
    >>> step, = find_derived_sums_of_two(board)
    >>> step.focus, [list(bits(gone)) for _, gone in step.removes]
    ((7, 8), [[1, 2, 3, 4, 5, 6, 8], [1, 2, 3, 4, 5, 6, 8]])
    """
    for left in fresh_sums(board, SumKind.TWO):
        yield from unsupported_digits(board, left, "derived-sum-2")


def find_innie_outie_differences(board: Board) -> Iterator[Step]:
    """Innies and outies with a known difference hold only digits that make it.

    It may be one innie less one outie, or three or four cells on both sides of the border::

        innie - outie = 6    before  123456789 123456789    after  789 123

    Yields
    ------
    Step
        In the order of the sums: single houses, then groups.

    Notes
    -----
    Sound in every solution: the difference follows by the rule of 45, and each digit removed has no partners
    left in the other cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage((0, 1, 2, 3, 4, 5, 6), 36), Cage((7, 16), 5)])
    >>> step = next(find_innie_outie_differences(board))
    >>> step.focus, [list(bits(gone)) for _, gone in step.removes]
    ((8, 16), [[1, 2, 3, 4], [6, 7, 8, 9]])
    """
    for left in fresh_sums(board, SumKind.BOTH_SIDES):
        yield from unsupported_digits(board, left, "innie-outie-difference")


def find_derived_sums_of_up_to_four(board: Board) -> Iterator[Step]:
    """Three or four cells with a known sum hold only digits that make it.

    As for two cells::

        three innies of one house that add up to 7    before  anything    after  124 124 124

    Yields
    ------
    Step
        In the order of the sums: single houses, then groups.

    Notes
    -----
    Sound in every solution, as the derived sum of two cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage((0, 1, 2, 3, 4, 5), 38)])
    >>> step, = find_derived_sums_of_up_to_four(board)
    >>> step.focus, [list(bits(gone)) for _, gone in step.removes][0]
    ((6, 7, 8), [3, 5, 6, 7, 8, 9])
    """
    for left in fresh_sums(board, SumKind.UP_TO_FOUR):
        yield from unsupported_digits(board, left, "derived-sum-3-4")


REST_OF_HOUSE = Technique("rest-of-house", "rest of a house", find_rests_of_houses, traits=Trait.ARITHMETIC)
RULE_OF_45 = Technique(
    "rule-of-45",
    "rule of 45 on one house",
    find_rule_of_45,
    traits=Trait.ARITHMETIC,
    waits_for="rule-of-45-2-houses",
)
RULE_OF_45_TWO_HOUSES = Technique(
    "rule-of-45-2-houses",
    "rule of 45 over two houses",
    find_rule_of_45_over_two_houses,
    traits=Trait.ARITHMETIC,
)
RULE_OF_45_MORE_HOUSES = Technique(
    "rule-of-45-3-4-houses",
    "rule of 45 over three or four houses",
    find_rule_of_45_over_more_houses,
    traits=Trait.ARITHMETIC,
)
DERIVED_SUM_OF_TWO = Technique(
    "derived-sum-2", "derived sum of two cells", find_derived_sums_of_two, traits=Trait.ARITHMETIC
)
INNIE_OUTIE_DIFFERENCE = Technique(
    "innie-outie-difference", "innie-outie difference", find_innie_outie_differences, traits=Trait.ARITHMETIC
)
DERIVED_SUM_OF_UP_TO_FOUR = Technique(
    "derived-sum-3-4",
    "derived sum of three or four cells",
    find_derived_sums_of_up_to_four,
    traits=Trait.ARITHMETIC,
)

"""Runs that cross, as in a kakuro: the cell in which two meet, and those across against those down."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import cages_cross
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.areas import area_sums
from grader.reasoning.combinations import LISTED_AT_MOST, combinations_by_total, how_many, rest_of_cage
from grader.reasoning.leftovers import one_cell_left, unsupported_digits
from grader.reasoning.rule_of_45 import SumKind
from verifier.puzzle.masks import bits

__all__ = ["AREA_OF_ONE", "AREA_OF_TWO", "CROSSING_CELL"]


def find_crossing_cells(board: Board) -> Iterator[Step]:
    """Two cages that cross have one digit in common: it stands in the cell in which they meet.

    Only totals are looked at, and what stands in the cages already::

        a cage of 4 across, of two cells     1 and 3
        a cage of 6 down, of three cells     1, 2 and 3, but 3 stands in it: 1 and 2 are left

    Yields
    ------
    Step
        In reading order of the cells.

    Notes
    -----
    Sound in every solution: the cell's digit is one of each cage.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> runs = [Cage((0, 1), 4), Cage((0, 4, 8), 6)]
    >>> [step.places for step in find_crossing_cells(board_from_text(". . . .  3 . . .", runs, size=4))]
    [((0, 1),)]
    """
    layout, placed = board.layout, board.placed
    for cell in board.unsolved(layout.grid.cells) if cages_cross(layout) else ():
        cages = layout.cages_of[cell]
        if len(cages) < 2 or not board.fresh & (layout.masks[cages[0]] | layout.masks[cages[1]]):
            continue
        common = board.layout.all_digits
        for cage in cages:
            common &= _digits_by_total(board, cage)
        if common.bit_count() == 1 and board.candidates[cell] & common:
            known = reduce(or_, [layout.masks[cage] for cage in cages]) & placed
            yield Step(
                "crossing-cell",
                places=((cell, common.bit_length() - 1),),
                rules=cages,
                looks=tuple(bits(known)),
                focus=(cell,),
                digits=common,
            )


def _digits_by_total(board: Board, cage: int) -> int:
    """Return the digits of the combinations that the total of a cage allows."""
    cells, rest, _ = rest_of_cage(board, cage)
    if how_many(rest, len(cells), board.layout.grid.digits) > LISTED_AT_MOST:
        return board.layout.all_digits
    return reduce(or_, combinations_by_total(board, cage), 0)


def find_areas_of_one(board: Board) -> Iterator[Step]:
    """Runs of an area that hangs on one cell: across against down, their totals give its digit.

    Each cell of the area lies in a run across and in one down, but for one. So what the runs across have to
    go and what those down have to go differ by what stands there::

        .  .  *     across 7 and 9, which make 16; down 4 and 10, which make 14:
        .  .        the cell that lies across alone, *, is 2

    Yields
    ------
    Step
        In reading order of the cells.

    Notes
    -----
    Sound in every solution: take what is counted on both sides away. Areas of no more than twelve
    runs.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> runs = [Cage((0, 1, 2), 7), Cage((4, 5), 9), Cage((0, 4), 4), Cage((1, 5), 10)]
    >>> [step.places for step in find_areas_of_one(board_from_text("", runs))]
    [((2, 2),)]
    """
    for left in area_sums(board, SumKind.ONE):
        yield from one_cell_left(board, left, "area-of-one")


def find_areas_of_two(board: Board) -> Iterator[Step]:
    """Runs of an area that hangs on two cells: their totals say what these make, or by how much they differ.

    As for one cell. Where both lie across, or both down, their sum is known; where one lies across and the
    other down, their difference is::

        .  .  *     across 7 and 9, which make 16; down 4 and 20, which make 24:
        .  .        the lower one of the cells *, which lies down alone, is 8 more than
           *        the other, which lies across alone

    Yields
    ------
    Step
        In the order of the pairs of cells.

    Notes
    -----
    Sound in every solution, as for one cell; a digit that goes has no partner left in the other cell.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> runs = [Cage((0, 1, 2), 7), Cage((9, 10), 9), Cage((0, 9), 4), Cage((1, 10, 19), 20)]
    >>> [step.focus for step in find_areas_of_two(board_from_text("", runs))]
    [(0, 10), (2, 19)]
    """
    for left in area_sums(board, SumKind.TWO, SumKind.BOTH_SIDES):
        yield from unsupported_digits(board, left, "area-of-two")


CROSSING_CELL = Technique("crossing-cell", "crossing cell", find_crossing_cells, traits=Trait.ARITHMETIC)
AREA_OF_ONE = Technique(
    "area-of-one",
    "area that hangs on one cell",
    find_areas_of_one,
    traits=Trait.ARITHMETIC,
    source="Own derivation.",
)
AREA_OF_TWO = Technique(
    "area-of-two",
    "area that hangs on two cells",
    find_areas_of_two,
    traits=Trait.ARITHMETIC,
    source="Own derivation.",
)

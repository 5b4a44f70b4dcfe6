"""Digits that fit a pair, and all places of a digit: examples with their exact effect, and near misses."""

from __future__ import annotations

import pytest

from grader.board.board import Board, board_from_text, opening_board
from grader.grading.replay import Outcome, replay
from grader.techniques.all_places import ALL_PLACES
from grader.techniques.pairs import PAIR_VALUES
from grader.walking.walk import walk
from grader.words.narrate import tell
from scripts.setting.empty_grids import EMPTY
from scripts.setting.ruled import draw_ruled
from verifier.audit.audit import failed_audits
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.not_consecutive import NotConsecutive

FOUR = Grid.square(4)
NO_BOXES = Grid(4, 4, 0, 0, 4)


def pair(one: str, other: str) -> Board:
    """Two neighbours that may not differ by one, with these digits open."""
    board = opening_board(make_puzzle("classic", FOUR, clues=[NotConsecutive(((0, 1),))]))
    digits = (mask_of(map(int, one)), mask_of(map(int, other)), *board.candidates[2:])
    return Board(board.layout, digits, 0, board.layout.all_cells)


def told(board: Board) -> list[str]:
    return [tell(step, board.layout, board) for step in PAIR_VALUES.find(board)]


def test_a_digit_goes_that_fits_none_of_its_neighbours_digits() -> None:
    assert told(pair("13", "124")) == [
        "r1c1 can only be 1 or 3, and no neighbours differ by one: 2 goes from r1c2."
    ]


def test_one_digit_that_fits_keeps_it() -> None:
    assert told(pair("134", "124")) == []


def diagonal(givens: dict[int, int]) -> Board:
    houses = (*NO_BOXES.houses, *NO_BOXES.diagonals[:1])
    return opening_board(make_puzzle("classic", NO_BOXES, givens=givens, houses=houses))


def test_a_digit_goes_from_a_cell_that_sees_all_its_places() -> None:
    board = diagonal({1: 1})
    found = {cell for step in ALL_PLACES.find(board) for cell, _ in step.removes if step.focus == (10, 15)}
    assert found == {11, 14}
    step = next(step for step in ALL_PLACES.find(board) if step.focus == (10, 15))
    assert tell(step, board.layout, board) == (
        "In the falling diagonal, 1 has to be in r3c3 or r4c4; whichever it is, 1 goes from r3c4."
    )


def test_with_a_third_place_that_it_does_not_see_nothing_goes() -> None:
    assert [step for step in ALL_PLACES.find(diagonal({})) if step.digits == 1 << 1] == []


def test_rows_columns_and_boxes_alone_need_no_such_step() -> None:
    assert not list(ALL_PLACES.find(opening_board(make_puzzle("classic", FOUR, givens={1: 1}))))


def gone_with_1(row_1: str) -> dict[int, int]:
    """What goes wherever the 1 of row 1 stands, with marks of neighbours that lead from there to r2c2."""
    marks = [Consecutive((0, 5)), Consecutive((1, 5))]
    board = board_from_text(row_1 + "\n. 123", size=4, clues=marks)
    return {
        cell: gone
        for step in ALL_PLACES.find(board)
        if step.focus == (0, 1) and step.digits == 1 << 1
        for cell, gone in step.removes
    }


def test_a_digit_goes_that_a_neighbour_of_each_place_bars() -> None:
    gone = gone_with_1("12 12 34 34")
    assert gone[5] & 1 << 3  # beside 1 stands 2
    assert gone[4] & 1 << 2  # and beside that no other 2


def test_where_one_place_has_no_such_neighbour_it_stays() -> None:
    assert gone_with_1("12 12 134 34") == {}


@pytest.mark.parametrize("rules", EMPTY)
def test_every_told_step_stands_with_rules_of_any_kind(rules: str) -> None:
    puzzle, filling = draw_ruled(EMPTY[rules](), 1, more=6)
    played, taken = replay(puzzle), walk(puzzle)
    assert played.outcome is Outcome.SOLVED
    assert played.filling == taken.filling == filling
    assert failed_audits(taken.steps) == []

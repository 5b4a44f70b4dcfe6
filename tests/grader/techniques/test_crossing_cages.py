"""Cages that cross: one digit in common, and areas that hang on one cell or two."""

from __future__ import annotations

from grader.board.board import board_from_text
from grader.techniques.crossing_cages import AREA_OF_ONE, AREA_OF_TWO, CROSSING_CELL
from tests.grader.boards import audit, derived, removed
from verifier.puzzle.rules.cage import Cage

ROOM = [Cage((0, 1, 2), 7), Cage((9, 10), 9), Cage((0, 9), 4)]
"""Two runs across and one down; r1c3 lies across alone."""


def test_two_totals_leave_one_digit_in_common() -> None:
    board = board_from_text("", [Cage((0, 1), 4), Cage((0, 9), 16)])
    assert list(CROSSING_CELL.find(board)) == []  # 1 or 3, and 7 or 9
    board = board_from_text("", [Cage((0, 1), 4), Cage((0, 9, 18), 6)])
    assert list(CROSSING_CELL.find(board)) == []  # 1 or 3 in both
    board = board_from_text("", [Cage((0, 1), 4), Cage((0, 9, 18), 7)])
    (step,) = CROSSING_CELL.find(board)
    assert (step.places, step.looks, audit(step, board)) == (((0, 1),), (), True)


def test_what_stands_in_a_cage_is_taken_off() -> None:
    board = board_from_text(". . . . . . . . .  3", [Cage((0, 1), 4), Cage((0, 9, 18), 6)])
    (step,) = CROSSING_CELL.find(board)
    assert (step.places, step.looks, audit(step, board)) == (((0, 1),), (9,), True)


def test_an_area_that_hangs_on_one_cell_gives_its_digit() -> None:
    board = board_from_text("", [*ROOM, Cage((1, 10), 10)])
    (step,) = AREA_OF_ONE.find(board)
    assert (step.places, derived(step.sums[0], board), audit(step, board)) == (((2, 2),), True, True)
    assert list(AREA_OF_ONE.find(board_from_text("", [*ROOM, Cage((1, 10, 19), 20)]))) == []


def test_an_area_that_hangs_on_one_cell_takes_off_what_stands_beside_it() -> None:
    board = board_from_text(". . 2", [Cage((0, 1, 2, 3), 10), *ROOM[1:], Cage((1, 10), 10)])
    (step,) = AREA_OF_ONE.find(board)
    assert (step.places, derived(step.sums[0], board), audit(step, board)) == (((3, 3),), True, True)


def test_an_area_that_hangs_on_two_cells_tells_their_difference() -> None:
    board = board_from_text("", [*ROOM, Cage((1, 10, 19), 20)])
    found = {step.focus: step for step in AREA_OF_TWO.find(board)}
    step = found[2, 19]
    assert removed(board, step) == {"r1c3": (2, 3, 4, 5, 6, 7, 8, 9), "r3c2": (1, 2, 3, 4, 5, 6, 7, 8)}
    assert derived(step.sums[0], board)
    assert audit(step, board)
    longer = board_from_text("", [*ROOM, Cage((1, 10, 19, 28), 20)])
    assert (2, 19) not in {step.focus for step in AREA_OF_TWO.find(longer)}


def test_two_cells_on_one_side_are_told_by_their_sum() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3), 20), *ROOM[1:], Cage((1, 10), 10)])
    found = {step.focus: step for step in AREA_OF_TWO.find(board)}
    assert removed(board, found[2, 3]) == {
        "r1c3": (1, 2, 3, 4, 5),
        "r1c4": (1, 2, 3, 4, 5),
    }


def test_cages_that_do_not_cross_have_no_areas() -> None:
    board = board_from_text("", [Cage((0, 1, 2), 7), Cage((9, 10), 9)])
    found = [
        step for technique in (CROSSING_CELL, AREA_OF_ONE, AREA_OF_TWO) for step in technique.find(board)
    ]
    assert found == []

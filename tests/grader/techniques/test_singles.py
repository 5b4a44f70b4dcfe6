import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.singles import HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE, LAST_CELL_OF_HOUSE, NAKED_SINGLE
from tests.grader.boards import houses_of, names

LAST = "4 1 . 8 2 9 3 7 5"
BOX = """
2 68 168
68 5 3
4 7 9
"""
LINE = "2 68 168 68 5 3 4 7 9"
NAKED = "1 2 3 4 . . . . 6?"


def test_the_last_cell_of_a_row_takes_the_missing_digit() -> None:
    board = board_from_text(LAST)
    (step,) = LAST_CELL_OF_HOUSE.find(board)
    assert (step.places, houses_of(board, step)) == (((2, 6),), ["row 1"])
    assert names(board, step.looks) == "r1c1 r1c2 r1c4 r1c5 r1c6 r1c7 r1c8 r1c9"


def test_a_digit_with_one_place_in_a_box_stands_there() -> None:
    board = board_from_text(BOX)
    (step,) = HIDDEN_SINGLE_BOX.find(board)
    assert (step.places, houses_of(board, step)) == (((2, 1),), ["box 1"])
    assert names(board, step.looks) == "r1c1 r1c2 r2c1 r2c2 r2c3 r3c1 r3c2 r3c3"


def test_a_digit_with_one_place_in_a_line_stands_there() -> None:
    board = board_from_text(LINE)
    (step,) = HIDDEN_SINGLE_LINE.find(board)
    assert (step.places, houses_of(board, step)) == (((2, 1),), ["row 1"])


def test_a_cell_with_one_candidate_takes_it() -> None:
    board = board_from_text(NAKED)
    (step,) = NAKED_SINGLE.find(board)
    assert (step.places, step.looks) == (((8, 6),), (8,))


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (LAST_CELL_OF_HOUSE, "4 1 . 8 2 9 3 7 ."),
        (LAST_CELL_OF_HOUSE, "4 1 59 8 2 9 3 7 5"),  # the missing digit cannot stand there
        (LAST_CELL_OF_HOUSE, "4 1 . 8 2 9 3 3 5"),  # two digits are missing: a contradiction
        (HIDDEN_SINGLE_BOX, BOX.replace("2 68 ", "2 168 ")),
        (HIDDEN_SINGLE_LINE, LINE.replace("2 68 ", "2 168 ")),
        (NAKED_SINGLE, NAKED.replace("6?", "67")),
    ],
)
def test_a_near_miss_is_no_single(technique: Technique, near_miss: str) -> None:
    assert not list(technique.find(board_from_text(near_miss)))


def test_a_hidden_single_of_a_line_is_none_of_a_box() -> None:
    assert not list(HIDDEN_SINGLE_BOX.find(board_from_text(LINE)))
    assert not list(HIDDEN_SINGLE_LINE.find(board_from_text(BOX)))


def test_a_cell_that_is_the_only_place_for_two_digits_takes_neither() -> None:
    board = board_from_text("18 3456 3456 3456 3456 2 3456 7 9")  # 1 and 8: a contradiction
    assert not list(HIDDEN_SINGLE_LINE.find(board))


def test_two_houses_with_the_same_last_cell_give_a_step_each() -> None:
    board = board_from_text("1 2 3 .\n. . . 1\n. . . 2\n. . . 3", size=4)
    steps = list(LAST_CELL_OF_HOUSE.find(board))
    assert [houses_of(board, step) for step in steps] == [["row 1"], ["column 4"]]
    assert {step.effect for step in steps} == {(((3, 4),), ())}

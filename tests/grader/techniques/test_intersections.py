import pytest
from hypothesis import given

from grader.board.board import board_from_text
from grader.techniques.intersections import LOCKED_CANDIDATES, TWO_BOX_LOCKED
from grader.techniques.singles import HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE
from tests.grader.boards import Position, board_without, houses_of, names, positions, removed
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import digits_of

BOX_TO_LINE = """
14 24 3
5 6 7
8 9 12
"""
LINE_TO_BOX = "478 47 2 1 3 5 6 9 48"
TWO_BOXES = """
. . -
. . -
. . -
. . -
. . -
. . -
"""


def test_from_box_to_line_the_rest_of_the_line_is_cleared() -> None:
    board = board_from_text(BOX_TO_LINE)
    (step,) = LOCKED_CANDIDATES.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == ("r1c1 r1c2", (4,))
    assert removed(board, step) == {f"r1c{column}": (4,) for column in range(4, 10)}
    assert houses_of(board, step) == ["box 1", "row 1"]
    assert names(board, step.looks) == "r2c1 r2c2 r2c3 r3c1 r3c2 r3c3"


def test_from_line_to_box_the_rest_of_the_box_is_cleared() -> None:
    board = board_from_text(LINE_TO_BOX)
    (step,) = LOCKED_CANDIDATES.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == ("r1c1 r1c2", (7,))
    assert removed(board, step) == {f"r{row}c{column}": (7,) for row in (2, 3) for column in (1, 2, 3)}
    assert houses_of(board, step) == ["row 1", "box 1"]
    assert names(board, step.looks) == "r1c4 r1c5 r1c6 r1c7 r1c8 r1c9"


def test_a_digit_in_the_same_two_columns_of_two_boxes_is_in_the_third_column_of_the_third_box() -> None:
    # Common practice, no source.
    board = board_without(5, TWO_BOXES)
    (step,) = TWO_BOX_LOCKED.find(board)
    after = board.after([step])
    third_box = board.layout.houses[24].cells
    assert names(board, [c for c in third_box if after.candidates[c] >> 5 & 1]) == "r7c3 r8c3 r9c3"
    assert houses_of(board, step) == ["box 1", "box 4", "column 1", "column 2"]
    assert names(board, step.looks) == "r1c3 r2c3 r3c3 r4c3 r5c3 r6c3"


@pytest.mark.parametrize(
    "near_miss", [BOX_TO_LINE.replace("9 12", "9 124"), LINE_TO_BOX.replace("9 48", "9 478")]
)
def test_one_more_place_and_no_digit_is_locked(near_miss: str) -> None:
    assert not list(LOCKED_CANDIDATES.find(board_from_text(near_miss)))


def test_one_more_place_and_two_boxes_lock_nothing() -> None:
    assert not list(TWO_BOX_LOCKED.find(board_without(5, TWO_BOXES.replace("-", ".", 1))))


def test_a_digit_with_one_place_is_left_to_the_singles() -> None:
    board = board_from_text("2 68 168\n68 5 3\n4 7 9")
    assert not list(LOCKED_CANDIDATES.find(board))


def test_a_box_with_the_digit_on_one_line_is_left_to_a_step_from_box_to_line() -> None:
    board = board_without(5, "\n".join([". - -"] * 3 + [". . -"] * 3))
    assert not list(TWO_BOX_LOCKED.find(board))


@pytest.mark.parametrize("picture", [BOX_TO_LINE, LINE_TO_BOX])
def test_a_lock_that_clears_nothing_is_no_step(picture: str) -> None:
    board = board_from_text(picture)
    after = board.after(LOCKED_CANDIDATES.find(board))
    assert not list(LOCKED_CANDIDATES.find(after.looking_at(board.fresh)))


@given(positions(Grid.square(9)))
def test_with_three_boxes_to_a_band_one_box_and_line_or_a_single_does_what_two_boxes_do(
    position: Position,
) -> None:
    board = position.board
    simpler = (HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE, LOCKED_CANDIDATES)
    after = board.after(step for technique in simpler for step in technique.find(board))
    for step in TWO_BOX_LOCKED.find(board):
        assert not any(after.candidates[cell] & gone for cell, gone in step.removes)


def test_with_four_boxes_to_a_band_two_boxes_lock_what_one_line_does_not() -> None:
    board = board_without(5, "\n".join([". . - -"] * 8), size=16)
    assert not list(LOCKED_CANDIDATES.find(board))
    (effect,) = {step.effect for step in TWO_BOX_LOCKED.find(board)}
    assert names(board, [cell for cell, _ in effect[1]]) == " ".join(
        f"r{row}c{column}" for row in range(9, 17) for column in (1, 2)
    )


@pytest.mark.parametrize(
    ("picture", "locked"),
    [
        ([". . - - -"] * 10, ["box 1", "box 6", "column 1", "column 2"]),
        ([". . . . ."] * 10 + ["- - . . ."] * 15, ["column 1", "column 2", "box 1", "box 6"]),
    ],
)
def test_with_five_boxes_to_a_band_boxes_and_lines_lock_each_on_their_own(
    picture: list[str], locked: list[str]
) -> None:
    board = board_without(5, "\n".join(picture), size=25)
    (step,) = TWO_BOX_LOCKED.find(board)
    assert houses_of(board, step) == locked

"""What a board shows at a glance, counted again one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import Board, board_from_text
from grader.grading.glance import Onlooker, glance, hidden_singles
from grader.grading.replay import replay
from grader.techniques.singles import HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE, LAST_CELL_OF_HOUSE
from tests.grader.boards import Position, positions
from tests.reference import load, puzzle_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import bits

GRIDS = [Grid.square(size) for size in (4, 6, 9, 12, 16)] + [Grid.square(6, (3, 2)), Grid.square(12, (4, 3))]

some_boards = settings(max_examples=40, deadline=None)


@st.composite
def any_position(draw: st.DrawFn) -> Position:
    return draw(positions(draw(st.sampled_from(GRIDS)), killer=draw(st.booleans())))


def places(board: Board, digit: int) -> set[int]:
    return {cell for cell, mask in enumerate(board.candidates) if mask >> digit & 1}


def followed(board: Board, digit: int) -> set[int]:
    """The places of a digit when it has been followed by itself: where all its places in one house lie in
    another house too, it goes from the rest of that one."""
    left = places(board, digit)
    houses = [set(house.cells) for house in board.layout.houses]
    while True:
        gone = {
            cell for one in houses for other in houses if left & one <= other for cell in left & other - one
        }
        if not gone:
            return left
        left -= gone


def settled(board: Board, left: set[int]) -> int:
    """In how many boxes one place is left for a digit, and not yet filled."""
    boxes = [left & set(house.cells) for house in board.layout.houses if house.kind == "box"]
    return sum(len(box) == 1 and not board.placed >> min(box) & 1 for box in boxes)


@some_boards
@given(any_position())
def test_hidden_singles_in_boxes_are_counted(position: Position) -> None:
    board = position.board
    one_by_one = sum(settled(board, places(board, digit)) for digit in board.layout.grid.all_digits)
    assert glance(board).in_boxes == one_by_one


@some_boards
@given(any_position())
def test_places_that_come_out_when_a_digit_is_followed_are_counted(position: Position) -> None:
    board, seen = position.board, glance(position.board)
    one_by_one = sum(settled(board, followed(board, digit)) for digit in board.layout.grid.all_digits)
    assert seen.in_boxes + seen.followed == one_by_one


@some_boards
@given(any_position())
def test_naked_singles_are_counted(position: Position) -> None:
    board = position.board
    lone = [c for c in bits(board.layout.all_cells & ~board.placed) if board.candidates[c].bit_count() == 1]
    assert glance(board).naked == len(lone)


@some_boards
@given(any_position())
def test_hidden_singles_are_those_that_the_techniques_find(position: Position) -> None:
    found = {
        place
        for technique in (LAST_CELL_OF_HOUSE, HIDDEN_SINGLE_BOX, HIDDEN_SINGLE_LINE)
        for step in technique.find(position.board)
        for place in step.places
    }
    assert set(hidden_singles(position.board)) == found


def test_a_digit_locked_in_one_box_is_followed_into_the_next() -> None:
    # In the first box the 4 must stand in the first row, so in the second it has but one place: r2c3.
    board = board_from_text("34 34 124 12\n1 2 34 123", size=4)
    assert (2, 4) not in hidden_singles(board)
    assert (glance(board).in_boxes, glance(board).followed) == (0, 1)


def test_a_full_board_shows_nothing() -> None:
    seen = glance(board_from_text("1 2 3 4\n3 4 1 2\n2 1 4 3\n4 3 2 1", size=4))
    assert (seen.in_boxes, seen.followed, seen.naked) == (0, 0, 0)


@pytest.mark.reference
@pytest.mark.parametrize("name", ["classic_hard", "killer", "killer16"])
def test_who_looks_at_one_board_after_another_sees_what_each_shows_by_itself(name: str) -> None:
    for record in [record for record in load(name) if record["solutions"] == 1][:2]:
        look = Onlooker()
        boards = [played.board for played in replay(puzzle_of(record)).rounds]
        assert [look(board) for board in boards] == [glance(board) for board in boards]


def test_a_cell_with_nothing_left_is_no_naked_single() -> None:
    board = board_from_text("1234 34 . .", size=4)
    emptied = replace(board, candidates=[0, *board.candidates[1:]])
    assert glance(emptied).naked == 0

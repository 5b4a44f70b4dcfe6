"""Bounds of a sign: an example with its exact effect, and near misses that remove nothing."""

from __future__ import annotations

import pytest

from grader.board.board import Board, opening_board
from grader.grading.replay import Outcome, replay
from grader.techniques.signs import SIGN_BOUNDS
from grader.walking.walk import walk
from grader.words.narrate import tell
from tests.rules.test_greater import DRAWN
from verifier.audit.audit import failed_audits
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.marks.greater import Greater


def board_with(more: str, less: str) -> Board:
    """A 4x4 with a sign between its first two cells, and the digits open in them."""
    board = opening_board(make_puzzle("classic", Grid.square(4), clues=[Greater((0, 1))]))
    open_digits = (mask_of(map(int, more)), mask_of(map(int, less)), *board.candidates[2:])
    return Board(board.layout, open_digits, 0, board.layout.all_cells)


def told(board: Board) -> list[str]:
    return [tell(step, board.layout, board) for step in SIGN_BOUNDS.find(board)]


def test_each_cell_bounds_the_other() -> None:
    assert told(board_with("1234", "23")) == [
        "r1c1 is greater than r1c2, which is at least 2: 1 and 2 go from r1c1."
    ]
    assert told(board_with("23", "1234")) == [
        "r1c2 is less than r1c1, which is at most 3: 3 and 4 go from r1c2."
    ]


@pytest.mark.parametrize(("more", "less"), [("34", "23"), ("234", "123"), ("4", "123")])
def test_where_every_digit_is_inside_the_bounds_nothing_goes(more: str, less: str) -> None:
    assert told(board_with(more, less)) == []


def test_it_is_told_without_a_board_too() -> None:
    board = board_with("1234", "23")
    (step,) = SIGN_BOUNDS.find(board)
    assert tell(step, board.layout) == "The sign makes r1c1 greater than r1c2: 1 and 2 go from r1c1."


def test_a_puzzle_of_signs_alone_is_solved_by_logic_and_every_step_stands() -> None:
    assert replay(DRAWN).outcome is Outcome.SOLVED
    taken = walk(DRAWN)
    assert any(step.step.technique == "sign-bounds" for step in taken.steps)
    assert failed_audits(taken.steps) == []

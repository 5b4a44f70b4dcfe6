import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.subsets import (
    HIDDEN_PAIR,
    HIDDEN_QUAD,
    HIDDEN_TRIPLE,
    NAKED_PAIR,
    NAKED_QUAD,
    NAKED_TRIPLE,
)
from tests.grader.boards import houses_of, names, removed
from verifier.puzzle.masks import digits_of

NAKED_PAIR_ROW = "26 4 268 26 1 3 5 7 9"
NAKED_TRIPLE_ROW = "13 2 5 16 7 36 13468 9 1468"
NAKED_QUAD_ROW = "13 36 2 68 7 18 149 5 4689"
HIDDEN_PAIR_ROW = "1348 2 5 168 7 36 346 9 36"
HIDDEN_TRIPLE_ROW = "148 2 389 469 7 13 16 5 36"
HIDDEN_QUAD_ROW = "156 12 267 23 378 34 458 14 9"


@pytest.mark.parametrize(
    ("technique", "row", "cells", "digits", "gone"),
    [
        (NAKED_PAIR, NAKED_PAIR_ROW, "r1c1 r1c4", (2, 6), {"r1c3": (2, 6)}),
        (NAKED_TRIPLE, NAKED_TRIPLE_ROW, "r1c1 r1c4 r1c6", (1, 3, 6), {"r1c7": (1, 3, 6), "r1c9": (1, 6)}),
        (NAKED_QUAD, NAKED_QUAD_ROW, "r1c1 r1c2 r1c4 r1c6", (1, 3, 6, 8), {"r1c7": (1,), "r1c9": (6, 8)}),
        (HIDDEN_PAIR, HIDDEN_PAIR_ROW, "r1c1 r1c4", (1, 8), {"r1c1": (3, 4), "r1c4": (6,)}),
        (
            HIDDEN_TRIPLE,
            HIDDEN_TRIPLE_ROW,
            "r1c1 r1c3 r1c4",
            (4, 8, 9),
            {"r1c1": (1,), "r1c3": (3,), "r1c4": (6,)},
        ),
        (
            HIDDEN_QUAD,
            HIDDEN_QUAD_ROW,
            "r1c1 r1c3 r1c5 r1c7",
            (5, 6, 7, 8),
            {"r1c1": (1,), "r1c3": (2,), "r1c5": (3,), "r1c7": (4,)},
        ),
    ],
)
def test_a_subset_removes_what_it_leaves_no_room_for(
    technique: Technique, row: str, cells: str, digits: tuple[int, ...], gone: dict[str, tuple[int, ...]]
) -> None:
    board = board_from_text(row)
    (step,) = technique.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == (cells, digits)
    assert removed(board, step) == gone
    assert houses_of(board, step) == ["row 1"]


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (NAKED_PAIR, NAKED_PAIR_ROW.replace("26 4", "236 4")),
        (NAKED_TRIPLE, NAKED_TRIPLE_ROW.replace("13 2", "138 2")),
        (NAKED_QUAD, NAKED_QUAD_ROW.replace("13 36", "134 36")),
        (HIDDEN_PAIR, HIDDEN_PAIR_ROW.replace("346 9", "3468 9")),
        (HIDDEN_TRIPLE, HIDDEN_TRIPLE_ROW.replace("16 5", "164 5")),
        (HIDDEN_QUAD, HIDDEN_QUAD_ROW.replace("14 9", "148 9")),
    ],
)
def test_one_more_candidate_and_there_is_no_subset(technique: Technique, near_miss: str) -> None:
    assert not list(technique.find(board_from_text(near_miss)))


@pytest.mark.parametrize(
    ("technique", "row"), [(NAKED_PAIR, "26 4 8 26 1 3 5 7 9"), (HIDDEN_PAIR, "18 2 5 18 7 36 346 9 36")]
)
def test_a_subset_that_removes_nothing_is_no_step(technique: Technique, row: str) -> None:
    assert not list(technique.find(board_from_text(row)))


def test_a_pair_in_a_box_and_a_line_gives_a_step_for_each() -> None:
    board = board_from_text("12 12 . .", size=4)
    effects = {tuple(houses_of(board, step)): removed(board, step) for step in NAKED_PAIR.find(board)}
    assert effects == {
        ("row 1",): {"r1c3": (1, 2), "r1c4": (1, 2)},
        ("box 1",): {"r2c1": (1, 2), "r2c2": (1, 2)},
    }


def test_a_naked_subset_rests_on_its_own_cells() -> None:
    board = board_from_text(NAKED_PAIR_ROW)
    (step,) = NAKED_PAIR.find(board)
    assert names(board, step.looks) == "r1c1 r1c4"


def test_a_hidden_subset_rests_on_the_other_cells_of_the_house() -> None:
    board = board_from_text(HIDDEN_PAIR_ROW)
    (step,) = HIDDEN_PAIR.find(board)
    assert names(board, step.looks) == "r1c2 r1c3 r1c5 r1c6 r1c7 r1c8 r1c9"


def test_cells_with_one_candidate_are_left_to_the_singles() -> None:
    assert not list(NAKED_PAIR.find(board_from_text("2? 26 268 4 1 3 5 7 9")))

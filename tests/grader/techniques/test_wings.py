import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.subsets import NAKED_PAIR
from grader.techniques.wings import REMOTE_PAIRS, W_WING, XY_WING, XYZ_WING
from tests.grader.boards import cages_of, houses_of, names, removed
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

XY = """
12 8 5  23 6 7  4 9 13
13 7 9 138 5 4  6 2 18
"""
XYZ = """
123  8 346  9 13 7  5 46 246
  7 23   9
"""
W = """
.
12 . . . 28
.
.
. - - - . - - - -
.
.
. . . . 12
"""
REMOTE = """
12 . . . 12
.
.
.
. . . . 12 . . . 12
"""
EVERY_WING = [
    (XY_WING, XY, "r1c1 r1c4 r2c1", (3,), {"r2c4": (3,)}, ["row 1", "column 1", "column 4", "row 2"]),
    (XYZ_WING, XYZ, "r1c1 r1c5 r2c2", (3,), {"r1c3": (3,)}, ["row 1", "box 1"]),
    (
        W_WING,
        W.replace("-", "23456789"),
        "r2c1 r5c1 r5c5 r8c5",
        (2,),
        {"r2c5": (2,), "r8c1": (2,)},
        ["row 5", "column 1", "column 5", "row 2", "row 8"],
    ),
    (
        REMOTE_PAIRS,
        REMOTE,
        "r1c1 r1c5 r5c5 r5c9",
        (1, 2),
        {"r1c9": (1, 2), "r5c1": (1, 2)},
        ["row 1", "column 5", "row 5", "column 1", "column 9"],
    ),
]


@pytest.mark.parametrize(("technique", "picture", "cells", "digits", "gone", "houses"), EVERY_WING)
def test_a_wing_clears_the_cells_that_see_its_ends(
    technique: Technique,
    picture: str,
    cells: str,
    digits: tuple[int, ...],
    gone: dict[str, tuple[int, ...]],
    houses: list[str],
) -> None:
    board = board_from_text(picture)
    (step,) = technique.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == (cells, digits)
    assert removed(board, step) == gone
    assert sorted(houses_of(board, step)) == sorted(houses)


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (XY_WING, XY.replace("12 8", "128 8")),
        (XY_WING, XY.replace("23 6", "238 6")),
        (XYZ_WING, XYZ.replace("13 7", "136 7")),
        (XYZ_WING, XYZ.replace("123  8", "1236 8")),
        (W_WING, W.replace("-", ".", 1).replace("-", "23456789")),
        (W_WING, W.replace("-", "23456789").replace(". 12\n", ". 123\n")),
        (REMOTE_PAIRS, REMOTE.replace("12 . . . 12\n", "12 . . . 123\n", 1)),
    ],
)
def test_one_more_candidate_and_there_is_no_wing(technique: Technique, near_miss: str) -> None:
    assert not list(technique.find(board_from_text(near_miss)))


def test_an_xyz_wing_spares_cells_that_see_its_wings_but_not_its_pivot() -> None:
    board = board_from_text(XYZ)
    (step,) = XYZ_WING.find(board)
    assert board.candidates[12] >> 3 & 1  # r2c4 sees r1c5 and r2c2
    assert "r2c4" not in removed(board, step)


def test_a_wing_rests_on_its_own_cells() -> None:
    board = board_from_text(XY)
    (step,) = XY_WING.find(board)
    assert names(board, step.looks) == "r1c1 r1c4 r2c1"


def test_a_w_wing_rests_on_its_cells_and_on_the_house_of_the_strong_link() -> None:
    board = board_from_text(W.replace("-", "23456789"))
    (step,) = W_WING.find(board)
    assert names(board, step.looks) == "r2c1 r5c2 r5c3 r5c4 r5c6 r5c7 r5c8 r5c9 r8c5"


def test_a_w_wing_does_not_look_where_its_cells_close_the_digit() -> None:
    # r4c6 and r5c5 share box 5: with a 1 in r4c6 only the other cells of row 5 outside box 5 matter.
    row_5 = "16 - - - 16 - - - -".replace("-", "23456789")
    board = board_from_text(f"12\n.\n.\n. . . . . 12\n{row_5}")
    (step,) = W_WING.find(board)
    assert names(board, step.looks) == "r1c1 r4c6 r5c2 r5c3 r5c7 r5c8 r5c9"


def test_a_cage_that_needs_the_digit_links_a_w_wing() -> None:
    # The cage of 15 is 159 or 168, its 1 in r5c1 or r5c5: a cage in pieces, which grades the same.
    cage = Cage((36, 40, 44), 15)
    board = board_from_text(W.replace(". - - - . - - - -", "15689 . . . 15689 . . . 5689"), [cage])
    (step,) = W_WING.find(board)
    assert removed(board, step) == {"r2c5": (2,), "r8c1": (2,)}
    assert (cages_of(board, step), names(board, step.looks)) == ((0,), "r2c1 r5c1 r5c5 r5c9 r8c5")


def test_two_cells_that_see_each_other_are_left_to_the_naked_pairs() -> None:
    board = board_from_text(W.replace("-", "23456789").replace(". 12\n", "\n").replace("28", "12"))
    assert not list(W_WING.find(board))
    assert list(NAKED_PAIR.find(board))


def test_remote_pairs_are_told_with_their_links() -> None:
    (step,) = REMOTE_PAIRS.find(board_from_text(REMOTE))
    assert step.length == 3


def test_cells_two_links_apart_are_the_same_digit_and_clear_nothing() -> None:
    assert not list(REMOTE_PAIRS.find(board_from_text("12 . . . 12\n.\n.\n.\n. . . . 12")))

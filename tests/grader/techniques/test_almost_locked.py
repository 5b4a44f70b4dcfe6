import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.almost_locked import (
    ALMOST_LOCKED_CHAIN,
    ALMOST_LOCKED_PAIR,
    ALMOST_LOCKED_TRIPLE,
    TWO_SECTOR_SUBSETS,
)
from tests.grader.boards import houses_of, names, removed
from verifier.puzzle.masks import digits_of

PAIR = """
125
125
.
.
.
.
57
. 17
.
"""
TRIPLE = """
145
145
.
. . . . 16
.
.
578 . . . 678 . . . 78
"""
NO_1, NO_5 = "23456789", "12346789"
CHAIN = f"""
145 . . . {NO_1}
145 . . . {NO_1}
. . . . {NO_1}
. . . . .
. . . . {NO_1}
. . . . {NO_1}
. {NO_5} {NO_5} {NO_5} . {NO_5} {NO_5} {NO_5} {NO_5}
. . . . {NO_1}
. . . . {NO_1}
"""
TWO_SECTORS = """
1234 1234 5 12 168 178 6789 6789 6789
6 6789 34
6789 6789 379
"""
TWICE_LINKED = """
123 124 . . . . 34
. . 125
. . 125
"""


def test_a_pair_of_almost_locked_sets_clears_the_cells_that_see_their_common_digit() -> None:
    board = board_from_text(PAIR)
    (step,) = ALMOST_LOCKED_PAIR.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == ("r1c1 r2c1 r7c1 r8c2", (1,))
    assert removed(board, step) == dict.fromkeys(("r1c2", "r2c2", "r3c2", "r8c1", "r9c1"), (1,))


def test_almost_locked_sets_rest_on_their_cells_and_houses() -> None:
    board = board_from_text(PAIR)
    (step,) = ALMOST_LOCKED_PAIR.find(board)
    assert step.looks == step.focus
    assert sorted(houses_of(board, step)) == ["box 1", "box 7", "column 1", "column 2"]


def test_a_pair_linked_twice_holds_all_its_other_digits() -> None:
    # r1c1, r1c2 and r1c7 lack 1 or 2, r2c3 and r3c3 lack the other: 3 and 4 are in row 1, 5 in column 3.
    board = board_from_text(TWICE_LINKED)
    step = next(step for step in ALMOST_LOCKED_PAIR.find(board) if not step.length)
    assert (names(board, step.focus), digits_of(step.digits)) == ("r1c1 r1c2 r1c7 r2c3 r3c3", (1, 2, 3, 4, 5))
    gone = removed(board, step)
    assert gone["r1c9"] == (3, 4)
    assert gone["r9c3"] == (5,)
    assert gone["r2c1"] == (1, 2, 5)
    assert gone["r1c3"] == (1, 2, 3, 4, 5)


def test_a_triple_of_almost_locked_sets_is_tied_together_by_the_one_in_the_middle() -> None:
    board = board_from_text(TRIPLE)
    (step,) = ALMOST_LOCKED_TRIPLE.find(board)
    assert (removed(board, step), step.length) == ({"r4c1": (1,)}, 5)
    assert names(board, step.looks) == "r1c1 r2c1 r4c5 r7c1 r7c5 r7c9"


def test_three_sets_of_which_two_do_it_are_a_pair() -> None:
    assert not list(ALMOST_LOCKED_TRIPLE.find(board_from_text(PAIR)))


def test_an_almost_locked_set_takes_part_in_a_chain() -> None:
    board = board_from_text(CHAIN)
    (step,) = ALMOST_LOCKED_CHAIN.find(board)
    assert (removed(board, step), step.length) == ({"r4c1": (1,)}, 5)
    assert step.chain[0] == ((0, 9), 1)


def test_two_sector_subsets_clear_the_rest_of_the_line_and_of_the_box() -> None:
    board = board_from_text(TWO_SECTORS)
    (step,) = TWO_SECTOR_SUBSETS.find(board)
    assert (names(board, step.focus), digits_of(step.digits)) == ("r1c1 r1c2 r1c4 r2c3", (1, 2, 3, 4))
    assert removed(board, step) == {"r1c5": (1,), "r1c6": (1,), "r3c3": (3,)}
    assert (houses_of(board, step), step.looks) == (["row 1", "box 1"], step.focus)


def test_a_cell_of_both_sectors_loses_the_digits_of_both() -> None:
    board = board_from_text(TWO_SECTORS.replace("1234 1234 5", "1234 1234 12345"))
    gone = [removed(board, step) for step in TWO_SECTOR_SUBSETS.find(board)]
    assert {"r1c3": (1, 2, 3, 4), "r1c5": (1,), "r1c6": (1,), "r3c3": (3,)} in gone


def test_a_digit_on_both_sides_of_a_crossing_counts_twice() -> None:
    # Six cells and five digits, of which only the 5 can stand twice: on either side, so nowhere else.
    board = board_from_text("1234 1234 5678 15 25 5679 6789 6789 6789\n6789 6789 35\n56789 6789 45")
    (step,) = TWO_SECTOR_SUBSETS.find(board)
    assert removed(board, step) == {"r1c3": (5,), "r1c6": (5,), "r3c1": (5,)}


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (ALMOST_LOCKED_PAIR, PAIR.replace("125\n125", "125\n1256")),
        (ALMOST_LOCKED_PAIR, PAIR.replace("17", "178")),
        (ALMOST_LOCKED_TRIPLE, TRIPLE.replace(" 78", " 789")),
        (ALMOST_LOCKED_TRIPLE, TRIPLE.replace("16", "169")),
        (ALMOST_LOCKED_CHAIN, CHAIN.replace("145", "1456", 1)),
        (TWO_SECTOR_SUBSETS, TWO_SECTORS.replace("1234", "12346", 1)),
        (TWO_SECTOR_SUBSETS, TWO_SECTORS.replace("12 168", "126 168")),
    ],
)
def test_one_more_candidate_and_the_sets_are_not_tied(technique: Technique, near_miss: str) -> None:
    assert not list(technique.find(board_from_text(near_miss)))

import pytest

from grader.board.board import Board, board_from_text
from grader.board.technique import Technique
from grader.reasoning.chains.alternation import LINKS_AT_MOST
from grader.techniques.chains import ALTERNATING_INFERENCE_CHAIN, XY_CHAIN
from grader.techniques.wings import XY_WING
from tests.grader.boards import cages_of, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage

FOUR_CELLS = """
12 . . . 23
.
.
.
. . . . 34 . . . 14
"""
NO_1, NO_2 = "23456789", "13456789"


def through_a_cell(first: str = "12", row_5: str = "- - - - . - - - .") -> Board:
    """r1c1 is 1 or 2; column 5 has two places for 2, row 5 two places for 1, both in r5c5."""
    column_5 = f". . . . {NO_2}"
    rows = [f"{first} . . . .", *[column_5] * 3, row_5.replace("-", NO_1), *[column_5] * 4]
    return board_from_text("\n".join(rows))


def test_the_ends_of_an_xy_chain_clear_the_cells_that_see_both() -> None:
    board = board_from_text(FOUR_CELLS)
    (step,) = XY_CHAIN.find(board)
    assert removed(board, step) == {"r1c9": (1,), "r5c1": (1,)}
    assert (names(board, step.focus), step.length) == ("r1c1 r5c9", 7)
    assert [digit for _, digit in step.chain] == [1, 2, 2, 3, 3, 4, 4, 1]


def test_an_xy_chain_rests_on_its_cells_and_on_the_houses_that_join_them() -> None:
    board = board_from_text(FOUR_CELLS)
    (step,) = XY_CHAIN.find(board)
    assert names(board, step.looks) == "r1c1 r1c5 r5c5 r5c9"
    assert sorted(houses_of(board, step)) == ["column 1", "column 5", "column 9", "row 1", "row 5"]


def test_an_xy_chain_of_three_cells_is_an_xy_wing() -> None:
    board = board_from_text("12 . . . 23\n.\n.\n.\n13")
    (step,) = XY_CHAIN.find(board)
    assert step.length == 5
    assert removed(board, step) == removed(board, next(iter(XY_WING.find(board))))


def test_only_the_shortest_chains_are_told() -> None:
    longer = board_from_text(FOUR_CELLS)
    both = board_from_text(FOUR_CELLS + ".\n56 . . . . . . . 67\n57")
    assert [step.length for step in XY_CHAIN.find(longer)] == [7]
    assert {step.length for step in XY_CHAIN.find(both)} == {5}


def test_no_chain_has_more_links_than_a_person_follows() -> None:
    # Each cell sees the next and nothing else: seven cells make thirteen links, one too many.
    six = "12 . . . 23\n.\n.\n.\n. . . . 34 . . 45\n.\n.\n. . 61 . . . . 56"
    seven = six.replace("61", "67") + "\n. 71"
    assert [step.length for step in XY_CHAIN.find(board_from_text(six))] == [LINKS_AT_MOST]
    assert not list(XY_CHAIN.find(board_from_text(seven)))


def test_an_alternating_chain_goes_through_cells_and_houses() -> None:
    board = through_a_cell()
    (step,) = ALTERNATING_INFERENCE_CHAIN.find(board)
    assert (removed(board, step), step.length) == ({"r1c9": (1,)}, 5)
    assert step.chain == (((0,), 1), ((0,), 2), ((4,), 2), ((40,), 2), ((40,), 1), ((44,), 1))


def test_an_alternating_chain_rests_on_what_its_links_need() -> None:
    board = through_a_cell()
    (step,) = ALTERNATING_INFERENCE_CHAIN.find(board)
    assert sorted(houses_of(board, step)) == ["column 5", "column 9", "row 1", "row 5"]
    others_of_column = [cell for cell in range(4, 81, 9) if cell not in (4, 40)]
    others_of_row = [cell for cell in range(36, 45) if cell not in (40, 44)]
    assert list(step.looks) == sorted([0, *others_of_column, *others_of_row])


def test_a_loop_clears_the_house_of_each_of_its_weak_links() -> None:
    board = board_from_text("12 . . . 23\n.\n.\n.\n14 . . . 34")
    found = [removed(board, step) for step in XY_CHAIN.find(board)]
    assert len(found) == 4
    assert {f"r{row}c1": (1,) for row in (2, 3, 4, 6, 7, 8, 9)} in found
    assert {f"r1c{column}": (2,) for column in (2, 3, 4, 6, 7, 8, 9)} in found
    assert {f"r{row}c5": (3,) for row in (2, 3, 4, 6, 7, 8, 9)} in found
    assert {f"r5c{column}": (4,) for column in (2, 3, 4, 6, 7, 8, 9)} in found


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (XY_CHAIN, board_from_text(FOUR_CELLS.replace("34", "345"))),
        (ALTERNATING_INFERENCE_CHAIN, through_a_cell(first="123")),
        (ALTERNATING_INFERENCE_CHAIN, through_a_cell(row_5="- - . - . - - - .")),
    ],
)
def test_one_more_candidate_and_the_chain_is_broken(technique: Technique, near_miss: Board) -> None:
    assert not list(technique.find(near_miss))


def test_a_cage_with_two_combinations_has_a_digit_of_the_one_or_of_the_other() -> None:
    # The cage of 11 is 29 or 38, so it has a 2 or an 8; and r1c9 is one of these.
    cage = Cage((0, 1), 11)
    board = board_from_text("2389 2389 . . . . . . 28", [cage])
    found = [removed(board, step) for step in ALTERNATING_INFERENCE_CHAIN.find(board)]
    rest = [f"r1c{column}" for column in range(3, 9)]
    assert found == [dict.fromkeys(rest, (2,)), dict.fromkeys(rest, (8,))]


def test_with_a_third_combination_there_is_no_such_link() -> None:
    board = board_from_text("23489 23789 . . . . . . 28", [Cage((0, 1), 11)])
    assert not list(ALTERNATING_INFERENCE_CHAIN.find(board))


def test_two_digits_that_no_combination_has_together_exclude_each_other() -> None:
    # The cage of 12 is 39, 48 or 57, so r1c1 is not 3 with a 4 beside it: r5c1 is 3 or r5c2 is 4.
    no_3_no_4 = "12456789 12356789"
    rows = ["345789 345789", *[no_3_no_4] * 3, ". .", *[no_3_no_4] * 4]
    board = board_from_text("\n".join(rows), [Cage((0, 1), 12)])
    (step,) = ALTERNATING_INFERENCE_CHAIN.find(board)
    assert (removed(board, step), step.length) == ({"r5c1": (4,), "r5c2": (3,)}, 3)
    assert cages_of(board, step) == (0,)

import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.cages import (
    CAGE_ARRANGEMENTS,
    CAGE_COMBINATIONS,
    LAST_CELL_OF_CAGE,
    SINGLE_COMBINATION,
)
from tests.grader.boards import cages_of, houses_of, names, removed
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

ROW_OF_TWO = [Cage((0, 1), 17)]
L_SHAPE = [Cage((0, 1, 9), 22)]


def test_the_last_cell_of_a_cage_takes_what_is_missing() -> None:
    board = board_from_text("4 . 8", [Cage((0, 1, 2), 15)])
    (step,) = LAST_CELL_OF_CAGE.find(board)
    assert step.places == ((1, 3),)
    assert (cages_of(board, step), names(board, step.looks)) == ((0,), "r1c1 r1c3")


def test_two_empty_cells_of_a_cage_are_no_subtraction() -> None:
    assert not list(LAST_CELL_OF_CAGE.find(board_from_text("4 . .", [Cage((0, 1, 2), 15)])))


def test_a_missing_digit_that_cannot_stand_there_empties_the_cell() -> None:
    board = board_from_text("4 129 8", [Cage((0, 1, 2), 15)])
    (step,) = LAST_CELL_OF_CAGE.find(board)
    assert removed(board, step) == {"r1c2": (1, 2, 9)}


def test_a_total_with_one_combination_leaves_only_its_digits() -> None:
    board = board_from_text("36789 1489", ROW_OF_TWO)
    (step,) = SINGLE_COMBINATION.find(board)
    assert removed(board, step) == {"r1c1": (3, 6, 7), "r1c2": (1, 4)}
    assert digits_of(step.digits) == (8, 9)


def test_what_is_left_of_a_cage_may_have_one_combination_where_the_whole_has_more() -> None:
    # 20 in three cells has four combinations; with 3 written in, 17 is left, and that is 89.
    board = board_from_text("3 . .", [Cage((0, 1, 2), 20)])
    (step,) = SINGLE_COMBINATION.find(board)
    assert removed(board, step) == dict.fromkeys(["r1c2", "r1c3"], (1, 2, 4, 5, 6, 7))
    assert names(board, step.looks) == "r1c1"


def test_a_total_with_two_combinations_is_not_single() -> None:
    assert not list(SINGLE_COMBINATION.find(board_from_text(". .", [Cage((0, 1), 15)])))


def test_a_digit_in_no_open_combination_goes_from_the_cage() -> None:
    board = board_from_text("1345 4567", [Cage((0, 1), 9)])
    (step,) = CAGE_COMBINATIONS.find(board)
    assert removed(board, step) == {"r1c1": (1,), "r1c2": (7,)}
    assert digits_of(step.digits) == (3, 4, 5, 6)


def test_where_every_digit_is_in_some_open_combination_none_goes() -> None:
    assert not list(CAGE_COMBINATIONS.find(board_from_text("1345 4568", [Cage((0, 1), 9)])))


def test_a_digit_in_every_combination_goes_from_all_cells_that_see_its_places() -> None:
    # Common practice, no source: 22 in three cells is 589 or 679, so it holds a 9.
    board = board_from_text("56789 56789 . . . . . . .\n56789", L_SHAPE)
    (step,) = [step for step in CAGE_COMBINATIONS.find(board) if board.layout.houses_among(step.rules)]
    assert digits_of(step.digits) == (9,)
    assert set(removed(board, step)) == {"r1c3", "r2c2", "r2c3", "r3c1", "r3c2", "r3c3"}
    assert houses_of(board, step) == ["box 1"]


def test_a_cell_that_misses_one_place_keeps_the_digit() -> None:
    board = board_from_text("56789 56789 . . . . . . .\n56789", L_SHAPE)
    gone = {
        cell
        for step in CAGE_COMBINATIONS.find(board)
        if board.layout.houses_among(step.rules)
        for cell in removed(board, step)
    }
    assert "r1c4" not in gone
    assert "r4c1" not in gone


def test_a_digit_whose_places_in_the_cage_are_taken_goes_from_the_third_cell() -> None:
    board = board_from_text("12 12 123", [Cage((0, 1, 2), 6)])
    (step,) = CAGE_ARRANGEMENTS.find(board)
    assert removed(board, step) == {"r1c3": (1, 2)}


def test_with_one_more_candidate_every_digit_can_be_arranged() -> None:
    assert not list(CAGE_ARRANGEMENTS.find(board_from_text("123 12 123", [Cage((0, 1, 2), 6)])))


@pytest.mark.parametrize("technique", [SINGLE_COMBINATION, CAGE_COMBINATIONS, CAGE_ARRANGEMENTS])
def test_a_cage_with_more_combinations_than_a_person_lists_is_passed_over(technique: Technique) -> None:
    board = board_from_text("", [Cage(tuple(range(12)), 156)], size=25)
    assert not list(technique.find(board))

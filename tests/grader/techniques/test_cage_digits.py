from grader.board.board import board_from_text
from grader.techniques.cage_digits import (
    FEW_ARRANGEMENTS,
    LAST_CELLS_OF_CAGE,
    ONLY_CELL_BY_COMBINATIONS,
    ONLY_CELL_IN_CAGE,
)
from tests.grader.boards import cages_of, names
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

ROW_OF_TWO = [Cage((0, 1), 14)]
ROW_OF_THREE = [Cage((0, 1, 2), 16)]
TEN_IN_FOUR = [Cage((0, 1, 2, 3), 10)]


def test_the_last_two_cells_of_a_cage_are_written_in_together() -> None:
    # Common practice, no source: 14 is 5 + 9 or 6 + 8, and never 7 + 7.
    board = board_from_text("589 79", ROW_OF_TWO)
    (step,) = LAST_CELLS_OF_CAGE.find(board)
    assert (step.places, digits_of(step.digits)) == (((0, 5), (1, 9)), (5, 9))
    assert (cages_of(board, step), names(board, step.looks)) == ((0,), "r1c2")


def test_two_ways_round_settle_neither_cell() -> None:
    assert not list(LAST_CELLS_OF_CAGE.find(board_from_text("5789 5679", ROW_OF_TWO)))


def test_one_cell_is_enough_where_it_has_one_digit_of_the_combinations() -> None:
    board = board_from_text("6 1234 .", [Cage((0, 1, 2), 19)])  # 13 more: 4 + 9 is all that 1234 allows
    (step,) = LAST_CELLS_OF_CAGE.find(board)
    assert (step.places, names(board, step.looks)) == (((1, 4), (2, 9)), "r1c1 r1c2")


def test_of_three_cells_with_one_combination_left_one_may_be_settled() -> None:
    board = board_from_text("35 358 35 .", ROW_OF_THREE)
    (step,) = LAST_CELLS_OF_CAGE.find(board)
    assert (step.places, digits_of(step.digits)) == (((1, 8),), (3, 5, 8))


def test_with_a_second_combination_nothing_is_the_last_of_its_cage() -> None:
    assert not list(LAST_CELLS_OF_CAGE.find(board_from_text("35 3478 356 .", ROW_OF_THREE)))


def test_four_empty_cells_are_more_than_a_person_arranges() -> None:
    board = board_from_text("12 12 3? 4?", TEN_IN_FOUR)
    assert not list(LAST_CELLS_OF_CAGE.find(board))


def test_what_two_combinations_share_in_one_cell_stands_there() -> None:
    board = board_from_text("48 159 369", ROW_OF_THREE)  # 4 + 9 + 3 or 8 + 5 + 3
    (step,) = FEW_ARRANGEMENTS.find(board)
    assert (step.places, names(board, step.looks)) == (((2, 3),), "r1c1 r1c2 r1c3")


def test_a_third_arrangement_without_the_digit_settles_nothing() -> None:
    assert not list(FEW_ARRANGEMENTS.find(board_from_text("48 1359 369", ROW_OF_THREE)))  # 4 + 3 + 9, too


def test_five_arrangements_are_too_many_to_see_what_they_share() -> None:
    # 9 is in the first cell, and 7 in the others 1 + 6, 2 + 5, 3 + 4, both ways round.
    board = board_from_text("9? 123456 123456", ROW_OF_THREE)
    assert not list(FEW_ARRANGEMENTS.find(board))
    (step,) = FEW_ARRANGEMENTS.find(board_from_text("9? 1256 1256", ROW_OF_THREE))
    assert step.places == ((0, 9),)


def test_a_digit_of_the_one_combination_goes_in_the_only_cell_for_it() -> None:
    board = board_from_text("1234 123 123 123", TEN_IN_FOUR)
    (step,) = ONLY_CELL_IN_CAGE.find(board)
    assert (step.places, names(board, step.looks)) == (((0, 4),), "r1c2 r1c3 r1c4")


def test_a_second_cell_for_the_digit_leaves_it_open() -> None:
    assert not list(ONLY_CELL_IN_CAGE.find(board_from_text("1234 1234 123 123", TEN_IN_FOUR)))


def test_a_total_with_two_combinations_holds_neither_for_certain() -> None:
    assert not list(ONLY_CELL_IN_CAGE.find(board_from_text("1235 123 123 123", [Cage((0, 1, 2, 3), 12)])))


def test_a_digit_of_all_combinations_goes_in_the_only_cell_for_it() -> None:
    # Common practice, no source: 22 in three cells is 589 or 679, so it holds a 9.
    board = board_from_text("5678 6789 678", [Cage((0, 1, 2), 22)])
    (step,) = ONLY_CELL_BY_COMBINATIONS.find(board)
    assert (step.places, names(board, step.looks)) == (((1, 9),), "r1c1 r1c3")


def test_where_the_board_closes_a_combination_all_cells_are_looked_at() -> None:
    # 21 in three cells is 489, 579 or 678: without a 4 and a 6, 9 is certain.
    board = board_from_text("578 5789 578", [Cage((0, 1, 2), 21)])
    (step,) = ONLY_CELL_BY_COMBINATIONS.find(board)
    assert (step.places, names(board, step.looks)) == (((1, 9),), "r1c1 r1c2 r1c3")


def test_an_open_combination_without_the_digit_leaves_it_open() -> None:
    board = board_from_text("5678 56789 5678", [Cage((0, 1, 2), 21)])
    assert not list(ONLY_CELL_BY_COMBINATIONS.find(board))

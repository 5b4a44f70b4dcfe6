from grader.board.board import board_from_text
from grader.reasoning.rule_of_45 import SumKind, fresh_sums
from grader.techniques.cut_sums import CUT_SUMS
from grader.techniques.sums import (
    DERIVED_SUM_OF_TWO,
    DERIVED_SUM_OF_UP_TO_FOUR,
    INNIE_OUTIE_DIFFERENCE,
    REST_OF_HOUSE,
    RULE_OF_45,
    RULE_OF_45_MORE_HOUSES,
    RULE_OF_45_TWO_HOUSES,
)
from tests.grader.boards import cages_of, names, removed
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

ONE_INNIE = [Cage(tuple(range(8)), 38)]
ONE_OUTIE = [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)]
TWO_INNIES = [Cage(tuple(range(7)), 29)]
ROWS_1_AND_2 = [Cage((*range(8), 9), 41), Cage((8, *range(10, 17)), 42)]
ROW_AND_COLUMN = [Cage(tuple(range(7)), 35), Cage(tuple(range(17, 72, 9)), 41)]


def test_the_cage_inside_a_house_leaves_one_innie() -> None:
    # Common practice, no source: a house adds up to 45.
    board = board_from_text("", ONE_INNIE)
    (step,) = REST_OF_HOUSE.find(board)
    assert step.places == ((8, 7),)
    assert (board.layout.houses_among(step.sums[0].rules), cages_of(board, step.sums[0])) == ((0,), (0,))


def test_the_cages_that_cover_a_house_stick_out_by_one_outie() -> None:
    board = board_from_text("", ONE_OUTIE)
    (step,) = RULE_OF_45.find(board)
    assert step.places == ((17, 1),)
    assert step.sums[0].linear.weights == ((17, 1),)


def test_a_cell_written_in_is_subtracted_like_a_cage() -> None:
    board = board_from_text(". . . . . . . 9 .", TWO_INNIES)
    assert ((8, 7),) in {step.places for step in REST_OF_HOUSE.find(board)}


def test_a_full_cage_is_taken_off_digit_by_digit() -> None:
    cages = [Cage((0, 1), 10), Cage((2, 3), 6), Cage((4, 5, 6, 7), 20)]
    (step,) = RULE_OF_45.find(board_from_text("", cages))
    assert (cages_of(board_from_text("", cages), step.sums[0]), step.looks) == ((0, 1, 2), ())
    board = board_from_text("3 7", cages)
    (step,) = REST_OF_HOUSE.find(board)
    assert (step.places, cages_of(board, step.sums[0])) == (((8, 9),), (1, 2))
    assert names(board, step.looks) == "r1c1 r1c2"
    assert not list(RULE_OF_45.find(board))


def test_the_rest_of_a_house_is_what_a_cage_needs_in_it_less_the_cells_outside() -> None:
    board = board_from_text("4 2 9 1 . . 5 8 7", [Cage((4, 5, 14), 15)])
    (step,) = REST_OF_HOUSE.find(board)
    assert step.places == ((14, 6),)


def test_two_cells_outside_leave_the_rest_of_a_house_open() -> None:
    assert not list(REST_OF_HOUSE.find(board_from_text("4 2 9 1 . . 5 8 7", [Cage((4, 5, 13, 14), 15)])))


def test_a_house_is_read_from_the_board_where_more_cages_straddle_it_than_one_keeps_track_of() -> None:
    dominoes = [Cage((column, column + 9), 10) for column in range(6)]
    empty, half_full = board_from_text("", dominoes), board_from_text("4 2 9 1 . .", dominoes)
    found = [[left.houses for left in fresh_sums(board, SumKind.MORE)] for board in (empty, half_full)]
    assert [(0,) in houses for houses in found] == [False, True]


def test_two_unknown_cells_are_no_innie() -> None:
    assert not list(REST_OF_HOUSE.find(board_from_text("", TWO_INNIES)))


def test_an_innie_that_cannot_hold_what_is_left_is_emptied() -> None:
    board = board_from_text(". . . . . . . . 12", ONE_INNIE)
    (step,) = REST_OF_HOUSE.find(board)
    assert removed(board, step) == {"r1c9": (1, 2)}


def test_two_houses_that_share_a_cage_add_up_to_90() -> None:
    # Common practice, no source.
    board = board_from_text("", ROWS_1_AND_2)
    (step,) = RULE_OF_45_TWO_HOUSES.find(board)
    assert step.places == ((17, 7),)
    assert board.layout.houses_among(step.sums[0].rules) == (0, 1)


def test_three_houses_add_up_to_135_and_are_no_two() -> None:
    # Common practice, no source.
    cages = [Cage((*range(8), 9), 41), Cage((8, *range(10, 17), 18), 45), Cage((17, *range(19, 26)), 45)]
    board = board_from_text("", cages)
    assert {step.places for step in RULE_OF_45_MORE_HOUSES.find(board)} == {((26, 4),)}
    assert not list(RULE_OF_45_TWO_HOUSES.find(board))


def test_five_houses_are_more_than_a_person_adds_up() -> None:
    snake = [Cage((*range(start, start + 8), start + 9), 45) for start in range(0, 36, 9)]
    board = board_from_text("", [*snake, Cage((8, 17, 26, 35), 20), Cage(tuple(range(37, 44)), 35)])
    assert not list(RULE_OF_45_MORE_HOUSES.find(board))


def test_houses_that_no_cage_links_are_not_added_up() -> None:
    # The same cells and totals, but each cage stays in its row: each row has its own innie, or none.
    cages = [Cage(tuple(range(8)), 38), Cage(tuple(range(9, 17)), 38)]
    assert not list(RULE_OF_45_TWO_HOUSES.find(board_from_text("", cages)))


def test_two_innies_that_see_each_other_differ() -> None:
    board = board_from_text(". . . . . . . 5789 3789", TWO_INNIES)
    (step,) = DERIVED_SUM_OF_TWO.find(board)
    assert removed(board, step) == {"r1c8": (5, 8), "r1c9": (3, 8)}  # 16 is 7 + 9, not 8 + 8


def test_two_innies_that_do_not_see_each_other_may_be_equal() -> None:
    # Rows 1 and 2 add up to 90, the cages inside to 74: r1c9 and r2c4 make 16, and 8 + 8 is allowed.
    cages = [Cage((*range(8), 9), 34), Cage((10, 11, *range(13, 18)), 40)]
    board = board_from_text("", cages)
    (step,) = [step for step in DERIVED_SUM_OF_TWO.find(board) if step.focus == (8, 12)]
    assert removed(board, step) == dict.fromkeys(["r1c9", "r2c4"], (1, 2, 3, 4, 5, 6))


def test_an_innie_less_an_outie_is_known() -> None:
    board = board_from_text("", [Cage(tuple(range(7)), 36), Cage((7, 16), 5)])
    step = next(step for step in INNIE_OUTIE_DIFFERENCE.find(board) if step.focus == (8, 16))
    assert removed(board, step) == {"r1c9": (1, 2, 3, 4), "r2c8": (6, 7, 8, 9)}
    assert step.sums[0].linear.total == 4


def test_a_difference_of_nought_removes_nothing_from_open_cells() -> None:
    board = board_from_text("", [Cage(tuple(range(7)), 36), Cage((7, 9), 9)])
    assert not [step for step in INNIE_OUTIE_DIFFERENCE.find(board) if step.focus == (8, 9)]


def test_three_innies_act_like_a_cage_of_three() -> None:
    board = board_from_text("", [Cage(tuple(range(6)), 38)])
    (step,) = DERIVED_SUM_OF_UP_TO_FOUR.find(board)
    assert set(removed(board, step).values()) == {(3, 5, 6, 7, 8, 9)}  # 7 is 124


def test_five_innies_are_more_than_a_person_follows() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3), 30)])
    assert not list(fresh_sums(board, SumKind.UP_TO_FOUR))


def test_the_cell_that_a_row_and_a_column_share_falls_away() -> None:
    board = board_from_text("", ROW_AND_COLUMN)
    step = next(step for step in CUT_SUMS.find(board) if names(board, step.focus) == "r1c8 r9c9")
    assert removed(board, step) == {"r1c8": (1, 2, 3, 4, 5, 6), "r9c9": (4, 5, 6, 7, 8, 9)}
    assert step.sums[0].linear.cells == (7, 80)


def test_sums_that_share_no_cell_are_not_cut() -> None:
    # The same totals, but the column's cells over are r2c9 and r9c9: nothing falls away.
    column = Cage(tuple(cell for cell in range(8, 81, 9) if cell not in (17, 80)), 41)
    board = board_from_text("", [Cage(tuple(range(1, 7)), 35), column])
    assert "r1c8 r9c9" not in {names(board, step.focus) for step in CUT_SUMS.find(board)}


def test_every_sum_over_a_group_follows_from_its_houses_and_cages() -> None:
    board = board_from_text("", ONE_OUTIE)
    for kind in SumKind:
        for left in fresh_sums(board, kind):
            derived = left.derived()
            assert set(board.layout.houses_among(derived.rules)) == set(left.houses)
            assert left.rest(board) == left.total  # nothing is written in yet


def test_digits_of_the_sum_are_those_that_stay() -> None:
    board = board_from_text(". . . . . . . 5789 3789", TWO_INNIES)
    (step,) = DERIVED_SUM_OF_TWO.find(board)
    assert digits_of(step.digits) == (7, 9)

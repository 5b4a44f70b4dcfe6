from grader.board.board import board_from_text
from grader.techniques.cage_subsets import CAGE_SUBSET
from tests.grader.boards import cages_of, houses_of, names, removed
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

SIX = [Cage((0, 1), 6)]  # 15 or 24


def test_a_cell_and_a_cage_use_two_digits_up_between_them() -> None:
    board = board_from_text("1245 1245 12 1234 . . . . .", SIX)
    step = next(iter(CAGE_SUBSET.find(board)))
    assert removed(board, step) == dict.fromkeys([f"r1c{column}" for column in range(4, 10)], (1, 2))
    assert (houses_of(board, step), names(board, step.focus)) == (["row 1"], "r1c3")
    assert digits_of(step.digits) == (1, 2)


def test_a_cell_with_one_candidate_more_uses_nothing_up() -> None:
    assert not list(CAGE_SUBSET.find(board_from_text("1245 1245 123 1234", SIX)))


def test_the_box_that_holds_cage_and_cell_loses_the_digits_as_well() -> None:
    board = board_from_text("1245 1245 12 1234 . . . . .", SIX)
    boxed = [step for step in CAGE_SUBSET.find(board) if houses_of(board, step) == ["box 1"]]
    assert [sorted(removed(board, step)) for step in boxed] == [
        ["r2c1", "r2c2", "r2c3", "r3c1", "r3c2", "r3c3"]
    ]


def test_a_combination_that_leaves_a_cell_nothing_is_out() -> None:
    board = board_from_text("1245 1245 15", SIX)
    step = next(iter(CAGE_SUBSET.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c1", "r1c2"], (1, 5))


def test_two_cells_leave_the_cage_one_of_their_three_digits() -> None:
    # 9 in two cells: 18, 27, 36, 45. The cells take two of 1, 2 and 7, so the cage cannot be 27.
    board = board_from_text("12345678 12345678 127 127", [Cage((0, 1), 9)])
    step = next(iter(CAGE_SUBSET.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c1", "r1c2"], (2, 7))
    assert names(board, step.focus) == "r1c3 r1c4"


def test_two_cells_with_a_digit_more_leave_the_cage_two() -> None:
    assert not list(CAGE_SUBSET.find(board_from_text("12345678 12345678 1278 127", [Cage((0, 1), 9)])))


def test_digits_that_fit_only_in_a_cage_and_two_cells_fill_the_cells() -> None:
    # 8 is 17, 26 or 35, with one of 1, 2 and 3 each time: the two cells take the other two, and no more.
    board = board_from_text(". . . . - - - - -".replace("-", "456789"), [Cage((0, 1), 8)])
    step = next(iter(CAGE_SUBSET.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c3", "r1c4"], (4, 5, 6, 7, 8, 9))
    assert digits_of(step.digits) == (1, 2, 3)


def test_one_place_more_and_the_cells_need_not_take_them() -> None:
    board = board_from_text(". . . . - - - - .".replace("-", "456789"), [Cage((0, 1), 8)])
    assert not list(CAGE_SUBSET.find(board))


def test_a_combination_with_too_few_of_the_digits_is_out() -> None:
    # 1, 2 and 3 fit only in the cage and in r1c3, so the cage takes two of them: 5 is 23, not 14.
    board = board_from_text("1234 1234 . - - - - - -".replace("-", "456789"), [Cage((0, 1), 5)])
    step = next(iter(CAGE_SUBSET.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c1", "r1c2"], (1, 4))


def test_what_a_sum_takes_in_every_combination_goes_from_the_rest_of_its_house() -> None:
    # Row 1 adds up to 45, the cage inside to 37: r1c7, r1c8 and r1c9 make 8, which is 125 or 134.
    board = board_from_text("", [Cage(tuple(range(6)), 37)])
    steps = [step for step in CAGE_SUBSET.find(board) if houses_of(board, step) == ["box 3"]]
    assert removed(board, steps[0]) == {f"r{row}c{column}": (1,) for row in (2, 3) for column in (7, 8, 9)}
    assert cages_of(board, steps[0].sums[0]) == (0,)


def test_a_cage_that_is_not_wholly_inside_the_house_has_no_part() -> None:
    board = board_from_text("1245 . 12 1234\n1245", [Cage((0, 9), 6)])
    assert {name for step in CAGE_SUBSET.find(board) for name in houses_of(board, step)} <= {
        "column 1",
        "box 1",
    }


def test_digits_by_the_total_alone_need_no_look_at_the_cage() -> None:
    board = board_from_text("12345678 12345678 127 127", [Cage((0, 1), 9)])
    step = next(iter(CAGE_SUBSET.find(board)))
    assert names(board, step.looks) == "r1c3 r1c4"

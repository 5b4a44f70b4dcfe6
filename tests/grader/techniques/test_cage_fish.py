from grader.techniques.cage_fish import CAGE_FISH
from grader.techniques.fish import X_WING
from tests.grader.boards import board_without, cages_of, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage

EIGHT = Cage((18, 27, 28), 8)  # r3c1 r4c1 r4c2: 125 or 134, so it holds a 1
ROW_7 = ".\n" * 6 + ". . - - - - - - -"


def test_a_cage_and_a_row_keep_a_digit_in_two_columns() -> None:
    board = board_without(1, ROW_7, [EIGHT])
    (step,) = CAGE_FISH.find(board)
    fish = {(3, 1), (4, 1), (4, 2), (7, 1), (7, 2)}
    assert removed(board, step) == {
        f"r{row}c{column}": (1,) for row in range(1, 10) for column in (1, 2) if (row, column) not in fish
    }
    assert (houses_of(board, step), cages_of(board, step)) == (["row 7", "column 1", "column 2"], (0,))


def test_a_cage_that_may_do_without_the_digit_is_no_line() -> None:
    assert not list(CAGE_FISH.find(board_without(1, ROW_7, [Cage(EIGHT.cells, 9)])))  # 9 may be 234


def test_a_place_in_a_third_column_and_there_is_no_fish() -> None:
    assert not list(CAGE_FISH.find(board_without(1, ROW_7.replace("-", ".", 1), [EIGHT])))


def test_two_cages_keep_a_digit_in_two_columns() -> None:
    cages = [EIGHT, Cage((45, 54, 55), 8)]
    board = board_without(1, "", cages)
    step = next(iter(CAGE_FISH.find(board)))
    assert (houses_of(board, step), cages_of(board, step)) == (["column 1", "column 2"], (0, 1))
    assert names(board, step.focus) == "r3c1 r4c1 r4c2 r6c1 r7c1 r7c2"


def test_a_cage_and_two_rows_keep_a_digit_in_three_columns() -> None:
    rows = ".\n" * 6 + "- . . - - - - - -\n. - . - - - - - -"
    board = board_without(1, rows, [EIGHT])
    assert [houses_of(board, step)[:2] for step in CAGE_FISH.find(board)] == [["row 7", "row 8"]]


def test_a_cage_that_shares_a_place_with_the_row_may_hold_the_same_digit() -> None:
    # The 1 of row 4 may be that of the cage.
    board = board_without(1, ".\n" * 3 + ". . - - - - - - -", [EIGHT])
    assert not list(CAGE_FISH.find(board))


def test_a_cage_within_a_box_is_left_to_the_box() -> None:
    assert not list(CAGE_FISH.find(board_without(1, ROW_7, [Cage((0, 9, 10), 8)])))


def test_a_fish_without_a_cage_is_a_plain_fish() -> None:
    two_rows = ".\n" * 6 + ". . - - - - - - -\n. . - - - - - - -"
    board = board_without(1, two_rows, [EIGHT])
    assert list(X_WING.find(board))
    assert all(cages_of(board, step) for step in CAGE_FISH.find(board))


def test_the_total_alone_makes_the_digit_certain_so_its_places_need_no_look() -> None:
    board = board_without(1, ROW_7, [EIGHT])
    (step,) = CAGE_FISH.find(board)
    assert names(board, step.looks) == "r7c3 r7c4 r7c5 r7c6 r7c7 r7c8 r7c9"


def test_where_open_digits_make_it_certain_the_whole_cage_is_looked_at() -> None:
    # 9 is 135 or 126 by what is open; by the total alone it might be 234.
    text = ".\n.\n1256\n1256 1236\n" + ROW_7.removeprefix(".\n" * 4)
    board = board_without(1, text, [Cage(EIGHT.cells, 9)])
    (step,) = CAGE_FISH.find(board)
    assert names(board, step.looks).startswith("r3c1 r4c1 r4c2 r7c3")

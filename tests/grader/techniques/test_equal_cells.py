from grader.board.board import Board, board_from_text
from grader.board.steps import Step
from grader.techniques.equal_cells import EQUAL_CELLS
from grader.words.narrate import tell
from tests.grader.boards import board_without, cages_of, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.lines.palindrome import Palindrome

# Row 1 leaves 9 for r1c8 and r1c9, and r1c8 and r2c1 make 9: so r1c9 is the same as r2c1.
EQUAL = [Cage(tuple(range(7)), 36), Cage((7, 9), 9)]


def row(number: int, text: str) -> str:
    """The picture of a board with one row written."""
    return ".\n" * (number - 1) + text


def column_9(marks: str) -> str:
    """The picture of a board with its last column written."""
    return "\n".join(f". . . . . . . . {mark}" for mark in marks.split())


def steps_on(board: Board, *cells: str) -> list[Step]:
    """The steps whose pattern is these cells."""
    return [step for step in EQUAL_CELLS.find(board) if names(board, step.focus).split() == list(cells)]


def test_a_digit_whose_places_all_see_one_of_the_two_stands_in_neither() -> None:
    board = board_without(7, row(5, ". - - - - - - - ."), EQUAL)
    (step,) = steps_on(board, "r5c1", "r5c9")
    assert removed(board, step) == {"r1c9": (7,), "r2c1": (7,)}
    assert houses_of(board, step) == ["row 5", "column 1", "column 9"]


def test_a_place_that_sees_neither_is_enough_for_nothing_to_follow() -> None:
    assert not list(EQUAL_CELLS.find(board_without(7, row(5, ". - - - . - - - ."), EQUAL)))


def test_cells_that_differ_by_one_are_not_equal() -> None:
    other = [EQUAL[0], Cage((7, 9), 10)]
    assert not list(EQUAL_CELLS.find(board_without(7, row(5, ". - - - - - - - ."), other)))


def test_places_that_all_see_the_same_one_are_left_to_locked_candidates() -> None:
    picture = row(2, "\n".join(["- - - - - - . . .", ". . . . . . . . ."]))
    assert not list(EQUAL_CELLS.find(board_without(7, picture, EQUAL)))


def test_what_sees_the_equal_cell_of_one_place_and_the_other_place_loses_the_digit() -> None:
    # The 7 of column 9 is in r1c9, and so in r2c1, or in r3c9: either way not in the rest of row 3 in box 1.
    board = board_without(7, column_9(". - . - - - - - -"), EQUAL)
    (step,) = steps_on(board, "r1c9", "r3c9")
    assert removed(board, step) == dict.fromkeys(["r3c1", "r3c2", "r3c3"], (7,))
    assert houses_of(board, step) == ["row 3", "column 9", "box 1"]


def test_a_third_place_in_the_house_and_the_digit_stays() -> None:
    board = board_without(7, column_9(". - . . - - - - -"), EQUAL)
    assert not steps_on(board, "r1c9", "r3c9", "r4c9")


def test_a_cell_with_the_same_two_candidates_makes_a_pair_with_the_far_cell() -> None:
    board = board_from_text(column_9("37 . . . . . . 37").replace("\n.", "\n37", 1), EQUAL)
    (step,) = EQUAL_CELLS.find(board)
    assert removed(board, step) == {"r8c1": (3, 7)}
    assert names(board, step.focus) == "r2c1 r8c9"


def test_a_cell_with_a_third_candidate_makes_no_pair() -> None:
    board = board_from_text(column_9("37 . . . . . . 379").replace("\n.", "\n37", 1), EQUAL)
    assert not list(EQUAL_CELLS.find(board))


def test_a_cage_that_is_certain_to_hold_the_digit_does_as_a_house() -> None:
    # 4 in two cells is 13; r5c1 sees r2c1 and r6c9 sees r1c9.
    board = board_from_text("", [*EQUAL, Cage((36, 53), 4)])
    assert [removed(board, step) for step in EQUAL_CELLS.find(board)] == [
        {"r1c9": (digit,), "r2c1": (digit,)} for digit in (1, 3)
    ]


def test_equal_cells_rest_on_the_sum_and_on_the_house_where_no_cell_is_seen() -> None:
    board = board_without(7, row(5, ". - - - - - - - ."), EQUAL)
    (step,) = steps_on(board, "r5c1", "r5c9")
    assert names(board, step.looks) == "r5c2 r5c3 r5c4 r5c5 r5c6 r5c7 r5c8"
    assert (board.layout.houses_among(step.sums[0].rules), cages_of(board, step.sums[0])) == ((0,), (0, 1))


def test_a_line_makes_its_mirror_cells_equal() -> None:
    picture = row(5, ". 12345689 12345689 12345689 12345689 12345689 12345689 12345689 .")
    board = board_from_text(picture, clues=[Palindrome((8, 16, 9))])
    (step,) = EQUAL_CELLS.find(board)
    assert tell(step, board.layout) == (
        "r1c9 mirrors r2c1 on the palindrome from r1c9 to r2c1; each place for 7 in row 5 sees one of them: "
        "7 goes from r1c9 and r2c1."
    )


def test_a_place_that_sees_neither_mirror_cell_and_the_digit_stays() -> None:
    picture = row(5, ". 123456789 12345689 12345689 12345689 12345689 12345689 12345689 .")
    assert not list(EQUAL_CELLS.find(board_from_text(picture, clues=[Palindrome((8, 16, 9))])))

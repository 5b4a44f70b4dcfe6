from grader.board.board import board_from_text
from grader.techniques.conflicts import CAGE_CONFLICTS, HIDDEN_CAGE_DIGITS
from grader.techniques.houses import HOUSE_COMBINATIONS
from tests.grader.boards import board_without, houses_of, removed
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage

NO_SEVEN_ELSEWHERE = "1346789 1346789" + " 12345689" * 7
FIVE_AND_EIGHT = [Cage((0, 1), 5), Cage((2, 3), 8)]


def test_a_digit_with_no_place_outside_the_cage_must_stand_in_it() -> None:
    board = board_from_text(NO_SEVEN_ELSEWHERE, [Cage((0, 1), 10)])
    (step,) = HIDDEN_CAGE_DIGITS.find(board)
    assert removed(board, step) == dict.fromkeys(["r1c1", "r1c2"], (1, 4, 6, 8, 9))
    assert (digits_of(step.digits), houses_of(board, step)) == ((7,), ["row 1"])


def test_one_place_outside_and_the_cage_need_not_hold_it() -> None:
    one_more = NO_SEVEN_ELSEWHERE[: -len("12345689")] + "123456789"
    assert not list(HIDDEN_CAGE_DIGITS.find(board_from_text(one_more, [Cage((0, 1), 10)])))


def test_a_digit_in_every_combination_already_is_no_news() -> None:
    board = board_without(9, ". . - - - - - - -")
    caged = board_from_text(". ." + " 12345678" * 7, [Cage((0, 1), 17)])
    assert not list(HIDDEN_CAGE_DIGITS.find(board))
    assert not list(HIDDEN_CAGE_DIGITS.find(caged))


def test_a_combination_that_leaves_none_to_another_cage_is_out() -> None:
    # 8 needs 1 + 7 here (4 + 4 repeats), so the cage of 5 cannot be 1 + 4.
    board = board_from_text("1234 1234 14 4567", FIVE_AND_EIGHT)
    step = next(iter(CAGE_CONFLICTS.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c1", "r1c2"], (1, 4))


def test_one_more_candidate_and_the_cages_agree() -> None:
    board = board_from_text("1234 1234 134 4567", FIVE_AND_EIGHT)
    assert not list(CAGE_CONFLICTS.find(board))


def test_cages_that_do_not_see_each_other_have_no_conflict() -> None:
    cages = [Cage((0, 1), 5), Cage((30, 31), 8)]
    board = board_from_text("1234 1234\n.\n.\n. . . 14 4567", cages)
    assert not list(CAGE_CONFLICTS.find(board))


def test_cages_of_a_house_share_its_digits_out() -> None:
    board = board_from_text("1234 1234 135 345", FIVE_AND_EIGHT)
    step = next(iter(HOUSE_COMBINATIONS.find(board)))
    assert dict(list(removed(board, step).items())[:4]) == {
        "r1c1": (2, 3),
        "r1c2": (2, 3),
        "r1c3": (1,),
        "r1c4": (4,),
    }
    assert houses_of(board, step) == ["row 1"]


def test_one_cage_alone_has_nobody_to_share_with() -> None:
    assert not list(HOUSE_COMBINATIONS.find(board_from_text("1234 1234 135 345", FIVE_AND_EIGHT[:1])))

from grader.board.board import board_from_text
from grader.techniques.sum_bounds import SUM_BOUNDS
from tests.grader.boards import audit, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage

FIVE_INNIES = "r1c5 r1c6 r1c7 r1c8 r1c9"


def test_the_least_of_the_rest_keeps_five_innies_small() -> None:
    # They make 16, and any four of them 1 + 2 + 3 + 4 = 10 at the least.
    board = board_from_text("", [Cage((0, 1, 2, 3), 29)])
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == dict.fromkeys(FIVE_INNIES.split(), (7, 8, 9))
    assert (houses_of(board, step), board.layout.houses_among(step.sums[0].rules)) == (["row 1"], (0,))


def test_the_most_of_the_rest_keeps_five_innies_large() -> None:
    # They make 34, and any four of them 9 + 8 + 7 + 6 = 30 at the most.
    board = board_from_text("", [Cage((0, 1, 2, 3), 11)])
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == dict.fromkeys(FIVE_INNIES.split(), (1, 2, 3))


def test_a_total_in_the_middle_bounds_nothing() -> None:
    assert not list(SUM_BOUNDS.find(board_from_text("", [Cage((0, 1, 2, 3), 26)])))  # 19 - 10 = 9


def test_four_innies_are_left_to_derived_sums() -> None:
    assert not list(SUM_BOUNDS.find(board_from_text("", [Cage((0, 1, 2, 3, 4), 35)])))


def test_seven_innies_are_more_than_a_person_adds_up() -> None:
    assert not list(SUM_BOUNDS.find(board_from_text("", [Cage((0, 1), 17)])))


def test_what_the_candidates_leave_counts() -> None:
    # They make 19. With 7 or more in r1c9 the rest make 12 at the most, and three of them 6 at the least.
    board = board_from_text(". . . . . . . . 789", [Cage((0, 1, 2, 3), 26)])
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == dict.fromkeys(FIVE_INNIES.split()[:-1], (7, 8, 9))


def test_innies_less_an_outie_are_bounded_on_both_sides() -> None:
    # Row 1 makes 45, the cages 24 and 14: the five innies make 7 more than the outie.
    board = board_from_text("", [Cage((0, 1, 2), 24), Cage((3, 12), 14)])
    step = next(step for step in SUM_BOUNDS.find(board) if names(board, step.focus) == f"{FIVE_INNIES} r2c4")
    assert removed(board, step) == {
        **dict.fromkeys(FIVE_INNIES.split(), (7, 8, 9)),
        "r2c4": (1, 2, 3, 4, 5, 6, 7),
    }


def test_a_digit_that_is_known_is_taken_away_first() -> None:
    # Six innies make 21, and one of them is a 1.
    board = board_from_text(". . . . . . . . 1", [Cage((0, 1, 2), 24)])
    step = next(iter(SUM_BOUNDS.find(board)))
    assert removed(board, step) == dict.fromkeys(["r1c4", *FIVE_INNIES.split()[:-1]], (7, 8, 9))
    assert "r1c9" in names(board, step.looks)


def test_cells_that_do_not_see_each_other_may_be_as_small_as_each_other() -> None:
    # Rows 1 and 2 leave 11 for r1c7, r1c8, r1c9 and for r2c1, r2c2: at the least 1 + 2 + 3 and 1 + 2.
    board = board_from_text("", [Cage((*range(6), *range(11, 18)), 79)])
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == {
        **dict.fromkeys(["r1c7", "r1c8", "r1c9"], (6, 7, 8, 9)),
        **dict.fromkeys(["r2c1", "r2c2"], (5, 6, 7, 8, 9)),
    }
    assert houses_of(board, step) == ["row 1", "row 2"]


def test_one_house_is_named_where_it_holds_them_all() -> None:
    # Rows 1 and 2 leave 17 for five cells of box 3: four of them make 10 at the least.
    board = board_from_text("", [Cage((*range(7), *range(9, 15)), 73)])
    (step,) = SUM_BOUNDS.find(board)
    assert houses_of(board, step) == ["box 3"]


def test_only_cells_that_raise_the_least_are_looked_at() -> None:
    # r1c5 to r1c8 could be 1, 2, 3 and 4 for all that is open in them: that they are so small needs no look.
    board = board_from_text(". . . . . . . . 789", [Cage((0, 1, 2, 3), 26)])
    (step,) = SUM_BOUNDS.find(board)
    assert names(board, step.looks) == "r1c9"


def test_that_1_and_2_are_the_least_of_two_cells_rests_on_it_that_they_differ() -> None:
    # Rows 1 and 2 leave 11: r2c1 and r2c2 make 1 + 2 and two of r1c7, r1c8 and r1c9 too, so none is over 5.
    board = board_from_text(
        ". . . . . . 123456789 123456789 123456789\n12 23", [Cage((*range(6), *range(11, 18)), 79)]
    )
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == dict.fromkeys(["r1c7", "r1c8", "r1c9"], (6, 7, 8, 9))
    assert (houses_of(board, step), names(board, step.looks)) == (["row 1", "row 2"], "")
    assert audit(step, board)


def test_that_9_and_8_are_the_most_of_two_cells_rests_on_it_that_they_differ() -> None:
    board = board_from_text(
        ". . . . . . 123456789 123456789 123456789\n89 78", [Cage((*range(6), *range(11, 18)), 51)]
    )
    (step,) = SUM_BOUNDS.find(board)
    assert removed(board, step) == dict.fromkeys(["r1c7", "r1c8", "r1c9"], (1, 2, 3, 4))
    assert (houses_of(board, step), names(board, step.looks)) == (["row 1", "row 2"], "")
    assert audit(step, board)

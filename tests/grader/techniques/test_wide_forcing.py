"""Wide forcing chains: three or four ways, and the combinations of a cage."""

from __future__ import annotations

from grader.board.board import Board, board_from_text
from grader.board.steps import Step
from grader.reasoning.lines_of_forcing.forks import LEVELS_AT_MOST
from grader.techniques.forcing import FORCING_CHAIN
from grader.techniques.wide_forcing import WAYS_AT_MOST, WIDE_FORCING_CHAIN
from grader.words.narrate import tell
from tests.grader.boards import audit, cages_of, names, removed
from verifier.puzzle.rules.cage import Cage

THREE_DIGITS = "123 . . 14 24 34"
"""Whichever digit r1c1 takes, one of r1c4, r1c5 and r1c6 is 4."""


def steps_from(board: Board, focus: str) -> dict[str, Step]:
    """The steps of the fork at some cells, by the candidate that goes: ``3 r1c5``."""
    steps = {}
    for step in WIDE_FORCING_CHAIN.find(board):
        if names(board, sorted({*step.focus})) == focus:
            (gone,) = removed(board, step).items()
            steps[f"{gone[1][0]} {gone[0]}"] = step
    return steps


def test_what_three_candidates_of_a_cell_lead_to_goes() -> None:
    board = board_from_text(THREE_DIGITS)
    step = steps_from(board, "r1c1")["4 r1c2"]
    assert removed(board, step) == {"r1c2": (4,)}
    assert (step.focus, step.length) == ((0, 0, 0), 2)
    assert audit(step, board)


def test_a_fourth_candidate_that_leads_elsewhere_spoils_it() -> None:
    board = board_from_text(THREE_DIGITS.replace("123", "1239"))
    assert "4 r1c2" not in steps_from(board, "r1c1")


def test_what_three_places_of_a_digit_lead_to_goes() -> None:
    # Each of the three places of 5 in row 1 makes a cell of row 2 a 6.
    elsewhere = "12346789"
    row_1 = f"589 {elsewhere} {elsewhere} " * 3
    board = board_from_text(f"{row_1}\n56 . . 56 . . 56 . .")
    step = steps_from(board, "r1c1 r1c4 r1c7")["6 r2c2"]
    assert removed(board, step) == {"r2c2": (6,)}
    assert step.digits == 1 << 5
    assert audit(step, board)


def test_what_all_combinations_of_a_cage_lead_to_goes() -> None:
    # A cage of 5 is 1 + 4 or 2 + 3: r1c3 loses 1 or 2, so it or the cell after it is a 9.
    board = board_from_text("1234 1234 19 29", [Cage((0, 1), 5)])
    step = steps_from(board, "r1c1 r1c2")["9 r1c5"]
    assert removed(board, step) == {"r1c5": (9,)}
    assert cages_of(board, step) == (0,)
    assert audit(step, board)
    assert tell(step, board.layout, board) == (
        "The cage of 5 at r1c1 takes 1+4 or 2+3. With 1+4, r1c3 is 9; with 2+3, r1c4 is 9. "
        "Either way, 9 goes from r1c5."
    )


def test_a_combination_that_leads_elsewhere_spoils_it() -> None:
    board = board_from_text("1234 1234 19 239", [Cage((0, 1), 5)])
    assert "9 r1c5" in steps_from(board, "r1c1 r1c2")  # 2 + 3 leaves 9 all the same
    board = board_from_text("1234 1234 19 259", [Cage((0, 1), 5)])
    assert "9 r1c5" not in steps_from(board, "r1c1 r1c2")


def test_a_combination_that_ends_in_a_contradiction_falls_out() -> None:
    # With 1 + 4 nothing is left for r1c3, so it is 2 + 3.
    board = board_from_text("1234 1234 14", [Cage((0, 1), 5)])
    step = steps_from(board, "r1c1 r1c2")["4 r1c1"]
    assert removed(board, step) == {"r1c1": (4,)}
    assert audit(step, board)
    assert tell(step, board.layout, board).startswith(
        "The cage of 5 at r1c1 takes 1+4 or 2+3. With 1+4, that would leave nothing for r1c3; with 2+3,"
    )


def test_two_candidates_are_left_to_the_plain_forcing_chain() -> None:
    board = board_from_text("12 . . . 13\n. 23")
    assert "3 r1c2" not in steps_from(board, "r1c1")
    assert any(names(board, [step.removes[0][0]]) == "r1c2" for step in FORCING_CHAIN.find(board))


def test_no_fork_has_more_ways_and_no_line_more_levels_than_a_person_follows() -> None:
    board = board_from_text(f"{THREE_DIGITS}\n12345 . . 16 26 36", [Cage((7, 8), 9)])
    steps = list(WIDE_FORCING_CHAIN.find(board))
    assert steps
    assert all(len(step.focus) <= WAYS_AT_MOST for step in steps)
    assert all(1 <= step.length <= LEVELS_AT_MOST for step in steps)


def test_without_the_board_a_fork_is_told_all_the_same() -> None:
    board = board_from_text(THREE_DIGITS)
    told = tell(steps_from(board, "r1c1")["4 r1c2"], board.layout)
    assert told == "r1c1 is 1, 2 or 3, and all lead to the same in 2 steps: 4 goes from r1c2."

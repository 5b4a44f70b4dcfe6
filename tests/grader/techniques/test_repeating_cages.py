"""Cages in which digits may repeat: examples with their exact effect, and near misses that remove nothing."""

from __future__ import annotations

from collections.abc import Mapping

from grader.board.board import Board, opening_board
from grader.board.steps import WalkStep
from grader.board.technique import Technique
from grader.techniques.cages import LAST_CELL_OF_CAGE
from grader.techniques.repeating_cages import REPEATING_CAGE
from grader.techniques.sum_bounds import SUM_BOUNDS
from grader.words.narrate import tell
from verifier.audit.audit import failed_audits
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.linear_sum import LinearSum

FOUR = Grid.square(4)


def board_with(total: int, *cells: int, held: Mapping[int, str] | None = None, size: int = 4) -> Board:
    """A board with one cage in which digits may repeat, and the digits open in some cells."""
    cage = LinearSum(tuple((cell, 1) for cell in cells), total)
    board = opening_board(make_puzzle("killer", Grid.square(size), clues=[cage]))
    left = list(board.candidates)
    for cell, digits in (held or {}).items():
        left[cell] = mask_of(map(int, digits))
    return Board(board.layout, left, 0, board.layout.all_cells)


def told(board: Board, technique: Technique) -> list[str]:
    steps = list(technique.find(board))
    assert failed_audits([WalkStep(step, board, 1) for step in steps]) == []
    return [tell(step, board.layout, board) for step in steps]


def test_equal_digits_count_where_the_cells_do_not_see_each_other() -> None:
    # r1c2 and r3c1 may be equal, r1c1 sees both
    assert told(board_with(4, 0, 1, 8), REPEATING_CAGE) == [
        "Going through all that the cage of 4 at r1c1 can be, the same digit twice or not, 1, 3 and 4 never "
        "stand in r1c1 and 2, 3 and 4 never stand in r1c2 and r3c1."
    ]


def test_with_one_more_to_make_less_goes() -> None:
    (says,) = told(board_with(5, 0, 1, 8), REPEATING_CAGE)
    assert says.endswith("2 and 4 never stand in r1c1 and 3 and 4 never stand in r1c2 and r3c1.")


def test_where_every_digit_has_partners_nothing_goes() -> None:
    assert told(board_with(7, 0, 1, 8), REPEATING_CAGE) == []


def test_the_last_cell_is_what_is_missing_even_where_it_repeats_a_digit() -> None:
    cage = LinearSum(((0, 1), (6, 1), (9, 1)), 6)
    board = opening_board(make_puzzle("killer", FOUR, clues=[cage], givens={0: 2, 6: 2}))
    assert told(board, LAST_CELL_OF_CAGE) == ["The cage of 6 at r1c1 has 4 so far: r3c2 is 2."]


def bounds(board: Board) -> list[str]:
    """What bounds say of the cage itself, the rule of 45 left aside."""
    return [says for says in told(board, SUM_BOUNDS) if says.startswith("Digits may repeat")]


def test_more_cells_than_one_goes_through_have_bounds() -> None:
    assert bounds(board_with(7, 0, 6, 9, 15, 3)) == [
        "Digits may repeat in the cage of 7 at r1c1; r1c1, r1c4, r2c3, r3c2 and r4c4 make 7. By what the "
        "others make at the least or at the most, 4 goes from r1c1, r1c4, r2c3, r3c2 and r4c4."
    ]


def test_where_the_total_is_in_the_middle_there_are_none() -> None:
    assert bounds(board_with(13, 0, 6, 9, 15, 3)) == []

"""Fish over houses of any kind: an example with its exact effect, and near misses."""

from __future__ import annotations

from grader.board.board import Board, opening_board
from grader.board.steps import WalkStep
from grader.techniques.fish import MIXED_FISH
from grader.words.narrate import tell
from verifier.audit.audit import failed_audits
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle

GRID = Grid(4, 4, 0, 0, 4)


def told(*without_4: int, diagonal: bool = True) -> list[str]:
    """What is said of the 4 where some cells cannot take it."""
    houses = (*GRID.houses, *GRID.diagonals[:1]) if diagonal else GRID.houses
    board = opening_board(make_puzzle("classic", GRID, houses=houses))
    left = [mask & ~(1 << 4) if cell in without_4 else mask for cell, mask in enumerate(board.candidates)]
    board = Board(board.layout, left, 0, board.layout.all_cells)
    steps = [step for step in MIXED_FISH.find(board) if step.digits == 1 << 4]
    assert failed_audits([WalkStep(step, board, 1) for step in steps]) == []
    return [tell(step, board.layout, board) for step in steps]


def test_a_row_and_a_diagonal_take_the_digit_of_two_columns() -> None:
    assert (
        "In row 4 and the falling diagonal, 4 has places only in columns 2 and 3: 4 goes from the rest of "
        "columns 2 and 3."
    ) in told(0, 12, 15)


def test_with_one_more_place_on_the_diagonal_they_do_not() -> None:
    assert not any("columns 2 and 3" in says for says in told(12, 15))


def test_rows_and_columns_alone_have_fish_of_their_own() -> None:
    assert told(0, 3, 12, 15, diagonal=False) == []

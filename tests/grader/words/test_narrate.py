"""Sentences: with and without the board, one digit and several, every kind of sum and every dead end."""

from __future__ import annotations

from pathlib import Path

import pytest

from grader.board.board import Board, board_from_text
from grader.board.steps import DerivedSum, Step
from grader.board.technique import Technique
from grader.ladder import LADDER
from grader.words.lines import TOLD_AT_MOST
from grader.words.narrate import tell
from grader.words.sums import sum_in_words, what_is_left
from tests.grader.walks import some_walks
from tests.snapshots import assert_snapshot
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.linear_sum import LinearSum

SNAPSHOTS = Path(__file__).parent / "snapshots"
TECHNIQUES = {technique.id: technique for technique in LADDER}

BOARDS: list[tuple[str, str, Cage | None]] = [
    ("last-cell-of-house", "4 1 . 8 2 9 3 7 5", None),
    ("hidden-single-line", "2 68 168 68 5 3 4 7 9", None),
    ("naked-single", "1 2 3 4 . . . . 6?", None),
    ("naked-single", "1 2 3 4 5 6 7 8 9?", None),
    ("naked-pair", "26 4 268 26 1 3 5 7 9", None),
    ("naked-triple", "13 2 5 16 7 36 13468 9 1468", None),
    ("hidden-pair", "1348 2 5 168 7 36 346 9 36", None),
    ("locked-candidates", "14 24 3\n5 6 7\n8 9 12", None),
    ("last-cell-of-cage", ".", Cage((0,), 4)),
    ("last-cell-of-cage", "4 . 8", Cage((0, 1, 2), 15)),
    ("single-combination", ". .", Cage((0, 1), 17)),
    ("single-combination", "1 . .", Cage((0, 1, 2), 18)),
    ("single-combination", "", Cage(tuple(range(8)), 42)),
    ("cage-combinations", ". .", Cage((0, 1), 9)),
    ("cage-combinations", "", Cage((0, 1, 2, 3), 26)),
    ("cage-arrangements", "12 12 123", Cage((0, 1, 2), 6)),
    ("cage-arrangements", "12 12 134", Cage((0, 1, 2), 6)),
    ("cage-subset", "1245 1245 12 1234", Cage((0, 1), 6)),
    ("cage-subset", "1245 1245 24 24", Cage((0, 1), 6)),
    ("cage-subset", ". . . . 3456789 3456789 3456789 3456789 3456789", Cage((0, 1, 2), 15)),
    ("cage-subset", ". . . . 3456789 3456789 3456789 3456789 3456789", Cage((0, 1, 2), 18)),
]
"""A technique, a board in the notation of the pictures, and its cage if it has one."""

SUMS: list[tuple[str, dict[int, int], int, Cage]] = [
    ("", {8: 1}, 7, Cage(tuple(range(8)), 38)),
    ("", {7: 1, 8: 1}, 15, Cage(tuple(range(7)), 30)),
    (". . . . . . . 6 .", {7: 1, 8: 1}, 15, Cage(tuple(range(7)), 30)),
    ("1 2 3 4 5 . . . .", dict.fromkeys((0, 1, 2, 3, 4, 8), 1), 25, Cage((5, 6, 7), 20)),
    ("", {9: 1}, 5, Cage(tuple(range(10)), 50)),
    ("", {9: 1, 10: 1}, 12, Cage(tuple(range(11)), 57)),
    (". .\n4 .", {9: 1, 10: 1}, 12, Cage(tuple(range(11)), 57)),
    ("", {8: 1, 9: -1}, -2, Cage((*range(8), 9), 47)),
    ("", {8: 1, 9: -1}, 0, Cage((*range(8), 9), 45)),
    (". . . . . . . . .\n4", {8: 1, 9: -1}, -2, Cage((*range(8), 9), 47)),
    (". . . . . . . 6 .\n4", {7: 1, 8: 1, 9: -1}, 3, Cage((*range(7), 9), 42)),
]
"""A board, the weights and the total of a sum from row 1, and the cage it is worked out with."""


def first(technique: str, board: Board) -> Step:
    return next(iter(TECHNIQUES[technique].find(board)))


def sum_told(text: str, weights: dict[int, int], total: int, cage: Cage) -> str:
    board = board_from_text(text, [cage])
    return sum_in_words(
        DerivedSum(LinearSum(tuple(weights.items()), total), (0, board.layout.cage_numbers[0])),
        board.layout,
        board,
    )


def test_every_sentence_reads_as_agreed() -> None:
    lines = []
    for technique, text, cage in BOARDS:
        board = board_from_text(text, [cage] if cage else [])
        step = first(technique, board)
        lines.append(f"{technique}\n    {tell(step, board.layout, board)}\n    {tell(step, board.layout)}")
    lines += [f"sum\n    {sum_told(*one)}" for one in SUMS]
    assert_snapshot(SNAPSHOTS / "narrate.txt", "\n".join(lines) + "\n")


@pytest.mark.parametrize("one", SUMS)
def test_a_sum_tells_no_number_but_those_that_add_up(one: tuple[str, dict[int, int], int, Cage]) -> None:
    said = sum_told(*one)
    assert "adds up to 45" in said
    assert f"makes {one[3].total}" in said


def test_a_certain_digit_is_told_with_its_combinations_and_where_it_goes() -> None:
    board = board_from_text("", [Cage((0, 1, 2), 22)])
    step = next(
        step for step in TECHNIQUES["cage-combinations"].find(board) if board.layout.houses_among(step.rules)
    )
    said = tell(step, board.layout, board)
    assert "can only be 5+8+9 or 6+7+9, each with 9 in r1c1, r1c2 or r1c3" in said
    assert said.endswith("9 goes from the rest of row 1 and box 1.")


def test_a_sum_of_any_origin_is_told_by_its_unknown_cells() -> None:
    board = board_from_text("4 . .")
    derived = DerivedSum(LinearSum(((0, 1), (1, 1), (2, -1)), 7), ())
    assert what_is_left(derived, board.layout, board) == "r1c2 is 3 more than r1c3"


def test_a_chain_that_fails_is_told_with_where_it_fails() -> None:
    board = board_from_text("123 . .", [Cage((1, 2), 5)])
    step = first("short-contradiction-chain", board)
    assert tell(step, board.layout, board).startswith(
        "If r1c2 were 5, that would leave the cage of 5 at r1c2"
    )


@pytest.mark.reference
def test_a_line_longer_than_one_listens_to_is_told_by_its_length() -> None:
    for walked in some_walks():
        for taken in walked.steps:
            if taken.step.technique == "contradiction-chain":
                said = tell(taken.step, walked.layout, taken.board)
                assert said.count(", r") <= TOLD_AT_MOST or "would follow" in said


def test_all_digits_that_go_from_few_cells_are_named() -> None:
    board = board_from_text("26 4 268 26 1 3 5 7 9")
    step = first("naked-pair", board)
    said = tell(step, board.layout, board)
    assert all(str(digit) in said for _, gone in step.removes for digit in digits_of(gone))


@pytest.mark.reference
@pytest.mark.parametrize("technique", LADDER, ids=lambda technique: technique.id)
def test_every_step_of_whole_puzzles_can_be_told_with_and_without_the_board(technique: Technique) -> None:
    for walked in some_walks():
        for taken in walked.steps:
            if taken.step.technique == technique.id:
                for board in (None, taken.board):
                    said = tell(taken.step, walked.layout, board)
                    assert said.endswith(".")
                    assert not set("{}_") & set(said)
                    assert all(str(digit) in said for _, digit in taken.step.places)

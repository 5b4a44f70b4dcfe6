"""Many branches at once come to the same ends as one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from grader.board.board import Board, board_from_text, opening_board
from grader.grading.replay import replay
from grader.ladder import LADDER
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.many_branches import ManyBranches
from grader.techniques.trial import find_trials
from tests.reference import load, puzzle_of
from verifier.files.reading import read_file
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import bits
from verifier.puzzle.puzzle import make_puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

CORPUS = Path(__file__).parents[3] / "corpus"
SINGLES = [technique for technique in LADDER if "single" in technique.id or "last-cell" in technique.id]


def at_rest(name: str) -> Board:
    """Return where singles get stuck in a classic of the corpus, made harder by some givens."""
    (entry,) = read_file(CORPUS / "classics" / name)
    assert entry.puzzle is not None
    fewer = [given for place, given in enumerate(rules_of(entry.puzzle.rules, Given)) if place % 7]
    board = replay(entry.puzzle.having(Given, fewer), ladder=SINGLES).end
    assert board is not None
    return board


every_board = pytest.mark.parametrize("name", ["ballast.yaml", "mooring-line.yaml", "undertow.yaml"])


def starts(board: Board) -> list[tuple[int, int]]:
    return [
        (cell, digit)
        for cell, mask in enumerate(board.candidates)
        if not board.placed >> cell & 1
        for digit in bits(mask)
    ]


def ends_of(board: Board) -> Iterator[Branch]:
    origin = Origin(board)
    for start in starts(board):
        branch = Branch(origin, *start)
        branch.run()
        yield branch


@every_board
def test_they_fail_and_narrow_down_as_single_branches_do(name: str) -> None:
    board = at_rest(name)
    assert ManyBranches.can_follow(board)
    found = ManyBranches.of_candidates(board, starts(board))
    for branch, failed, tightest in zip(ends_of(board), found.failed, found.tightest.T.tolist(), strict=True):
        assert branch.contradicted == failed
        fewest = min([mask.bit_count() for mask in branch.candidates if mask.bit_count() > 1], default=0)
        in_cells = [mask if mask.bit_count() == fewest else 0 for mask in branch.candidates]
        assert failed or tightest == in_cells


@every_board
def test_trial_takes_the_same_steps_either_way(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    board = at_rest(name)
    at_once = list(find_trials(board))
    assert at_once
    monkeypatch.setattr(ManyBranches, "can_follow", lambda _: False)
    assert list(find_trials(board)) == at_once


@pytest.mark.reference
def test_hard_classics_are_refuted_several_assumptions_deep_either_way(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Hard-list grids; see the README of the reference data for where they come from."""
    boards = [replay(puzzle_of(record), trial=False).end for record in load("classic_hard.jsonl")[1::36]]
    stuck = [board for board in boards if board is not None and not board.solved]
    at_once = [list(find_trials(board)) for board in stuck]
    assert {steps[0].length for steps in at_once if steps} >= {2, 3}
    monkeypatch.setattr(ManyBranches, "can_follow", lambda _: False)
    assert [list(find_trials(board)) for board in stuck] == at_once


@pytest.mark.parametrize(
    "board",
    [
        opening_board(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 4)])),
        board_from_text("1 12 . .", size=4),
    ],
    ids=["a cage", "a single in sight"],
)
def test_other_boards_are_left_to_single_branches(board: Board) -> None:
    assert not ManyBranches.can_follow(board)

"""The branches of all candidates, gone forward side by side, come to what each comes to by itself."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from grader.board.board import Board
from grader.grading.replay import replay
from grader.ladder import LADDER
from grader.reasoning.lines_of_forcing.branch import Branch
from grader.reasoning.lines_of_forcing.every_branch import EveryBranch
from verifier.files.reading import read_file
from verifier.puzzle.masks import bits, mask_of

CORPUS = Path(__file__).parents[3] / "corpus"
EASY = [technique for technique in LADDER if "single" in technique.id or "last-cell" in technique.id]


def board_of(name: str) -> Board:
    """Where a puzzle of the corpus gets stuck by singles and last cells alone."""
    (entry,) = read_file(CORPUS / name)
    assert entry.puzzle is not None
    board = replay(entry.puzzle, ladder=EASY).end
    assert board is not None
    return board


def candidates_of(board: Board) -> list[tuple[int, int]]:
    """Every third candidate of a board: enough to meet each rule."""
    open_cells = board.unsolved(range(board.layout.grid.cell_count))
    return [(cell, digit) for cell in open_cells for digit in bits(board.candidates[cell])][::3]


@pytest.mark.parametrize(
    "name",
    [
        "classics/undertow.yaml",
        "killers/crows-nest.yaml",
        "kakuro/glazed-loggia.yaml",
        "rules/harbour-pilot.yaml",
        "rules/next-of-kin.yaml",
        "marks/hand-unlisted.yaml",
        "lines/whispering-gallery.yaml",
        "lines/noon-and-noon.yaml",
        "lines/shared-ledger.yaml",
        "edge/slanting-rain.yaml",
        "edge/rooftops.yaml",
        "mixed/mixed-cargo.yaml",
    ],
)
def test_they_come_to_what_single_branches_come_to(name: str) -> None:
    board = board_of(name)
    starts = candidates_of(board)
    every = EveryBranch.of_candidates(board, starts)
    branches = [Branch(every.origin, *start) for start in starts]
    for levels in (1, 2, 3, None):
        state = every.after(levels)
        for number, branch in enumerate(branches):
            branch.run(levels)
            assert branch.contradicted == state.failed[number]
            assert branch.contradicted or branch.candidates == state.candidates[:, number].tolist()
            assert branch.contradicted or branch.placed == mask_of(
                np.flatnonzero(state.placed[:, number]).tolist()
            )
    assert any(branch.level > 2 for branch in branches)


def test_what_is_asked_first_changes_nothing() -> None:
    board = board_of("marks/hand-unlisted.yaml")
    every = EveryBranch.of_candidates(board, candidates_of(board))
    to_the_end, three_levels = every.after(), every.after(3)
    again = EveryBranch.of_candidates(board, candidates_of(board))
    assert np.array_equal(three_levels.candidates, again.after(3).candidates)
    assert np.array_equal(to_the_end.candidates, again.after().candidates)

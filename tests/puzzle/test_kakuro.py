"""Kakuros: both layouts say the same, their runs lie where they must, and their sums are checked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.puzzle.test_faults import codes_of, faults_of
from verifier.files.reading import read_text
from verifier.files.so_far import SoFar, read_so_far
from verifier.files.writing import write_puzzle
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.checking.run_checks import run_total_checks
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.run_layout import CellTotals, clue_cells, parts

HEAD = "puzzle: kakuro\ngrid: 3x4\n"
LISTED = """runs:
  - {total: 7, cells: r2c4 r2c2 r2c3}
  - {total: 9, cells: [r3c2, r3c3, r3c4]}
  - {total: 4, cells: r2c2 r3c2}
  - {total: 7, cells: r2c3 r3c3}
  - {total: 5, cells: r2c4 r3c4}
"""
SQUARE = r"""cells: |
  #     4\    7\    5\
  \7    .     .     .
  \9    .     .     .
"""


def read(text: str) -> Puzzle:
    (entry,) = read_text(text.encode(), "box.yaml")
    assert [str(fault) for fault in entry.faults] == []
    assert entry.puzzle is not None
    return entry.puzzle


def test_the_map_and_the_list_are_the_same_puzzle() -> None:
    assert read(HEAD + SQUARE) == read(HEAD + LISTED)


def test_a_map_is_written_as_a_map() -> None:
    text = HEAD + SQUARE.replace("\\7    .", "\\7    3")
    drawn = text.partition("cells")[2].replace("     ", "  ").replace("    ", " ")
    assert write_puzzle(read(text)).partition("cells")[2] == drawn


def test_cells_are_blocked_that_are_in_no_run() -> None:
    assert read(HEAD + LISTED).grid.blocked == (0, 1, 2, 3, 4, 8)


def test_a_run_that_begins_at_the_edge_is_listed_and_written_as_a_list() -> None:
    text = "puzzle: kakuro\ngrid: 2x2\nruns:\n  - {total: 3, cells: r1c1 r1c2}\n"
    assert write_puzzle(read(text)).endswith(text.partition("kakuro\n")[2])


def test_neighbours_that_share_no_run_are_free_of_each_other() -> None:
    text = "runs:\n  - {total: 3, cells: r1c1 r1c2}\n  - {total: 3, cells: r2c1 r2c2}\n"
    puzzle = read("puzzle: kakuro\ngrid: 2x2\n" + text)
    assert puzzle.cages == (Cage((0, 1), 3), Cage((2, 3), 3))
    assert "runs:" in write_puzzle(puzzle)


def test_a_total_before_one_cell_is_a_run_of_one_cell_and_no_total_is_none() -> None:
    puzzle = read("puzzle: kakuro\ngrid: 2x4\ncells: |\n  # 4\\ # #\n  # . # .\n")
    assert puzzle.rules == (Cage((5,), 4),)
    assert read(write_puzzle(puzzle)) == puzzle


def test_a_stretch_without_a_total_is_read_and_rejected_later() -> None:
    puzzle = read(HEAD + SQUARE.replace("\\9", "# "))
    assert Different((9, 10, 11)) in puzzle.rules
    (check,) = run_total_checks(puzzle)
    assert not check.passed
    assert check.says.startswith("The run r3c2, r3c3 and r3c4 has no total.")
    assert read(write_puzzle(puzzle)) == puzzle


def test_a_listed_run_without_a_total_is_the_same() -> None:
    drawn, listed = SQUARE.replace("\\9", "# "), LISTED.replace("total: 9, ", "")
    assert read(HEAD + drawn) == read(HEAD + listed)


def test_a_run_at_the_edge_of_a_map_has_no_total() -> None:
    puzzle = read("puzzle: kakuro\ngrid: 2x2\ncells: |\n  3\\ #\n  .  .\n")
    assert puzzle.rules == (Cage((2,), 3), Different((2, 3)))


def test_givens_and_the_solution_have_a_hash_for_each_blocked_cell() -> None:
    more = "givens: |\n  ####\n  #..2\n  #...\nsolution: |\n  # # # #\n  # 1 4 2\n  # 3 3 3\n"
    puzzle = read(HEAD + LISTED + more)
    assert puzzle.givens == ((7, 2),)
    assert puzzle.solution == (0, 0, 0, 0, 0, 1, 4, 2, 0, 3, 3, 3)
    assert read(write_puzzle(puzzle)) == puzzle


@pytest.mark.parametrize(
    "text",
    [
        "givens: |\n  # # # #\n  # 1 {2,4} 2\n  # . . .\n",
        "# how far I got\n# # # #\n# 1 {24} 2\n# . . .\n",
        "####\n#1{24}2\n#...\n",
        HEAD + SQUARE.replace("\\7    .     .     .", "\\7    1     {24}     2"),
    ],
)
def test_a_part_filled_grid_has_its_blocked_cells_or_is_the_map_itself(tmp_path: Path, text: str) -> None:
    (tmp_path / "so-far").write_text(text)
    so_far, faults = read_so_far(tmp_path / "so-far", read(HEAD + SQUARE).grid)
    assert faults == ()
    assert so_far == SoFar(((5, 1), (7, 2)), ((6, (2, 4)),))


def test_faults_of_a_map_that_is_crooked_do_not_hide_one_another() -> None:
    text = HEAD + SQUARE.replace("  \\9    .", "  \\9    x   .")
    assert codes_of(text) == ["row-length", "kakuro-mark"]


def test_a_file_without_a_size_is_told_the_size_of_its_map() -> None:
    (fault,) = faults_of("puzzle: kakuro\n" + SQUARE)
    assert fault.cure == "Add it, for example 'grid: 3x4'."


def test_totals_stand_before_their_runs() -> None:
    clues, without = clue_cells(read(HEAD + SQUARE))
    assert clues == {
        1: CellTotals(4),
        2: CellTotals(7),
        3: CellTotals(5),
        4: CellTotals(None, 7),
        8: CellTotals(None, 9),
    }
    assert without == ()


def test_sums_across_and_down_must_agree() -> None:
    checks = {check.code: check for check in arithmetic_checks(read(HEAD + SQUARE))}
    assert checks["run-sum"].passed
    (wrong,) = (c for c in arithmetic_checks(read(HEAD + SQUARE.replace("\\9", "\\10"))) if not c.passed)
    assert wrong.says == (
        "The totals across add up to 17 and the totals down to 16, but both are sums of the same cells. "
        "Correct the total that is wrong."
    )


TWO_PARTS = r"""cells: |
  #     4\    7\    #     #     5\    3\
  \3    .     .     #     \3    .     .
  \8    .     .     #     \6    .     .
"""


def test_sums_are_held_against_each_other_in_each_part_by_itself() -> None:
    puzzle = read("puzzle: kakuro\ngrid: 3x7\n" + TWO_PARTS)
    assert [(part.across, part.down) for part in parts(puzzle)] == [(11, 11), (9, 8)]
    (wrong,) = (check for check in arithmetic_checks(puzzle) if not check.passed)
    assert wrong.says.startswith(
        "In the part of the grid with r2c6, r2c7, r3c6 and r3c7, the totals across add up to 9"
    )


def test_sums_over_other_cells_are_not_compared() -> None:
    puzzle = read(HEAD + LISTED.replace("  - {total: 5, cells: r2c4 r3c4}\n", ""))
    assert "run-sum" not in {check.code for check in arithmetic_checks(puzzle)}


def test_a_total_that_no_digits_make_is_told_with_the_least_and_the_most() -> None:
    puzzle = read(HEAD + SQUARE.replace("4\\", "2\\").replace("7\\ ", "9\\ "))
    (wrong,) = (check for check in arithmetic_checks(puzzle) if not check.passed)
    assert "has the total 2, but two cells can make only 3 to 17" in wrong.says


def test_rules_of_other_puzzles_cannot_be_written() -> None:
    puzzle = read(HEAD + SQUARE)
    with pytest.raises(ValueError, match="no file can say"):
        write_puzzle(replace(puzzle, rules=(*puzzle.rules, *puzzle.grid.houses)))

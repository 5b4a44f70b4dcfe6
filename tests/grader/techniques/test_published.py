"""Deductions that others have written down, and whether the ladder makes the same ones.

Each test says where the deduction is stated. *From memory* means that the text was not at hand when the test
was written; *common practice, no source* means that setters and solvers use it without anybody owning it.
The boards are ours.
"""

from __future__ import annotations

import re
from functools import reduce
from operator import or_

import pytest

from grader.board.board import Board, board_from_text
from grader.ladder import LADDER
from tests.grader.boards import board_without
from tests.reference import facts, load
from verifier.puzzle.masks import digits_of, mask_of
from verifier.puzzle.rules.cage import Cage

TECHNIQUES = {technique.id: technique for technique in LADDER}


def removed(technique: str, board: Board) -> dict[str, set[int]]:
    """All that a technique removes anywhere on a board."""
    gone: dict[str, set[int]] = {}
    for step in TECHNIQUES[technique].find(board):
        for cell, digits in step.removes:
            gone.setdefault(board.layout.grid.cell_name(cell), set()).update(digits_of(digits))
    return gone


def placed(technique: str, board: Board) -> dict[str, int]:
    """All that a technique places on a board."""
    steps = TECHNIQUES[technique].find(board)
    return {board.layout.grid.cell_name(cell): digit for step in steps for cell, digit in step.places}


def left(technique: str, board: Board, cells: int) -> set[int]:
    """The digits that a technique leaves in the first cells of row 1."""
    after = board.after(TECHNIQUES[technique].find(board))
    return set(digits_of(reduce(or_, (after.candidates[cell] for cell in range(cells)))))


# Cages


def _cage_of(total: int, size: int, text: str = "") -> Board:
    return board_from_text(text, [Cage(tuple(range(size)), total)])


@pytest.mark.reference
def test_a_total_with_one_combination_leaves_its_digits_only() -> None:
    # The 34 totals with a single combination: the reference data's facts, by brute force over the 512
    # subsets; solvers learn them by heart (common practice, no source).
    for size, totals in facts()["subsets_1_to_9"]["sums_with_a_single_combination"].items():
        for total in totals if 2 <= size <= 8 else ():
            listed = [r for r in load("cage_combinations") if (r["size"], r["sum"]) == (size, total)]
            (expected,) = {tuple(c) for record in listed for c in record["expected"] if not record["exclude"]}
            assert left("single-combination", _cage_of(total, size), size) == set(expected)


@pytest.mark.reference
@pytest.mark.parametrize("number", ["combo-ex-11", "combo-ex-12", "combo-ex-13"])
def test_published_cases_of_totals_keep_the_same_digits(number: str) -> None:
    # Published cases, whose source each record names: 7 in three cells is 124; 10 in two cells is 19, 28, 37
    # or 46; without 1 and 4 it is 28 or 37.
    (record,) = [record for record in load("cage_combinations") if record["id"] == number]
    size, excluded = record["size"], record["exclude"]
    row = " ".join(["."] * size + [str(digit) for digit in excluded])
    board = _cage_of(record["sum"], size, row)
    for technique in ("single-combination", "cage-combinations"):
        board = board.after(TECHNIQUES[technique].find(board)).looking_at(board.layout.all_cells)
    kept = reduce(or_, (board.candidates[cell] for cell in range(size)))
    assert kept == reduce(or_, map(mask_of, record["expected"]))


@pytest.mark.parametrize("total", range(37, 45))
def test_eight_cells_of_a_total_lack_the_digit_that_is_missing_to_45(total: int) -> None:
    # Gecode's "Modeling and Programming with Gecode", chapter on Kakuro: in a run of length 8, no cell takes
    # 45 less the sum.
    assert left("single-combination", _cage_of(total, 8), 8) == set(range(1, 10)) - {45 - total}


def test_a_cage_of_22_in_three_cells_has_a_nine() -> None:
    # Common practice, no source: 22 is 589 or 679, so no other cell of their row takes the 9.
    gone = removed("cage-combinations", _cage_of(22, 3))
    assert {cell for cell, digits in gone.items() if 9 in digits} >= {f"r1c{c}" for c in range(4, 10)}


# The rule of 45: no academic source was found for it; the deductions below are common practice, no source.


def test_one_innie_is_45_less_the_cages_inside() -> None:
    board = board_from_text("", [Cage((0, 1, 2), 10), Cage((3, 4, 5), 20), Cage((6, 7), 8)])
    assert placed("rule-of-45", board)["r1c9"] == 7


def test_one_outie_is_what_the_cages_have_more_than_45() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3), 20), Cage((4, 5, 6), 15), Cage((7, 8, 17), 13)])
    assert placed("rule-of-45", board)["r2c9"] == 3


def test_two_rows_make_90() -> None:
    board = board_from_text("", [Cage((*range(8), 9), 41), Cage((8, *range(10, 17)), 42)])
    assert placed("rule-of-45-2-houses", board)["r2c9"] == 7


def test_two_innies_that_make_17_are_8_and_9() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 16)])
    gone = removed("derived-sum-2", board)
    assert gone["r1c8"] == gone["r1c9"] == set(range(1, 8))


def test_an_innie_that_is_six_more_than_an_outie_is_at_least_seven() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3, 4, 5, 6), 36), Cage((7, 16), 3)])
    gone = removed("innie-outie-difference", board)
    assert (gone["r1c9"], gone["r2c8"]) == ({1, 2, 3, 4, 5, 6}, {4, 5, 6, 7, 8, 9})


# Singles, subsets, fish, chains


def test_exclusion_puts_a_digit_where_nothing_else_in_the_box_can_take_it() -> None:
    # Lee, Goodwin and Johnson-Laird, "The psychological puzzle of Sudoku", Thinking & Reasoning 14(4), 2008:
    # the exclusion tactic (the name is theirs; its form as we use it is from the abstract).
    text = ". . . 1 . . . . .\n. . . . . . 1 . .\n. . .\n. 1\n. . .\n. . .\n. . 1"
    assert placed("hidden-single-box", board_from_text(text))["r3c1"] == 1


def test_inclusion_puts_into_a_cell_the_only_digit_that_it_can_take() -> None:
    # The same paper: the inclusion tactic.
    text = (
        "1 2 3 . . . . . .\n. . . . . . . . 4\n. . . . . . . . 5\n. . . . . . . . 6\n"
        + ". " * 8
        + "7\n"
        + ". " * 8
        + "8"
    )
    assert placed("naked-single", board_from_text(text))["r1c9"] == 9


@pytest.mark.parametrize(
    ("technique", "row", "gone"),
    [
        ("naked-pair", "12 12 123 345 6789 6789 6789 6789 6789", {"r1c3": {1, 2}}),
        ("naked-triple", "12 23 13 1456 456789 456789 456789 456789 456789", {"r1c4": {1}}),
        ("naked-quad", "12 23 34 14 15 56789 56789 56789 56789", {"r1c5": {1}}),
    ],
)
def test_a_pre_emptive_set_crosses_its_digits_out_in_the_rest_of_the_row(
    technique: str, row: str, gone: dict[str, set[int]]
) -> None:
    # Crook, "A Pencil-and-Paper Algorithm for Solving Sudoku Puzzles", Notices of the AMS 56(4), 2009 (from
    # memory): the digits of m cells that hold m digits between them go from the other cells of the house.
    found = removed(technique, board_from_text(row))
    assert {cell: digits for cell, digits in found.items() if cell.startswith("r1")} == gone


def test_a_pre_emptive_set_in_a_row_and_a_box_works_in_both() -> None:
    # The same paper (from memory).
    gone = removed("naked-pair", board_from_text("12 12 . . . . . . ."))
    assert set(gone) == {f"r1c{c}" for c in range(3, 10)} | {f"r{r}c{c}" for r in (2, 3) for c in (1, 2, 3)}


def test_an_x_wing_takes_its_digit_from_both_columns() -> None:
    # Hoexum, bachelor thesis, Groningen 2020, has the X-wing in its table of contents; the deduction itself
    # is common practice, no source.
    text = ". - - - - . - - -\n" + ". . . . . . . . .\n" * 3 + ". - - - - . - - -"
    gone = removed("x-wing", board_without(6, text))
    columns = {f"r{row}c{column}" for row in (2, 3, 4, 6, 7, 8, 9) for column in (1, 6)}
    assert gone == {cell: {6} for cell in columns}


def test_a_cycle_of_cells_with_two_candidates_keeps_each_shared_digit() -> None:
    # Eppstein, "Nonrepetitive Paths and Cycles in Graphs with Application to Sudoku", arXiv cs/0507053 (from
    # memory): on a cycle whose neighbouring labels differ, each digit stays with the two cells of its link.
    text = "12 . . . 23 . . . .\n" + ". . . . . . . . .\n" * 3 + "14 . . . 34 . . . ."
    board = board_from_text(text)
    gone = removed("xy-chain", board)
    for line, digit in (("r1", 2), ("r5", 4)):
        cells = {cell for cell, digits in gone.items() if cell.startswith(line) and digit in digits}
        assert cells == {f"{line}c{column}" for column in (2, 3, 4, 6, 7, 8, 9)}
    for column, digit in (("c1", 1), ("c5", 3)):
        cells = {
            cell for cell, digits in gone.items() if re.fullmatch(f"r.{column}", cell) and digit in digits
        }
        assert cells == {f"r{row}{column}" for row in (2, 3, 4, 6, 7, 8, 9)}


def test_from_box_to_line_and_from_line_to_box_are_two_sides_of_locked_candidates() -> None:
    # Hoexum's thesis names locked candidates; the deductions are common practice, no source.
    to_line = removed("locked-candidates", board_from_text("14 24 3\n5 6 7\n8 9 12"))
    assert to_line == {f"r1c{column}": {4} for column in range(4, 10)}
    to_box = removed("locked-candidates", board_from_text("478 47 2 1 3 5 6 9 48"))
    assert {cell for cell, digits in to_box.items() if 7 in digits} == {
        f"r{row}c{column}" for row in (2, 3) for column in (1, 2, 3)
    }


def test_what_a_hypothesis_leads_to_on_both_branches_holds() -> None:
    # Common practice, no source: r1c1 is 1 or 2; either way another cell that the others see is 3.
    gone = removed("short-forcing-chain", board_from_text("12 . . . 13\n. 23"))
    assert all(3 in gone[cell] for cell in ("r1c2", "r1c3", "r2c4", "r2c5", "r2c6"))

"""What can be done to a kakuro in one go: its totals follow, and all cells that stay hold what they held."""

from __future__ import annotations

import pytest

from tests.corpus.puzzles import puzzle_at
from verifier.counting.count import count_solutions
from verifier.diagnosis.repairs.changes import changed
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.run_layout import totals_of
from verifier.tuning.changes_between import changes_between
from verifier.tuning.neighbours.moves import moved_on
from verifier.tuning.neighbours.run_changes import run_changes

ROOM = """
puzzle: kakuro
grid: 4x4
cells: |
  #   6\\  15\\ #
  \\9  .   .   5\\
  \\8  .   .   .
  #   \\9  .   .
"""
IN_THE_ROOM: Filling = (0, 0, 0, 0, 0, 2, 7, 0, 0, 4, 3, 1, 0, 0, 5, 4)
LIST = """
puzzle: kakuro
grid: 2x3
runs:
  - {total: 4, cells: r1c2 r1c3}
  - {total: 8, cells: r2c2 r2c3}
"""
IN_THE_LIST: Filling = (0, 1, 3, 0, 2, 6)


def read(text: str) -> Puzzle:
    (found,) = read_text(text.encode(), "kakuro.yaml")
    assert found.puzzle is not None, found.faults
    return found.puzzle


def told(puzzle: Puzzle, solution: Filling) -> list[str]:
    return [change.says(puzzle.grid) for change in run_changes(puzzle, solution)]


def test_a_block_at_the_end_of_a_run_shortens_it() -> None:
    assert "Block r3c4. That makes the cage of 7 across at r3c2." in told(read(ROOM), IN_THE_ROOM)


def test_a_block_in_the_middle_splits_runs_of_three_into_cells_that_stand_alone() -> None:
    assert "Block r3c3." in told(read(ROOM), IN_THE_ROOM)


def test_a_freed_cell_joins_what_it_parted_and_takes_a_digit_that_neither_has() -> None:
    says = (
        "Let r2c4 be filled, with {} in the solution. "
        "That makes the cages of {} across at r2c2 and {} down at r2c4."
    )
    found = told(read(ROOM), IN_THE_ROOM)
    freed = [says.format(digit, 9 + digit, 5 + digit) for digit in range(1, 10)]
    assert [digit for digit in range(1, 10) if freed[digit - 1] in found] == [3, 5, 6, 8, 9]


def test_a_block_moves_by_one_and_both_rows_follow() -> None:
    says = (
        "Block r3c4, and let r2c4 be filled, with 3 in the solution. "
        "That makes the cages of 12 across at r2c2 and 7 across at r3c2."
    )
    assert says in told(read(ROOM), IN_THE_ROOM)


def test_where_a_map_draws_the_runs_none_is_left_without_a_place_for_its_total() -> None:
    says = told(read(ROOM), IN_THE_ROOM)
    assert not any("let r1" in one.lower() for one in says)
    assert not any(one.startswith("Take out") for one in says)


def test_a_cell_that_stands_alone_may_have_a_total_or_not() -> None:
    puzzle = read(ROOM)
    (block,) = [c for c in run_changes(puzzle, IN_THE_ROOM) if c.says(puzzle.grid).startswith("Block r3c4. ")]
    after, solution = changed(puzzle, [block]), block.solution_after(IN_THE_ROOM)
    (total,) = [c for c in run_changes(after, solution) if c.says(after.grid) == "Add a cage: r4c4 = 4."]
    assert "Take out the cage of 4 at r4c4." in told(changed(after, [total]), solution)


def test_in_a_list_a_run_may_come_and_go_as_long_as_each_cell_is_in_one() -> None:
    puzzle = read(LIST)
    assert [one for one in told(puzzle, IN_THE_LIST) if "age" in one][:2] == [
        "Add a cage: r1c2 r2c2 = 3.",
        "Add a cage: r1c3 r2c3 = 9.",
    ]
    down = read(LIST + "  - {total: 3, cells: r1c2 r2c2}\n")
    assert "Take out the cage of 3 down at r1c2." in told(down, IN_THE_LIST)
    assert not any("Take out the cage of 4" in one for one in told(down, IN_THE_LIST))


@pytest.mark.parametrize("name", ["wicket-gate", "hatch-and-ladder", "glazed-loggia", "pigeon-loft"])
def test_whatever_is_changed_keeps_the_solution_can_be_drawn_and_is_found_again(name: str) -> None:
    puzzle = puzzle_at(f"kakuro/{name}.yaml")
    (solution,) = count_solutions(puzzle).solutions
    found = list(run_changes(puzzle, solution))
    assert {(len(change.seen_at), type(change).__name__) for change in found} >= {
        (1, "RunsRedrawn"),
        (2, "RunsRedrawn"),
    }
    for change in found[::11]:
        after = moved_on(puzzle, (change,), solution)
        assert after is not None
        assert totals_of(after) is not None
        runs = {cell for cage in after.cages for cell in cage.cells}
        assert set(after.grid.cells) <= runs.union(cell for cell, _ in after.givens)
        kept = zip(solution, change.solution_after(solution), strict=True)
        assert all(before == now for before, now in kept if before and now)
        again = read(write_puzzle(after))
        assert again.content == after.content
        assert changed(puzzle, changes_between(puzzle, after)).content == after.content

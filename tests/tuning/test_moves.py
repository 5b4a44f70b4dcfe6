"""What can be done to a puzzle in one go, and which way it is likely to lead."""

from __future__ import annotations

import pytest

from tests.diagnosis.puzzles import sound
from verifier.counting.count import count_solutions
from verifier.diagnosis.repairs.changes import CageChange, CellMove, RuleChange, changed, given_change
from verifier.files.reading import read_text
from verifier.files.rulebook.entries import RuleEntry, rulebook
from verifier.files.writing import write_puzzle
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.tuning.neighbours.clue_changes import clue_changes
from verifier.tuning.neighbours.moves import moved_on, moves, solution_after
from verifier.tuning.search.leads import help_of

GRID = Grid.square(4)
SOLUTION = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def killer(*cages: Cage, givens: dict[int, int] | None = None) -> Puzzle:
    return make_puzzle("killer", GRID, cages=cages, givens=givens or {})


def told(puzzle: Puzzle, most_givens: int = 0, symmetry: str | None = None) -> list[str]:
    found = moves(puzzle, SOLUTION, most_givens, symmetry)
    return [" ".join(change.says(GRID) for change in move) for move in found]


@pytest.mark.parametrize("number", range(3))
def test_every_move_keeps_the_solution(number: int) -> None:
    puzzle, solution = sound(12)[number]
    for move in moves(puzzle, solution, most_givens=2):
        assert solves(changed(puzzle, move), solution)


def test_a_cell_takes_its_digit_along() -> None:
    puzzle = killer(Cage((0, 1), 3), Cage((2, 3), 7))
    says = "Move r1c2 from the cage of 3 at r1c1 to the cage of 7 at r1c3, whose totals become 1 and 9."
    assert says in told(puzzle)


def test_a_cell_goes_to_no_cage_that_has_its_digit() -> None:
    fits, repeats = (killer(Cage((0, 1), 3), Cage((2, digit_cell), 5)) for digit_cell in (3, 7))
    assert any(says.startswith("Move r1c2") for says in told(fits))
    assert not any(says.startswith("Move r1c2") for says in told(repeats))


def test_two_cages_are_joined_only_where_their_digits_differ() -> None:
    differ, repeat = killer(Cage((0, 1), 3), Cage((2, 3), 7)), killer(Cage((0, 1), 3), Cage((2, 6), 4))
    assert any(says.startswith("Join") for says in told(differ))
    assert not any(says.startswith("Join") for says in told(repeat))


def test_no_given_comes_unless_there_may_be_more() -> None:
    puzzle = killer(Cage((0, 1), 3), givens={15: 1})
    assert not any(says.startswith("Add a given") for says in told(puzzle, most_givens=1))
    assert sum(says.startswith("Add a given") for says in told(puzzle, most_givens=2)) == 15


def test_with_a_symmetry_givens_go_and_come_together() -> None:
    puzzle = make_puzzle("classic", GRID, givens={0: 1, 15: 1})
    both = "Take out the given 1 in r1c1. Take out the given 1 in r4c4."
    assert both in told(puzzle, most_givens=2, symmetry="half-turn")
    assert both not in told(puzzle, most_givens=2, symmetry="left-right")


def test_a_move_that_the_solution_does_not_allow_is_none() -> None:
    assert moved_on(killer(), (given_change(0, None, 2),), SOLUTION) is None


def help_with(*changes: CageChange | CellMove) -> float:
    return help_of(changes, {}, 9)


def test_a_split_into_footholds_helps_and_the_join_of_them_hinders() -> None:
    whole, parts = (Cage((0, 1, 2, 3), 20),), (Cage((0, 1), 3), Cage((2, 3), 17))
    assert help_with(CageChange(whole, parts)) > 0 > help_with(CageChange(parts, whole))


def test_a_given_helps_more_where_the_hard_steps_are() -> None:
    there, elsewhere = ([given_change(cell, None, 1)] for cell in (0, 5))
    assert help_of(there, {0: 0.5}, 9) > help_of(elsewhere, {0: 0.5}, 9) > 0


@pytest.mark.parametrize("entry", rulebook(), ids=lambda entry: entry.name)
def test_what_comes_of_a_move_can_be_written_and_keeps_the_solution(entry: RuleEntry) -> None:
    (read,) = read_text(entry.example.encode(), "example.yaml")
    assert read.puzzle is not None
    (solution,) = count_solutions(read.puzzle).solutions
    found = list(moves(read.puzzle, solution, most_givens=len(read.puzzle.givens) + 1))
    for move in found[::5]:
        after = moved_on(read.puzzle, move, solution)
        if after is not None:
            (again,) = read_text(write_puzzle(after).encode(), "after.yaml")
            assert again.faults == ()
            assert again.puzzle is not None
            assert again.puzzle.content == after.content
            assert solves(after, solution_after(move, solution))


def of_thermometer(*cells: int) -> list[str]:
    puzzle = make_puzzle("classic", GRID, clues=[Thermometer(cells)])
    return [change.says(GRID) for change in clue_changes(puzzle, SOLUTION)]


def test_a_line_becomes_longer_only_where_the_solution_goes_on() -> None:
    says = "Add r1c4 to the thermometer from r1c1 to r1c3."
    assert says in of_thermometer(0, 1, 2)
    assert not any(change.startswith("Add r2c3 to") for change in of_thermometer(0, 1, 2))


def test_no_kind_of_clue_comes_in_that_the_puzzle_does_not_have() -> None:
    assert all("thermometer" in change for change in of_thermometer(0, 1, 2))


def test_a_ratio_that_no_mark_has_does_not_come_in() -> None:
    puzzle = make_puzzle("classic", GRID, clues=[Ratio((0, 1), 2)])
    changes = [change for change in clue_changes(puzzle, SOLUTION) if isinstance(change, RuleChange)]
    added = [change.new for change in changes if change.new is not None]
    assert added
    assert {rule.figure for rule in added} == {2}

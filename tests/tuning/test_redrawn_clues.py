"""Clues that are drawn otherwise, where one cell more or less would break the solution."""

from __future__ import annotations

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.rule import Rule
from verifier.tuning.neighbours.clue_changes import clue_changes

GRID = Grid.square(4)
SOLUTION = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def told(clue: Rule) -> list[str]:
    puzzle = make_puzzle("classic", GRID, clues=[clue])
    return [change.says(GRID) for change in clue_changes(puzzle, SOLUTION)]


def test_an_arrow_ends_in_other_cells_with_the_same_sum() -> None:
    says = told(Arrow((3,), (2, 6)))  # 4 = 3 + 1
    assert "Redraw the arrow from r1c4 to r2c3: r1c4 r2c3 r1c2 r1c1." in says  # 1 + 2 + 1
    assert "Redraw the arrow from r1c4 to r2c3: r1c4 r2c4 r2c3 r3c2." in says  # 2 + 1 + 1
    assert not any("r1c4 r2c4 r1c3." in one for one in says)  # 2 + 3


def test_a_palindrome_grows_by_two_cells_with_equal_digits() -> None:
    says = told(Palindrome((1, 4, 8)))  # 2 3 2
    assert "Add r1c1 and r3c2 to the palindrome from r1c2 to r3c1." in says  # 1 and 1
    assert not any("Add r1c3 and r3c2" in one for one in says)  # 3 and 1


def test_a_palindrome_of_four_shrinks_at_both_ends_and_one_of_three_does_not() -> None:
    four, three = told(Palindrome((0, 5, 10, 15))), told(Palindrome((1, 4, 8)))
    assert "Take r1c1 and r4c4 off the palindrome from r1c1 to r4c4." in four
    assert not any("off the palindrome" in one for one in three)


def test_a_region_sum_line_gets_a_whole_part_more_or_less() -> None:
    two, three = told(RegionSum(((5,), (9, 13)))), told(RegionSum(((5,), (9, 13), (10,))))  # 4, 1 + 3, 4
    assert "Redraw the region sum line from r2c2 to r4c2: r2c2 r3c2 r4c2 r3c3." in two
    assert "Take r3c3 off the region sum line from r2c2 to r3c3." in three
    assert not any("r2c2 r3c2 r4c2 r4c3." in one for one in two)  # r4c3 is 2


def test_a_new_region_sum_line_runs_through_two_boxes_that_add_up_to_the_same() -> None:
    says = told(RegionSum(((5,), (9, 13))))
    assert "Add the region sum line from r1c1 to r1c3: r1c1 r1c2 r1c3." in says  # 1 + 2 and 3
    assert not any("r1c1 r1c2 r2c3." in one for one in says)  # 1 + 2 and 1


def test_a_quadruple_names_a_digit_more_or_less_and_only_what_stands_there() -> None:
    puzzle = make_puzzle("classic", GRID, clues=[Quadruple((1, 2, 5, 6), (1, 2, 3))])  # 2 3 4 1
    lists = [
        rule
        for change in clue_changes(puzzle, SOLUTION)
        for rule in change.come
        if rule.cells == (1, 2, 5, 6)
    ]
    assert set(lists) == {
        Quadruple((1, 2, 5, 6), digits)
        for digits in [(1, 2), (1, 3), (2, 3), (1, 2, 3, 4), (1, 2, 4), (1, 3, 4), (2, 3, 4)]
    }


def test_a_line_is_bent_at_an_end_and_shifted_where_its_digits_still_rise() -> None:
    says = told(Thermometer((0, 1, 2)))  # 1 2 3
    assert "Redraw the thermometer from r1c1 to r1c3: r1c1 r1c2 r2c2." in says  # 1 2 4
    assert "Redraw the thermometer from r1c1 to r1c3: r1c2 r1c3 r1c4." in says  # 2 3 4
    assert not any("r2c1 r2c2 r2c3." in one for one in says)  # 3 4 1


def test_a_whisper_keeps_the_number_that_the_puzzle_has() -> None:
    puzzle = make_puzzle("classic", GRID, clues=[Whisper((0, 5), 3)])  # 1 4
    figures = {rule.figure for change in clue_changes(puzzle, SOLUTION) for rule in change.come}
    assert figures == {3}

"""The solution that a file claims for its puzzle."""

from __future__ import annotations

import pytest

from verifier.puzzle.checking.arithmetic import solution_check
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.parity import Even
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

RIGHT = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def says(claim: Filling | None) -> str | None:
    puzzle = make_puzzle(
        "killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((2, 6), 4)], givens={15: 1}, solution=claim
    )
    check = solution_check(puzzle)
    assert check is None or check.passed == (check.says == "The solution in the file keeps every rule.")
    return None if check is None else check.says


def swapped(a: int, b: int) -> Filling:
    digits = {a: b, b: a}
    return tuple(digits.get(digit, digit) for digit in RIGHT)


def changed(cell: int, digit: int) -> Filling:
    return (*RIGHT[:cell], digit, *RIGHT[cell + 1 :])


def test_a_file_without_a_solution_is_not_checked() -> None:
    assert says(None) is None


def test_a_right_solution_passes() -> None:
    assert says(RIGHT) == "The solution in the file keeps every rule."


def test_a_digit_twice_in_a_house_names_the_cells() -> None:
    assert says(changed(4, 4)) == (
        "The solution in the file breaks the rules: row 2 has 4 more than once (r2c1 and r2c2); "
        "column 1 has 4 more than once (r2c1 and r4c1); box 1 has 4 more than once (r2c1 and r2c2). "
        "Correct it, or leave it out."
    )


def test_a_wrong_total_names_the_cage() -> None:
    assert says(swapped(2, 4)) == (
        "The solution in the file breaks the rules: the cage r1c1 and r1c2 adds up to 5, not 3. "
        "Correct it, or leave it out."
    )


def test_a_contradicted_given_names_the_cell() -> None:
    assert says(swapped(1, 2)) == (
        "The solution in the file breaks the rules: the cage r1c3 and r2c3 adds up to 5, not 4; "
        "r4c4 has 2, but the given there is 1. Correct it, or leave it out."
    )


def test_a_digit_twice_in_a_cage_of_the_right_total_is_a_breach() -> None:
    claim = (*RIGHT[:2], 2, *RIGHT[3:6], 2, *RIGHT[7:])
    assert "the cage r1c3 and r2c3 has 2 more than once (r1c3 and r2c3)" in str(says(claim))


def test_of_many_breaches_only_the_first_are_named() -> None:
    assert str(says((1,) * 16)).endswith("; 8 more. Correct it, or leave it out.")


def test_a_claim_of_another_size_is_a_breach() -> None:
    assert says(RIGHT[:-1]) == (
        "The solution in the file breaks the rules: it has 15 digits, not 16. Correct it, or leave it out."
    )


def test_a_digit_that_the_grid_has_not_is_a_breach() -> None:
    assert "7 in r1c3 is no digit of the grid" in str(says(changed(2, 7)))


ROW = (0, 1, 2, 3)  # 1 2 3 4
BROKEN_CLUES = {
    Consecutive((0, 4)): "r1c1 has 1 and r2c1 has 3, against the consecutive mark between r1c1 and r2c1",
    Ratio((1, 2), 2): "r1c2 has 2 and r1c3 has 3, against the ratio 2 between r1c2 and r1c3",
    Thermometer((0, 1, 4, 9)): "r2c1 has 3 and r3c2 has 1, against the thermometer from r1c1 to r3c2",
    Palindrome((0, 1, 6)): None,
    Palindrome((0, 1, 5, 6)): "r1c2 has 2 and r2c2 has 4, against the palindrome from r1c1 to r2c3",
    Unmarked("consecutive", (), ((0, 4), (0, 1))): "r1c1 has 1 and r1c2 has 2, against the rule that all "
    "consecutive neighbours are marked",
    Even((1, 2)): "the mark that r1c2 and r1c3 are even is broken (3 in r1c3)",
    Quadruple((0, 1, 4, 5), (1, 1)): "the quadruple of 1 and 1 in r1c1, r1c2, r2c1 and r2c2 is broken "
    "(1, 2, 3 and 4 in r1c1, r1c2, r2c1 and r2c2)",
    Renban((0, 1, 5)): "the renban from r1c1 to r2c2 is broken (1, 2 and 4 in r1c1, r1c2 and r2c2)",
    Between((0, 5, 1)): "r2c2 has 4, which does not lie between 1 in r1c1 and 2 in r1c2",
    Arrow((5,), (0, 1)): "the arrow from r2c2 to r1c2 adds up to 3, but its circle holds 4",
    Arrow((0, 1), (2, 3)): "the arrow from r1c1 and r1c2 to r1c4 adds up to 7, but its circle holds 12",
    RegionSum(((0, 1), (2,), (6, 7))): None,
    RegionSum(((0, 1), (2, 3))): "the parts of the region sum line from r1c1 to r1c4 add up to 3 and 7",
    Sandwich(ROW, 3): "the sandwich 3 of row 1 has 5 between the 1 and the 4",
    Skyscraper(ROW, 3): "the skyscraper clue 3 at the left of row 1 sees four digits",
    LittleKiller((1, 4), 6): "the little killer 6 from r1c2 to r2c1 adds up to 5",
}


@pytest.mark.parametrize(("clue", "broken"), BROKEN_CLUES.items(), ids=repr)
def test_a_clue_that_is_broken_is_told_with_what_stands_there(clue: Rule, broken: str | None) -> None:
    check = solution_check(make_puzzle("classic", Grid.square(4), clues=[clue], solution=RIGHT))
    assert check is not None
    assert check.says == (
        f"The solution in the file breaks the rules: {broken}. Correct it, or leave it out."
        if broken
        else "The solution in the file keeps every rule."
    )

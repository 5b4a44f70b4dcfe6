"""The solution that a file claims for its puzzle."""

from __future__ import annotations

from verifier.puzzle.arithmetic import solution_check
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage

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

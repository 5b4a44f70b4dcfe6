"""Which rules a full grid breaks, and in which cells: whatever grid a witness shows is held against them."""

from __future__ import annotations

import pytest

from verifier.puzzle.breaches import breaches, solves
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

SOLUTION: Filling = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
BARE = make_puzzle("classic", Grid.square(4))
RULED = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((5, 6), 5)], givens={2: 3, 15: 1})


def but(**digits: int) -> Filling:
    """The solution with other digits in some cells: ``but(r1c2=4)``."""
    changed = list(SOLUTION)
    for name, digit in digits.items():
        changed[4 * (int(name[1]) - 1) + int(name[3]) - 1] = digit
    return tuple(changed)


def broken(puzzle: Puzzle, filling: Filling) -> list[tuple[str, tuple[int, ...]]]:
    """The rules a filling breaks, in order: the name of a house, the total of a cage, or nothing."""
    found = []
    for breach in breaches(puzzle, filling):
        rule = breach.rule
        name = rule.name if isinstance(rule, House) else str(rule.total) if isinstance(rule, Cage) else ""
        found.append((name, breach.cells))
    return found


@pytest.mark.parametrize("puzzle", [BARE, RULED])
def test_a_solution_breaks_nothing(puzzle: Puzzle) -> None:
    assert broken(puzzle, SOLUTION) == []
    assert solves(puzzle, SOLUTION)


@pytest.mark.parametrize("filling", [(), SOLUTION[:-1], (*SOLUTION, 1)])
def test_a_grid_of_another_length_is_looked_at_no_further(filling: Filling) -> None:
    assert broken(RULED, filling) == [("", ())]
    assert not solves(RULED, filling)


@pytest.mark.parametrize("digit", [0, 5, -1])
def test_a_digit_that_is_none_of_the_grids_is_a_breach_by_itself(digit: int) -> None:
    assert broken(BARE, but(r2c2=digit)) == [("", (5,))]


def test_the_smallest_and_the_largest_digit_are_digits_of_the_grid() -> None:
    assert {1, 4} == {min(SOLUTION), max(SOLUTION)}
    assert solves(BARE, SOLUTION)


def test_of_a_house_the_cells_that_repeat_a_digit_are_told() -> None:
    assert broken(BARE, but(r1c1=2)) == [("row 1", (0, 1)), ("column 1", (0, 8)), ("box 1", (0, 1))]


def test_of_two_digits_that_repeat_all_cells_are_told() -> None:
    row = (1, 1, 2, 2)
    assert broken(BARE, (*row, *SOLUTION[4:]))[0] == ("row 1", (0, 1, 2, 3))


def test_a_cage_of_another_total_is_told_with_all_its_cells() -> None:
    other = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 4)])
    assert broken(other, SOLUTION) == [("4", (0, 1))]


def test_a_cage_of_the_right_total_must_not_repeat_a_digit() -> None:
    crossing = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1, 6), 4)])  # 1, 2 and 1
    assert broken(crossing, SOLUTION) == [("4", (0, 6))]


def test_a_cage_with_both_faults_is_told_by_the_cells_that_repeat() -> None:
    crossing = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1, 6), 9)])
    assert broken(crossing, SOLUTION) == [("9", (0, 6))]


def test_every_given_that_is_contradicted_is_a_breach_of_its_own() -> None:
    other = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 3, 15: 2})
    assert broken(other, SOLUTION) == [("", (1,)), ("", (15,))]


def test_breaches_come_in_the_order_of_digits_houses_cages_and_givens() -> None:
    turned = (9, 3, 4, 4, *SOLUTION[4:])
    names = [name for name, _ in broken(RULED, turned)]
    assert names == ["", "row 1", "column 2", "column 3", "box 1", "box 2", "3", ""]

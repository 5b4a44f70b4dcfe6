"""Conflicts: arithmetic ones, ones found by search, and the chain of steps that shows them."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.diagnosis.puzzles import sound
from verifier.counting.count import count_solutions
from verifier.diagnosis.parts import Given, Part, only, parts_of, without
from verifier.diagnosis.purse import Purse
from verifier.diagnosis.repairs.changes import TotalChange, changed
from verifier.diagnosis.without.balances import Shape, imbalances
from verifier.diagnosis.without.chains import chains_in
from verifier.diagnosis.without.conflicts import nearest_first, possible, shrunk
from verifier.diagnosis.without.no_solution import smallest_conflict
from verifier.diagnosis.without.suspects import Suspects
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

FOUR = Grid.square(4)
ROW_OF_NINE = [Cage((0, 1), 3), Cage((2, 3), 6)]


def broken(number: int) -> Puzzle:
    """A 6x6 killer without a solution: one total of a sound one is off by one."""
    puzzle, _ = sound(12)[number]
    for cage in puzzle.cages:
        off = changed(puzzle, [TotalChange(cage, cage.total + (-1) ** number)])
        if count_solutions(off, 1).count == 0:
            return off
    raise AssertionError("every total can be off")


def assert_minimal(puzzle: Puzzle, parts: Sequence[Part]) -> None:
    """Together the parts have no solution; without any one of them they do."""
    assert count_solutions(only(puzzle, parts), 1).count == 0
    for part in parts:
        assert count_solutions(only(puzzle, [other for other in parts if other != part]), 1).count == 1


@pytest.mark.parametrize("number", range(8))
def test_a_conflict_holds_nothing_that_is_not_needed(number: int) -> None:
    puzzle = broken(number)
    conflict = smallest_conflict(puzzle, Suspects(puzzle, Purse()), Purse())
    assert conflict.minimal
    assert_minimal(puzzle, conflict.parts)


@pytest.mark.parametrize("number", range(4))
def test_a_conflict_is_minimal_whatever_it_is_started_from(number: int) -> None:
    puzzle = broken(number)
    for seed in puzzle.cages[:: len(puzzle.cages) // 2]:
        conflict = shrunk(puzzle, nearest_first(puzzle, parts_of(puzzle), seed), Purse())
        assert_minimal(puzzle, conflict.parts)


def test_givens_that_clash_are_a_conflict_with_their_house() -> None:
    puzzle = make_puzzle("classic", FOUR, givens={0: 1, 3: 1, 9: 2})
    conflict = smallest_conflict(puzzle, Suspects(puzzle, Purse()), Purse())
    assert conflict.parts == (FOUR.houses[0], Given(0, 1), Given(3, 1))


@pytest.mark.parametrize("number", range(6))
def test_a_chain_rests_on_parts_that_contradict_each_other(number: int) -> None:
    chains = chains_in(broken(number), Purse())
    assert chains, "the replay should meet the contradiction"
    for chain in chains:
        assert possible(broken(number), chain.parts, Purse()) is False


def test_a_sound_puzzle_has_no_chain() -> None:
    assert chains_in(sound(12)[0][0], Purse()) == ()


# Arithmetic


def test_cages_that_miss_the_total_of_their_house_are_told_first() -> None:
    puzzle = make_puzzle("killer", FOUR, cages=[*ROW_OF_NINE, Cage((12, 13), 5)])
    found = imbalances(puzzle)[0]
    assert (found.shape, found.whole, found.made) == (Shape.EXACT, 10, 9)
    assert found.parts == (FOUR.houses[0], *ROW_OF_NINE)


def test_cages_that_fit_their_house_are_none() -> None:
    assert imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 3), Cage((2, 3), 7)])) == ()


def test_innies_that_would_make_too_much() -> None:
    """Row 1 adds up to 10 and the cages inside to 5, so r1c3 would be 5."""
    found = imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 4), Cage((2, 6), 4), Cage((3,), 1)]))[
        0
    ]
    assert (found.shape, found.cells, found.left, found.most) == (Shape.INNIES, (2,), 5, 4)


def test_outies_that_would_make_too_little() -> None:
    puzzle = make_puzzle("killer", FOUR, cages=[Cage((0, 1), 4), Cage((2, 3, 7), 6)])
    found = next(one for one in imbalances(puzzle) if one.shape is Shape.OUTIES)
    assert (found.cells, found.left, found.least) == ((7,), 0, 1)


def test_a_cage_alone_can_be_impossible() -> None:
    found = imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 8)]))[0]
    assert (found.shape, found.least, found.most) == (Shape.CAGE, 3, 7)


@pytest.mark.parametrize("number", range(12))
def test_no_sound_puzzle_is_out_of_balance(number: int) -> None:
    assert imbalances(sound(12)[number][0]) == ()


@pytest.mark.parametrize("number", range(12))
def test_what_is_out_of_balance_has_no_solution(number: int) -> None:
    for found in imbalances(broken(number))[:5]:
        assert count_solutions(only(broken(number), found.parts), 1).count == 0


# Suspects


@pytest.mark.parametrize("number", range(6))
def test_suspects_are_the_parts_without_which_there_is_a_solution(number: int) -> None:
    puzzle = broken(number)
    by_hand = [cage for cage in puzzle.cages if count_solutions(without(puzzle, [cage]), 1).count]
    assert Suspects(puzzle, Purse()).alone() == by_hand


@pytest.mark.parametrize("number", range(3))
def test_no_pair_that_could_mend_is_ruled_out(number: int) -> None:
    puzzle = broken(number)
    suspects = Suspects(puzzle, Purse())
    for one in puzzle.cages[::3]:
        for other in puzzle.cages[1::3]:
            if count_solutions(without(puzzle, [one, other]), 1).count:
                assert suspects.allow([one, other])

"""Conflicts: arithmetic ones, ones found by search, and the steps that show them."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.diagnosis.puzzles import sound
from verifier.counting.count import count_solutions
from verifier.diagnosis.repairs.changes import changed, total_change
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.without.conflicts import nearest_first, only, possible, shrunk
from verifier.diagnosis.without.imbalances import Comparison, imbalances
from verifier.diagnosis.without.no_solution import smallest_conflict
from verifier.diagnosis.without.refutations import refutations
from verifier.diagnosis.without.suspects import Suspects
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.rule import Rule

FOUR = Grid.square(4)
ROW_OF_NINE = [Cage((0, 1), 3), Cage((2, 3), 6)]


def broken(number: int) -> Puzzle:
    """A 6x6 killer without a solution: one total of a sound one is off by one."""
    puzzle, _ = sound(12)[number]
    for cage in puzzle.cages:
        off = changed(puzzle, [total_change(cage, cage.total + (-1) ** number)])
        if count_solutions(off, 1).count == 0:
            return off
    raise AssertionError("every total can be off")


def assert_minimal(puzzle: Puzzle, rules: Sequence[Rule]) -> None:
    """Together the rules have no solution; without any one of them they do."""
    assert count_solutions(only(puzzle, rules), 1).count == 0
    for rule in rules:
        assert count_solutions(only(puzzle, [other for other in rules if other != rule]), 1).count == 1


@pytest.mark.parametrize("number", range(8))
def test_a_conflict_holds_nothing_that_is_not_needed(number: int) -> None:
    puzzle = broken(number)
    conflict = smallest_conflict(puzzle, Suspects(puzzle, SearchBudget()), SearchBudget())
    assert conflict.minimal
    assert_minimal(puzzle, conflict.rules)


@pytest.mark.parametrize("number", range(4))
def test_a_conflict_is_minimal_whatever_it_is_started_from(number: int) -> None:
    puzzle = broken(number)
    for seed in puzzle.cages[:: len(puzzle.cages) // 2]:
        conflict = shrunk(puzzle, nearest_first(puzzle, puzzle.rules, seed), SearchBudget())
        assert_minimal(puzzle, conflict.rules)


def test_givens_that_clash_are_a_conflict_with_their_house() -> None:
    puzzle = make_puzzle("classic", FOUR, givens={0: 1, 3: 1, 9: 2})
    conflict = smallest_conflict(puzzle, Suspects(puzzle, SearchBudget()), SearchBudget())
    assert conflict.rules == (FOUR.houses[0], Given(0, 1), Given(3, 1))


@pytest.mark.parametrize("number", range(6))
def test_a_refutation_rests_on_rules_that_contradict_each_other(number: int) -> None:
    found = refutations(broken(number), SearchBudget())
    assert found, "the replay should meet the contradiction"
    for refutation in found:
        assert possible(broken(number), refutation.rules, SearchBudget()) is False


def test_a_sound_puzzle_has_no_refutation() -> None:
    assert refutations(sound(12)[0][0], SearchBudget()) == ()


# Arithmetic


def test_cages_that_miss_the_total_of_their_house_are_told_first() -> None:
    puzzle = make_puzzle("killer", FOUR, cages=[*ROW_OF_NINE, Cage((12, 13), 5)])
    found = imbalances(puzzle)[0]
    assert (found.compared, found.whole, found.made) == (Comparison.EXACT, 10, 9)
    assert found.rules == (FOUR.houses[0], *ROW_OF_NINE)


def test_cages_that_fit_their_house_are_none() -> None:
    assert imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 3), Cage((2, 3), 7)])) == ()


def test_innies_that_would_make_too_much() -> None:
    """Row 1 adds up to 10 and the cages inside to 5, so r1c3 would be 5."""
    found = imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 4), Cage((2, 6), 4), Cage((3,), 1)]))[
        0
    ]
    assert (found.compared, found.cells, found.left, found.most) == (Comparison.INNIES, (2,), 5, 4)


def test_outies_that_would_make_too_little() -> None:
    puzzle = make_puzzle("killer", FOUR, cages=[Cage((0, 1), 4), Cage((2, 3, 7), 6)])
    found = next(one for one in imbalances(puzzle) if one.compared is Comparison.OUTIES)
    assert (found.cells, found.left, found.least) == ((7,), 0, 1)


def test_a_cage_alone_can_be_impossible() -> None:
    found = imbalances(make_puzzle("killer", FOUR, cages=[Cage((0, 1), 8)]))[0]
    assert (found.compared, found.least, found.most) == (Comparison.CAGE, 3, 7)


@pytest.mark.parametrize("number", range(12))
def test_no_sound_puzzle_is_out_of_balance(number: int) -> None:
    assert imbalances(sound(12)[number][0]) == ()


@pytest.mark.parametrize("number", range(12))
def test_what_is_out_of_balance_has_no_solution(number: int) -> None:
    for found in imbalances(broken(number))[:5]:
        assert count_solutions(only(broken(number), found.rules), 1).count == 0


# Suspects


@pytest.mark.parametrize("number", range(6))
def test_suspects_are_the_parts_without_which_there_is_a_solution(number: int) -> None:
    puzzle = broken(number)
    by_hand = [cage for cage in puzzle.cages if count_solutions(puzzle.changed([cage]), 1).count]
    assert Suspects(puzzle, SearchBudget()).alone() == by_hand


@pytest.mark.parametrize("number", range(3))
def test_no_pair_that_could_mend_is_ruled_out(number: int) -> None:
    puzzle = broken(number)
    suspects = Suspects(puzzle, SearchBudget())
    for one in puzzle.cages[::3]:
        for other in puzzle.cages[1::3]:
            if count_solutions(puzzle.changed([one, other]), 1).count:
                assert suspects.allow([one, other])

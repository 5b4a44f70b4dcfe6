"""Derived sums: proved from their own houses and cages, in fractions."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import board_from_text
from grader.board.steps import DerivedSum
from tests.grader.boards import Position, derived, positions
from verifier.audit.premises import follows_from_its_rules
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.linear_sum import LinearSum

# Row 1 holds a cage of 10 in two cells; a cage of 9 sticks out of it by one.
BOARD = board_from_text("", [Cage((0, 1), 4), Cage((2, 6), 5)], size=4)


def follows(weights: dict[int, int], total: int, houses: tuple[int, ...], cages: tuple[int, ...]) -> bool:
    linear = LinearSum(tuple(sorted(weights.items())), total)
    numbers = (*houses, *(BOARD.layout.cage_numbers[cage] for cage in cages))
    return follows_from_its_rules(DerivedSum(linear, numbers), BOARD)


def test_innies_are_the_house_less_the_cages_inside() -> None:
    assert follows({2: 1, 3: 1}, 6, (0,), (0,))


def test_innies_less_outies_are_the_house_less_the_cages_counted_in() -> None:
    assert follows({3: 1, 6: -1}, 1, (0,), (0, 1))


def test_the_same_sum_with_its_signs_turned_round_follows_too() -> None:
    assert follows({3: -1, 6: 1}, -1, (0,), (0, 1))


def test_two_houses_may_be_taken_from_each_other() -> None:
    rows_less_columns = {1: 1, 2: 1, 3: 1, 4: -1, 8: -1, 12: -1}
    assert follows(rows_less_columns, 0, (0, 4), ())


def test_a_total_off_by_one_does_not_follow() -> None:
    assert not follows({2: 1, 3: 1}, 7, (0,), (0,))


def test_a_sum_does_not_follow_without_one_of_its_cages() -> None:
    assert not follows({3: 1, 6: -1}, 1, (0,), (0,))


def test_nothing_follows_from_nothing() -> None:
    assert not follows({0: 1}, 1, (), ())


@settings(max_examples=60, deadline=None)
@given(positions(Grid.square(4), killer=True), st.data())
def test_fractions_and_least_squares_agree(position: Position, data: st.DataObject) -> None:
    board, layout = position.board, position.board.layout
    houses = data.draw(st.sets(st.integers(0, len(layout.houses) - 1), max_size=3))
    some = layout.cage_numbers
    cages = data.draw(st.sets(st.sampled_from(some), max_size=3)) if some else set()
    weights: dict[int, int] = {}
    total = 0
    for house in houses:
        for cell in layout.houses[house].cells:
            weights[cell] = weights.get(cell, 0) + 1
        total += layout.grid.house_total
    for cage in cages:
        for cell in layout.rules[cage].cells:
            weights[cell] = weights.get(cell, 0) - 1
        total -= layout.cage(cage).total
    total += data.draw(st.sampled_from([0, 0, 1]))
    left = tuple(sorted((cell, weight) for cell, weight in weights.items() if weight))
    stated = DerivedSum(LinearSum(left, total), (*sorted(houses), *sorted(cages)))
    assert follows_from_its_rules(stated, board) is derived(stated, board)

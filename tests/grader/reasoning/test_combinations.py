from itertools import combinations

import pytest

from grader.board.board import board_from_text
from grader.reasoning.combinations import (
    LISTED_AT_MOST,
    arrangements,
    combinations_by_total,
    combinations_of,
    how_many,
    open_combinations,
    open_digits,
    rest_of_cage,
)
from tests.reference import facts, load
from verifier.puzzle.masks import digits_of, mask_of
from verifier.puzzle.rules.cage import Cage

TRADE = [
    # Common practice, no source.
    (28, 4, ["4789", "5689"]),
    (10, 4, ["1234"]),
    (24, 3, ["789"]),
    (22, 3, ["589", "679"]),
    (45, 9, ["123456789"]),
]


def written(total: int, size: int) -> list[str]:
    return ["".join(map(str, digits_of(mask))) for mask in combinations_of(total, size, 9)]


@pytest.mark.parametrize(("total", "size", "expected"), TRADE)
def test_the_combinations_that_setters_know_by_heart(total: int, size: int, expected: list[str]) -> None:
    assert written(total, size) == expected


@pytest.mark.parametrize("digits", [4, 6, 9, 12])
def test_the_table_is_what_brute_force_finds(digits: int) -> None:
    for size in range(1, digits + 1):
        by_total: dict[int, set[int]] = {}
        for chosen in combinations(range(1, digits + 1), size):
            by_total.setdefault(sum(chosen), set()).add(mask_of(chosen))
        for total in range(digits * (digits + 1)):
            assert set(combinations_of(total, size, digits)) == by_total.get(total, set())
            assert how_many(total, size, digits) == len(by_total.get(total, set()))


@pytest.mark.reference
def test_the_table_has_as_many_combinations_as_published() -> None:
    # Row n = 9 of OEIS A053632 and an own brute force: facts.yaml, subsets_1_to_9.
    counts = facts()["subsets_1_to_9"]["count_by_size_and_sum"]
    for size, by_total in counts.items():
        assert {total: how_many(total, size, 9) for total in by_total} == by_total


@pytest.mark.reference
def test_the_published_lists_of_combinations() -> None:
    # cage_combinations.jsonl: published cases, each with its source, and brute force over all sizes and sums.
    for record in load("cage_combinations.jsonl"):
        excluded = mask_of(record["exclude"])
        found = [mask for mask in combinations_of(record["sum"], record["size"], 9) if not mask & excluded]
        assert [list(digits_of(mask)) for mask in found] == record["expected"]


def test_an_open_combination_has_a_place_for_every_digit_and_a_digit_for_every_cell() -> None:
    masks = (mask_of([5, 6]), mask_of([1, 2, 3, 4]))
    assert [digits_of(mask) for mask in open_combinations(masks, 8, 9)] == [(2, 6), (3, 5)]
    assert not open_combinations(masks, 4, 9)


def test_arrangements_put_no_digit_where_the_others_cannot_follow() -> None:
    two, three = mask_of([1, 2]), mask_of([1, 2, 3])
    assert arrangements((two, two, three), 6, 9) == (two, two, mask_of([3]))
    assert arrangements((three, three, three), 6, 9) == (three, three, three)


@pytest.mark.parametrize("total", [-3, 0, 46, 10**9])
def test_a_total_that_cannot_be_made_has_no_combination(total: int) -> None:
    assert combinations_of(total, 2, 9) == ()


def test_the_rest_of_a_cage_is_its_open_cells_what_they_make_and_the_digits_used() -> None:
    board = board_from_text("1 . . 5 .", [Cage((0, 1, 2), 10), Cage((3, 4), 6)])
    first, second = board.layout.cage_numbers
    assert rest_of_cage(board, first) == ([1, 2], 9, mask_of([1]))
    assert rest_of_cage(board, second) == ([4], 1, mask_of([5]))


def test_combinations_by_total_use_no_digit_of_the_cage_again_and_do_not_ask_what_is_open() -> None:
    cages = [Cage((0, 1, 2), 10), Cage((3, 4), 8)]
    board = board_from_text("1 23 . 45 .", cages)
    by_total = [
        [digits_of(mask) for mask in combinations_by_total(board, cage)] for cage in board.layout.cage_numbers
    ]
    assert by_total == [[(2, 7), (3, 6), (4, 5)], [(1, 7), (2, 6), (3, 5)]]  # 18 would use 1 twice


def test_a_cage_that_is_full_has_the_empty_combination_if_it_makes_its_total() -> None:
    right, wrong = (board_from_text("1 2", [Cage((0, 1), total)]) for total in (3, 4))
    (cage,) = right.layout.cage_numbers
    assert (combinations_by_total(right, cage), combinations_by_total(wrong, cage)) == ([0], [])


def test_open_digits_are_those_of_any_open_combination() -> None:
    masks = (mask_of([5, 6]), mask_of([1, 2, 3, 4]))
    assert open_digits(masks, 8, 9) == mask_of([2, 3, 5, 6])
    assert open_digits(masks, 4, 9) == 0


def test_more_combinations_than_a_person_lists_leave_every_digit_open() -> None:
    low = (mask_of([1, 2, 3]),) * 8
    assert how_many(100, 8, 25) > LISTED_AT_MOST
    assert open_digits(low, 100, 25) == mask_of(range(1, 26))
    assert open_digits(low, 36, 25) == 0  # 12345678 alone, and that is not open

from itertools import combinations

import pytest

from grader.board import digits_of, mask_of
from grader.combinations import arrangements, combinations_of, how_many, open_combinations
from tests.reference import facts, load

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

"""The combinations of the count, against an independent brute force and published tables."""

from itertools import combinations
from math import comb

import pytest

from tests.reference import facts, load
from verifier.counting.combinations import combinations_of, how_many

# Common practice, no source: what solvers know by heart.
BY_HEART = {
    (28, 4): ["4789", "5689"],
    (10, 4): ["1234"],
    (24, 3): ["789"],
    (22, 3): ["589", "679"],
    (45, 9): ["123456789"],
    (3, 2): ["12"],
}


@pytest.mark.parametrize("digits", range(1, 13))
def test_the_table_is_that_of_a_brute_force_over_all_sets(digits: int) -> None:
    for size in range(1, digits + 1):
        sets = list(combinations(range(1, digits + 1), size))
        for total in range(digits * size + 2):
            expected = [held for held in sets if sum(held) == total]
            assert list(combinations_of(total, size, digits)) == expected
            assert how_many(total, size, digits) == len(expected)


@pytest.mark.reference
def test_the_numbers_of_combinations_are_those_published() -> None:
    # facts.yaml, subsets_1_to_9: the totals over all sizes are row n = 9 of OEIS A053632
    published = facts()["subsets_1_to_9"]["count_by_size_and_sum"]
    ours = {
        size: {total: n for total in range(1, 46) if (n := how_many(total, size, 9))} for size in range(1, 10)
    }
    assert ours == published


@pytest.mark.reference
def test_the_combinations_are_those_of_the_published_exercises() -> None:
    for case in load("cage_combinations"):
        ours = combinations_of(case["sum"], case["size"], 9)
        kept = [list(held) for held in ours if not set(held) & set(case["exclude"])]
        assert kept == case["expected"], case["id"]


@pytest.mark.parametrize(("cage", "expected"), BY_HEART.items())
def test_the_combinations_are_those_that_solvers_know_by_heart(
    cage: tuple[int, int], expected: list[str]
) -> None:
    assert ["".join(map(str, held)) for held in combinations_of(*cage, 9)] == expected


def test_the_largest_cages_are_counted_without_listing_them() -> None:
    assert sum(how_many(total, 12, 25) for total in range(12 * 25 + 1)) == comb(25, 12)


@pytest.mark.parametrize(("total", "size"), [(55, 10), (0, 1), (-3, 2), (10**12, 3), (2, 2), (18, 2)])
def test_a_total_out_of_reach_has_no_combination(total: int, size: int) -> None:
    assert how_many(total, size, 9) == 0
    assert list(combinations_of(total, size, 9)) == []

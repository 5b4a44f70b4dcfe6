"""The recorded numbers and solutions of the reference puzzles, by the count."""

import pytest

from tests.reference import as_recorded, load, puzzle_of
from verifier.counting.count import count_solutions

pytestmark = pytest.mark.reference

KILLERS = ["killer", "killer_derived", "generated", "killer16"]
CLASSICS = ["classic_hard", "classic_misc", "classic_pe96", "classic_misprint"]


@pytest.mark.parametrize("name", KILLERS + CLASSICS)
def test_every_puzzle_has_the_recorded_number_of_solutions(name: str) -> None:
    records = [record for record in load(name) if record["solutions"] is not None]
    assert [r["id"] for r in records if not as_recorded(r, count_solutions(puzzle_of(r)))] == []


@pytest.mark.parametrize("name", ["classic_human", "classic_17"])
def test_every_tenth_puzzle_of_the_long_lists_has_the_recorded_solution(name: str) -> None:
    assert [r["id"] for r in load(name)[::10] if not as_recorded(r, count_solutions(puzzle_of(r)))] == []


def test_exact_numbers_of_solutions_are_those_recorded() -> None:
    # up to 1,000 solutions each; scripts/study_counts.py has the rest
    records = [record for record in load("classic_multi_derived") if record["solutions_exact"] <= 1000]
    assert len(records) >= 10
    for record in records:
        tally = count_solutions(puzzle_of(record), limit=1001)
        assert (tally.count, tally.complete) == (record["solutions_exact"], True), record["id"]

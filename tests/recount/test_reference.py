"""The recorded numbers and solutions of reference puzzles, by the recount."""

import pytest

from tests.reference import as_recorded, load, puzzle_of
from verifier.recount.recount import recount_solutions

pytestmark = pytest.mark.reference

PART = {  # every so many-th record, so that it runs in seconds; scripts/study_counts.py has them all
    "killer": 1,
    "killer_derived": 1,
    "generated": 2,
    "killer16": 16,
    "classic_hard": 2,
    "classic_misc": 1,
    "classic_pe96": 5,
    "classic_misprint": 1,
    "classic_human": 50,
    "classic_17": 100,
}


@pytest.mark.parametrize(("name", "step"), PART.items())
def test_the_recount_finds_the_recorded_number_of_solutions(name: str, step: int) -> None:
    records = [record for record in load(name)[::step] if record["solutions"] is not None]
    assert [r["id"] for r in records if not as_recorded(r, recount_solutions(puzzle_of(r)))] == []


def test_exact_numbers_of_solutions_are_those_recorded() -> None:
    # up to 500 solutions each; scripts/study_counts.py has the rest
    records = [record for record in load("classic_multi_derived") if record["solutions_exact"] <= 500]
    assert len(records) >= 5
    for record in records:
        tally = recount_solutions(puzzle_of(record), limit=501)
        assert (tally.count, tally.complete) == (record["solutions_exact"], True), record["id"]

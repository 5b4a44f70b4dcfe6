"""Puzzles of every rule against the numbers of solutions and the solutions that are recorded."""

from __future__ import annotations

import pytest

from tests.reference import as_recorded, load, puzzle_of
from verifier.counting.count import count_solutions
from verifier.recount.recount import recount_solutions

NOT_YET = ("cages", "mixed: cages")
"""Rules that no file can say yet."""


@pytest.mark.reference
def test_both_counts_agree_with_what_is_recorded() -> None:
    checked = set()
    for record in load("variants"):
        if record["rule"].startswith(NOT_YET) or record.get("hard"):
            continue
        puzzle = puzzle_of(record)
        for tally in (count_solutions(puzzle), recount_solutions(puzzle)):
            assert as_recorded(record, tally), (record["id"], tally.witness)
        checked.add(record["rule"])
    assert len(checked) >= 30

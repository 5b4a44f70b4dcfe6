"""The builder's own search, which counts the solutions of the corpus, is right about other puzzles."""

from __future__ import annotations

from typing import Any

import pytest

from scripts.setting.plain import Exhausted, find_solutions, plain_count
from tests.reference import load, puzzle_of, solution_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle


def some(name: str, every: int) -> list[dict[str, Any]]:
    return [
        record for record in load(name)[::every] if record["rows"] == 9 and record["solutions"] is not None
    ]


def test_it_finds_the_288_grids_of_4x4() -> None:
    """288: OEIS A107739."""
    assert plain_count(make_puzzle("classic", Grid.square(4)), limit=1000) == 288


@pytest.mark.reference
def test_it_agrees_with_the_reference_about_killers_and_classics() -> None:
    for record in [
        *some("generated.jsonl", 10),
        *some("killer_derived.jsonl", 5),
        *some("classic_17.jsonl", 200),
    ]:
        wanted = 2 if record["solutions"] == "2+" else record["solutions"]
        try:
            assert plain_count(puzzle_of(record), tries=2000) == wanted, record["id"]
        except Exhausted:
            continue  # it may give up, but never be wrong


@pytest.mark.reference
def test_it_finds_the_recorded_solution() -> None:
    record = next(record for record in some("generated.jsonl", 1) if record["solutions"] == 1)
    assert list(find_solutions(puzzle_of(record))) == [solution_of(record)]


def test_it_says_when_it_gives_up() -> None:
    with pytest.raises(Exhausted):
        plain_count(make_puzzle("classic", Grid.square(9)), limit=10_000, tries=100)

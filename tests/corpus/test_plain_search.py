"""The builder's own search, which counts the solutions of the corpus, is right about other puzzles."""

from __future__ import annotations

from itertools import product
from typing import Any

import pytest

from scripts.setting.plain import Exhausted, find_solutions, plain_count
from tests.reference import load, puzzle_of, solution_of
from tests.rules.shapes import SHAPES, fillings_of, solved_by
from tests.rules.test_every_rule import ALL, STRIP
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.rule import Rule


def some(name: str, every: int) -> list[dict[str, Any]]:
    return [
        record for record in load(name)[::every] if record["rows"] == 9 and record["solutions"] is not None
    ]


def test_it_finds_the_288_grids_of_4x4() -> None:
    """288: OEIS A107739."""
    assert plain_count(make_puzzle("classic", Grid.square(4)), limit=1000) == 288


@pytest.mark.parametrize("name", SHAPES)
def test_it_finds_all_that_obeys_the_rules_whatever_their_shape(name: str) -> None:
    puzzle = SHAPES[name]()
    assert sorted(find_solutions(puzzle)) == fillings_of(puzzle)


@pytest.mark.parametrize("rule", ALL, ids=repr)
def test_it_finds_all_that_obeys_a_rule_of_any_kind(rule: Rule) -> None:
    wanted = [filling for filling in product((1, 2, 3), repeat=4) if rule.holds(filling)]
    assert sorted(find_solutions(solved_by(STRIP, rule))) == wanted


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

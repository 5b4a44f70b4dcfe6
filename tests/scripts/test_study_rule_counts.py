"""The study that counts small random puzzles with every kind of rule in three ways, on few puzzles."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from scripts.setting.small import KINDS, small_puzzle
from scripts.study_rule_counts import Found, found_by_all


@pytest.mark.parametrize("kind", KINDS)
def test_three_ways_of_counting_agree_on_every_kind_of_rule(kind: str) -> None:
    assert all(found_by_all(kind, seed).agreed for seed in range(3))


ONE, OTHER = (1, 2, 3, 4), (4, 3, 2, 1)
ALIKE = Found("odd", 0, (ONE, OTHER), (OTHER, ONE), (ONE, OTHER))


def test_the_order_in_which_solutions_come_is_no_difference() -> None:
    assert ALIKE.agreed


@pytest.mark.parametrize("witness", ["counted", "recounted", "plain"])
def test_a_solution_that_one_of_them_lacks_or_has_too_many_is_a_difference(witness: str) -> None:
    for said in [(), (ONE,), (ONE, OTHER, (2, 1, 4, 3)), (ONE, (2, 1, 4, 3))]:
        other: dict[str, Any] = {witness: said}
        assert not replace(ALIKE, **other).agreed


def test_whoever_gave_up_says_nothing() -> None:
    assert replace(ALIKE, plain=None).agreed


def test_some_puzzles_have_no_solution_some_one_and_some_several() -> None:
    said = {found_by_all("thermometer", seed).solutions for seed in range(12)}
    assert said == {"none", "one", "several"}


def test_the_same_seed_gives_the_same_puzzle() -> None:
    assert small_puzzle("arrow", 5) == small_puzzle("arrow", 5)

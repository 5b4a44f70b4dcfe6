"""A rule that a witness has not been told, or was told wrongly, makes no wrong verdict: for every kind."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from random import Random
from typing import Any

import pytest

from grader.grading.replay import Outcome
from scripts.setting.chance import shuffled
from scripts.setting.clues.drawing import CLUES
from scripts.setting.empty_grids import diagonals, no_repeats, not_consecutive
from scripts.setting.plain import find_solutions
from scripts.setting.ruled import draw_ruled
from tests.evidence.stand_ins import judged, replay_ending
from verifier.counting import model, postings
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule
from verifier.recount import statements
from verifier.verdict.verdict import Verdict, VerdictState

FOUR, SIX = Grid.square(4), Grid.square(6)
EMPTY = {
    "diagonals": lambda: diagonals(FOUR),
    "knight": lambda: no_repeats("knight", SIX),
    "king": lambda: no_repeats("king", SIX),
    "not consecutive": lambda: not_consecutive(SIX),
}
KINDS = [*EMPTY, *CLUES]

STUCK = replay_ending(Outcome.STUCK)
"""With it the recount is the second witness."""


@pytest.fixture(autouse=True)
def nothing_known() -> Iterator[None]:
    """Have the count state houses anew: what it keeps of them is told by the postings of the moment."""
    model._skeleton.cache_clear()
    yield
    model._skeleton.cache_clear()


@cache
def sound(kind: str) -> Puzzle:
    empty = EMPTY.get(kind, lambda: make_puzzle("classic", FOUR))()
    return draw_ruled(empty, 3, {kind: 4} if kind in CLUES else {})[0]


@cache
def with_two(kind: str) -> Puzzle:
    """The sound puzzle without one of its givens or clues, and with few solutions."""
    for rule in shuffled((rule for rule in sound(kind).rules if type(rule) is not House), Random(1)):
        less = sound(kind).changed([rule])
        if len(list(zip(range(2), find_solutions(less), strict=False))) == 2:
            return less
    raise AssertionError(kind)


def sorts(puzzle: Puzzle) -> set[type[Rule]]:
    """The kinds of rules that make the puzzle what it is: houses only where there is nothing else."""
    return {type(rule) for rule in puzzle.rules} - {House, Given} or {House}


def assert_not_wrong(verdict: Verdict, count: int) -> None:
    assert verdict.state is not VerdictState.ACCEPTED or count == 1
    assert verdict.state is VerdictState.UNDECIDED or verdict.solutions.count == count


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("others", [{}, {"replay": STUCK}], ids=["replay", "recount"])
def test_a_rule_that_is_not_posted_to_the_count_makes_no_wrong_verdict(
    kind: str, others: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    told = {sort: post for sort, post in postings.POSTINGS.items() if sort not in sorts(sound(kind))}
    monkeypatch.setattr(postings, "POSTINGS", {**told, **dict.fromkeys(sorts(sound(kind)), lambda *_: None)})
    assert_not_wrong(judged(sound(kind), **others), 1)
    assert_not_wrong(judged(with_two(kind), **others), 2)


@pytest.mark.parametrize("kind", KINDS)
def test_a_rule_that_nothing_obeys_in_the_count_is_found_out(
    kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The count says that there is no solution, and the witness who reaches the end shows one."""

    def never(model: Any, *_: object) -> None:
        model.constraints.add().bool_or.literals.clear()

    told = {**postings.POSTINGS, **dict.fromkeys(sorts(sound(kind)), never)}
    monkeypatch.setattr(postings, "POSTINGS", told)
    for others in ({}, {"replay": STUCK}):
        verdict = judged(sound(kind), **others)
        assert [reason.code for reason in verdict.reasons] == ["witnesses-disagree"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_rule_that_the_recount_is_not_told_makes_no_wrong_verdict(
    kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    untold = dict.fromkeys(sorts(sound(kind)), lambda *_: iter(()))
    monkeypatch.setattr(statements, "FACTS", {**statements.FACTS, **untold})
    assert_not_wrong(judged(sound(kind), replay=STUCK), 1)
    assert_not_wrong(judged(with_two(kind), replay=STUCK), 2)

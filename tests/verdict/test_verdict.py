"""A verdict that contradicts itself cannot be made."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.evidence.stand_ins import ONE, TWO
from verifier.evidence.statements import WitnessSays
from verifier.verdict.judge import judge
from verifier.verdict.verdict import Reason, VerdictState


def test_accepted_needs_two_witnesses_who_say_one() -> None:
    with pytest.raises(ValueError, match="accepted on 1 solutions"):
        replace(judge(ONE), witnesses=(WitnessSays("cp-sat", 1),))


def test_the_same_witness_twice_is_one_witness() -> None:
    with pytest.raises(ValueError, match="accepted"):
        replace(judge(ONE), witnesses=(WitnessSays("cp-sat", 1), WitnessSays("cp-sat", 1)))


@pytest.mark.parametrize("says", [None, 0, 2])
def test_a_second_witness_that_says_anything_but_one_does_not_count(says: int | None) -> None:
    with pytest.raises(ValueError, match="accepted"):
        replace(judge(ONE), witnesses=(WitnessSays("cp-sat", 1), WitnessSays("replay", says)))


@pytest.mark.parametrize("changed", [{"complete": False}, {"grid": None}, {"count": 2}, {"count": None}])
def test_accepted_needs_one_grid_and_a_count_that_was_finished(changed: dict[str, Any]) -> None:
    accepted = judge(ONE)
    with pytest.raises(ValueError, match="accepted"):
        replace(accepted, solutions=replace(accepted.solutions, **changed))


def test_several_solutions_are_never_accepted() -> None:
    with pytest.raises(ValueError, match="accepted"):
        replace(judge(TWO), state=VerdictState.ACCEPTED, reasons=())


def test_accepted_has_no_reasons_and_the_others_have_some() -> None:
    with pytest.raises(ValueError, match="rejected with 0 reasons"):
        replace(judge(TWO), reasons=())
    with pytest.raises(ValueError, match="accepted with 1 reasons"):
        replace(judge(ONE), reasons=(Reason("x", "y"),))


def test_a_provisional_verdict_is_never_accepted() -> None:
    with pytest.raises(ValueError, match="accepted"):
        replace(judge(ONE), provisional=True)

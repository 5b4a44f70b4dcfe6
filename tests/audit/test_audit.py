"""The audit passes what the ladder finds, and fails a step of which one premise or one claim is wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import board_from_text
from grader.board.steps import Step, WalkStep
from grader.ladder import LADDER
from grader.techniques.singles import HIDDEN_SINGLE_BOX
from tests.grader.boards import Position, audit, positions
from tests.grader.walks import some_walks
from verifier.audit.audit import audit_step, cuttable, failed_audits
from verifier.audit.premises import claims_of, premises_of
from verifier.audit.proof import Answer, prove
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage

HIDDEN = WalkStep(
    next(iter(HIDDEN_SINGLE_BOX.find(board := board_from_text("2 68 168\n68 5 3\n4 7 9")))), board
)


@pytest.mark.reference
def test_every_step_of_whole_puzzles_passes() -> None:
    for walked in some_walks():
        assert failed_audits(walked.steps) == []


def test_a_step_that_claims_another_digit_fails() -> None:
    wrong = replace(HIDDEN, step=replace(HIDDEN.step, places=((2, 6),)))
    assert audit_step(wrong).proof is Answer.REFUTED


@pytest.mark.parametrize("cell", HIDDEN.step.looks)
def test_a_step_that_does_not_cite_a_cell_it_needs_fails(cell: int) -> None:
    looks = tuple(other for other in HIDDEN.step.looks if other != cell)
    forgetful = replace(HIDDEN, step=replace(HIDDEN.step, looks=looks))
    assert not audit_step(forgetful).passed


def test_a_failed_step_is_named_by_its_place() -> None:
    wrong = replace(HIDDEN, step=replace(HIDDEN.step, rules=()))
    assert [number for number, _ in failed_audits([HIDDEN, wrong])] == [2]


def test_a_sum_that_does_not_follow_fails_even_where_the_step_follows_from_it() -> None:
    cages = [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)]
    board = board_from_text("", cages)
    technique = next(technique for technique in LADDER if technique.id == "rule-of-45")
    (step,) = technique.find(board)
    (derived,) = step.sums
    wrong = replace(derived, linear=replace(derived.linear, total=2))
    found = audit_step(WalkStep(replace(step, sums=(wrong,), places=((17, 2),)), board))
    assert (found.proof, found.sums, found.passed) == (Answer.PROVED, False, False)


def test_a_house_that_does_no_work_can_be_cut() -> None:
    padded = replace(HIDDEN, step=replace(HIDDEN.step, rules=(*HIDDEN.step.rules, 5)))
    assert [premise.name for premise in cuttable(padded)] == ["row 6"]  # type: ignore[union-attr]


def test_nothing_can_be_cut_from_a_hidden_single() -> None:
    assert cuttable(HIDDEN) == ()


def some_steps(position: Position) -> Iterator[Step]:
    """The first step of every technique."""
    for technique in LADDER:
        yield from islice(technique.find(position.board), 1)


some_boards = settings(max_examples=8, deadline=None)
six = positions(Grid.square(6), killer=True)


@some_boards
@given(six)
def test_after_the_cut_the_step_is_proved_and_nothing_more_can_go(position: Position) -> None:
    for step in some_steps(position):
        taken = WalkStep(step, position.board)
        told, claims = premises_of(step, position.board), claims_of(step)
        for premise in cuttable(taken):
            told = told.without(premise)
        assert prove(told, claims) is Answer.PROVED
        assert all(prove(told.without(premise), claims) is not Answer.PROVED for premise in told)


@some_boards
@given(six, st.data())
def test_two_models_judge_a_damaged_step_alike(position: Position, data: st.DataObject) -> None:
    """The other model, in tests/grader, has whole-number cells and all-different constraints."""
    for step in some_steps(position):
        looks = data.draw(st.sets(st.sampled_from(step.looks))) if step.looks else set()
        rules = data.draw(st.sets(st.sampled_from(step.rules))) if step.rules else set()
        damaged = replace(step, looks=tuple(sorted(looks)), rules=tuple(sorted(rules)))
        mine = audit_step(WalkStep(damaged, position.board)).proof is Answer.PROVED
        assert mine is audit(damaged, position.board)

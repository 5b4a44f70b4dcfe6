"""Diagnosis and walkthrough say no more than the witnesses establish together."""

from __future__ import annotations

import pytest

from grader.board.layout import layout_of
from grader.grading.replay import Outcome, Replay
from tests.evidence.stand_ins import NONE, ONE, SOLUTION, saying
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import SolutionCount
from verifier.diagnosis.repairs.proof import prove
from verifier.diagnosis.search_budget import SearchBudget
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop
from verifier.walkthrough.work import work_through


@pytest.fixture(autouse=True)
def _stuck(monkeypatch: pytest.MonkeyPatch) -> None:
    """The replay gets nowhere, so that all hangs on the recount."""

    def stuck(puzzle: Puzzle, **_: object) -> Replay:
        return Replay(layout_of(puzzle), Outcome.STUCK, None, ())

    monkeypatch.setattr("grader.grading.replay.replay", stuck)


def recount_says(patch: pytest.MonkeyPatch, *solutions: Filling, stop: Stop = Stop.FINISHED) -> None:
    patch.setattr("verifier.recount.recount.recount_solutions", saying(*solutions, stop=stop))


def test_a_repair_is_proved_only_where_the_recount_agrees(monkeypatch: pytest.MonkeyPatch) -> None:
    proof = prove(ONE, SearchBudget())
    assert proof is not None
    assert (proof.witness, proof.solution) == ("clingo", SOLUTION)
    recount_says(monkeypatch)
    assert prove(ONE, SearchBudget()) is None
    recount_says(monkeypatch, SOLUTION, stop=Stop.BUDGET)
    assert prove(ONE, SearchBudget()) is None


def test_a_diagnosis_of_no_solution_needs_a_second_witness(monkeypatch: pytest.MonkeyPatch) -> None:
    assert diagnose(NONE, 1.0).count is SolutionCount.NONE
    recount_says(monkeypatch, stop=Stop.BUDGET)
    assert diagnose(NONE, 1.0).count is SolutionCount.UNKNOWN
    recount_says(monkeypatch, SOLUTION)
    assert diagnose(NONE, 1.0).count is SolutionCount.UNKNOWN


def test_a_walk_claims_one_solution_only_where_the_recount_came_to_its_end(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert work_through(ONE).sound
    recount_says(monkeypatch, SOLUTION, stop=Stop.BUDGET)
    told = work_through(ONE)
    assert (told.sound, told.tally.complete, told.grade) == (False, False, None)


def test_nothing_is_walked_where_the_witnesses_disagree(monkeypatch: pytest.MonkeyPatch) -> None:
    recount_says(monkeypatch)
    with pytest.raises(RuntimeError, match="do not agree about 'one'"):
        work_through(ONE)

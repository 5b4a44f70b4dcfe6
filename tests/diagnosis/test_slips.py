"""Slips of the pen: the true repair is offered, and whatever is offered works."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest

from grader.grading.replay import Outcome, Replay, replay
from scripts.slips.slip import SLIPS
from tests.diagnosis.backtracking import count_plainly
from tests.diagnosis.puzzles import sound
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.findings import Diagnosis, SolutionCount
from verifier.diagnosis.repairs.changes import CellMove, RuleChange, changed, given_change, total_change
from verifier.diagnosis.repairs.mends import Kind, Mend
from verifier.diagnosis.repairs.proof import prove
from verifier.diagnosis.repairs.slips import exchanges
from verifier.diagnosis.search_budget import OutOfBudgetError, SearchBudget
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

FOUR = Grid.square(4)


def slipped(kind: str, number: int) -> tuple[Diagnosis, int | None]:
    """A diagnosis of a sound 6x6 killer after one slip, and the rank of the true repair."""
    puzzle, solution = sound(12)[number % 8]
    random = Random(number)
    while True:
        slip = SLIPS[kind](puzzle, solution, random)
        if count_plainly(slip.puzzle, 2) != 1:  # else nobody can see it
            break
    found = diagnose(slip.puzzle, seconds=8)
    ranks = [
        n for n, mend in enumerate(found.mends, start=1) if changed(slip.puzzle, mend.changes) == slip.meant
    ]
    return found, ranks[0] if ranks else None


@pytest.mark.parametrize("kind", SLIPS)
@pytest.mark.parametrize("number", range(5))
def test_the_true_repair_is_among_the_first_three(kind: str, number: int) -> None:
    _, rank = slipped(kind, number)
    assert rank is not None
    assert rank <= 3


@pytest.mark.parametrize("kind", SLIPS)
def test_whatever_is_offered_leaves_one_solution_by_a_plain_search(kind: str) -> None:
    found, _ = slipped(kind, 6)
    assert found.mends
    for mend in found.mends:
        assert count_plainly(changed(found.puzzle, mend.changes), 2) == 1


def test_a_repair_that_keeps_the_solution_in_the_file_comes_first() -> None:
    """Two givens clash, and each of them can be the wrong one: the file's solution decides."""
    puzzle, solution = sound(12)[0]
    clash = puzzle.having(Given, [Given(0, solution[1]), Given(1, solution[1])])
    without, with_claim = diagnose(clash), diagnose(replace(clash, solution=solution))
    assert len(without.mends) >= 2 or with_claim.mends
    assert with_claim.mends[0].keeps_claim
    assert with_claim.mends[0].changes == (given_change(0, solution[1], solution[0]),)


def test_several_faults_are_put_right_at_once_where_the_file_brings_the_solution() -> None:
    puzzle, solution = sound(12)[1]
    one, other, third = puzzle.cages[0], puzzle.cages[3], puzzle.cages[5]
    off = [total_change(cage, cage.total + 1) for cage in (one, other, third)]
    found = diagnose(replace(changed(puzzle, off), solution=solution), seconds=5)
    assert found.mends[0].kind is Kind.CLAIM
    assert changed(found.puzzle, found.mends[0].changes).cages == puzzle.cages


def test_two_slips_are_mended_by_two_changes() -> None:
    puzzle, _ = sound(12)[0]
    one, other = puzzle.cages[0], puzzle.cages[-1]
    broken = changed(puzzle, [total_change(one, one.total + 1), total_change(other, other.total - 2)])
    found = diagnose(broken)
    assert found.count is SolutionCount.NONE
    back = {
        total_change(Cage(c.cells, t), c.total) for c, t in ((one, one.total + 1), (other, other.total - 2))
    }
    assert any(set(mend.changes) == back for mend in found.mends) or _one_change_does(found)


def _one_change_does(found: Diagnosis) -> bool:
    return all(len(mend.changes) == 1 for mend in found.mends) and bool(found.mends)


@pytest.mark.parametrize(
    ("old", "new", "slip"),
    [(12, 13, 0), (13, 12, 0), (12, 21, 0), (12, 17, 1), (12, 32, 1), (12, 1, 1), (1, 11, 1), (12, 20, 2)],
)
def test_typing_slips_are_nearest(old: int, new: int, slip: int) -> None:
    assert total_change(Cage((0, 1, 2, 3), old), new).nearness[0] == slip


def test_a_move_is_as_far_as_any_other_move() -> None:
    assert CellMove(0, None, None).nearness == (2, 0)


# Proofs


def test_a_proof_needs_exactly_one_solution() -> None:
    puzzle, solution = sound(12)[0]
    proof = prove(puzzle, SearchBudget())
    assert proof is not None
    assert proof.solution == solution
    assert (
        prove(changed(puzzle, [total_change(puzzle.cages[0], puzzle.cages[0].total + 1)]), SearchBudget())
        is None
    )
    assert prove(make_puzzle("classic", FOUR, givens={0: 1}), SearchBudget()) is None


def test_where_logic_gets_stuck_a_second_count_is_the_witness(monkeypatch: pytest.MonkeyPatch) -> None:
    puzzle, solution = sound(12)[0]
    stuck = replay_that_gets_stuck(puzzle)
    monkeypatch.setattr("grader.grading.replay.replay", lambda *_, **__: stuck)
    proof = prove(puzzle, SearchBudget())
    assert proof is not None
    assert (proof.witness, proof.solution, proof.by_trial) == ("clingo", solution, True)


def test_witnesses_that_disagree_prove_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    puzzle, solution = sound(12)[0]
    wrong: Filling = tuple(reversed(solution))
    lying = replace(replay_that_gets_stuck(puzzle), outcome=Outcome.SOLVED, filling=wrong)
    monkeypatch.setattr("grader.grading.replay.replay", lambda *_, **__: lying)
    assert prove(puzzle, SearchBudget()) is None


def replay_that_gets_stuck(puzzle: Puzzle) -> Replay:
    return replay(puzzle, trial=False, ladder=())


# The budget


def test_a_spent_budget_allows_nothing() -> None:
    budget = SearchBudget(0.0001)
    budget.count(make_puzzle("classic", FOUR), 2)
    with pytest.raises(OutOfBudgetError):
        budget.count(make_puzzle("classic", FOUR), 2)


def test_what_a_count_costs_is_the_same_every_time() -> None:
    costs = []
    for _ in range(2):
        budget = SearchBudget(10)
        budget.count(sound(12)[0][0], 2)
        costs.append(budget.left)
    assert costs[0] == costs[1] < 10


def test_a_diagnosis_that_runs_out_says_so_and_keeps_what_it_found() -> None:
    puzzle, _ = sound(12)[0]
    broken = changed(puzzle, [total_change(puzzle.cages[2], puzzle.cages[2].total + 1)])
    found = diagnose(broken, seconds=0.05)
    assert found.cut_short
    assert found.findings[0].code == "no-solution"
    assert found.findings[-1].code == "cut-short"


def test_a_diagnosis_is_the_same_every_time() -> None:
    found = [slipped("total", 3)[0] for _ in range(2)]
    assert found[0].findings == found[1].findings
    assert found[0].mends == found[1].mends


def test_two_totals_are_exchanged_where_each_can_be_made_the_nearest_first(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    tried: list[tuple[int, int]] = []

    def noting(
        _puzzle: Puzzle, kind: Kind, changes: list[RuleChange], _budget: SearchBudget
    ) -> Iterator[Mend]:
        assert kind is Kind.EXCHANGE
        one, other = (change.gone[0].figure for change in changes)
        assert [change.come[0].figure for change in changes] == [other, one]
        tried.append((one, other))
        return iter(())

    monkeypatch.setattr("verifier.diagnosis.repairs.slips.proved", noting)
    cages = [Cage((0, 1), 3), Cage((18, 19), 10), Cage((36, 37), 5), Cage((80,), 8), Cage((54, 55), 5)]
    puzzle = make_puzzle("killer", Grid.square(9), cages=cages)
    assert list(exchanges(puzzle, lambda both: cages[4] not in both, SearchBudget(1.0))) == []
    assert tried == [(3, 5), (5, 8), (3, 8), (10, 5), (3, 10)]  # no cell by itself makes 10
    tried.clear()
    assert list(exchanges(puzzle, lambda both: set(both) <= {cages[2], cages[4]}, SearchBudget(1.0))) == []
    assert tried == []  # there is nothing to exchange between 5 and 5

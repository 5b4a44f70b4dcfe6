"""What the witnesses say as they are asked, what it comes to, and what becomes of it when it is ended."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import count as numbers

import pytest

from grader.grading.replay import Outcome
from tests.evidence.stand_ins import NONE, ONE, SOLUTION, TWO, failing, replay_ending, saying, witnesses_but
from verifier.counting.count import count_solutions
from verifier.evidence.establish import ask_witnesses, count, establish, weigh
from verifier.evidence.statements import RECOUNT, Statement, ask_count, ask_replay
from verifier.evidence.witnesses import Witnesses
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.tally import Stop

EMPTY = make_puzzle("classic", Grid.square(9))
"""Nobody comes to the end of its solutions."""

STUCK = witnesses_but(replay=replay_ending(Outcome.STUCK))


def after_looks(looks: int) -> Callable[[], bool]:
    """Return what says "ended" once it has been looked at so many times."""
    seen = numbers()
    return lambda: next(seen) >= looks


# Who is asked, in which order


@pytest.mark.parametrize(
    ("puzzle", "witnesses", "order"),
    [
        (ONE, Witnesses.real(), ["cp-sat", "replay"]),
        (NONE, Witnesses.real(), ["cp-sat", "replay"]),
        (TWO, Witnesses.real(), ["cp-sat"]),
        (ONE, STUCK, ["cp-sat", "replay", "clingo"]),
        (NONE, STUCK, ["cp-sat", "replay", "clingo"]),
        (replace(ONE, solution=SOLUTION), STUCK, ["cp-sat", "the solution in the file", "replay", "clingo"]),
        (ONE, witnesses_but(count=saying(stop=Stop.BUDGET)), ["cp-sat"]),
        (ONE, witnesses_but(count=failing), ["cp-sat"]),
        (ONE, witnesses_but(replay=replay_ending(Outcome.CONTRADICTION)), ["cp-sat", "replay", "clingo"]),
    ],
)
def test_what_is_said_comes_in_the_order_of_the_protocol(
    puzzle: Puzzle, witnesses: Witnesses, order: list[str]
) -> None:
    assert [said.witness for said in ask_witnesses(puzzle, witnesses=witnesses)] == order


def test_nobody_is_asked_before_their_turn() -> None:
    answers = ask_witnesses(ONE, witnesses=witnesses_but(replay=failing))
    assert next(answers).only_solution == SOLUTION
    assert "failed" in next(answers).trouble


@pytest.mark.parametrize("puzzle", [ONE, NONE])
@pytest.mark.parametrize("witnesses", [Witnesses.real(), STUCK])
def test_one_and_none_are_decided_by_the_last_that_is_said_and_not_before(
    puzzle: Puzzle, witnesses: Witnesses
) -> None:
    said = list(ask_witnesses(puzzle, witnesses=witnesses))
    assert [weigh(puzzle, said[: number + 1]).decided for number in range(len(said))] == [
        *(False for _ in said[1:]),
        True,
    ]


def test_the_statement_of_the_replay_brings_the_replay_for_whoever_waits_for_the_grade() -> None:
    _, replayed = ask_witnesses(ONE)
    assert replayed.replay is not None
    assert replayed.replay.filling == SOLUTION
    assert establish(ONE).replay is not None


def test_what_each_witness_spent_comes_back() -> None:
    counted, replayed = ask_witnesses(ONE)
    assert counted.spent == count_solutions(ONE).spent
    assert count(EMPTY, 100).spent > 0  # what presolving ends costs nothing that is counted
    assert replayed.replay is not None
    assert replayed.spent == len(replayed.replay.rounds) > 0
    hard = ask_count(RECOUNT, Witnesses.real().recount, EMPTY, 10**6, WorkAllowance(conflicts=50))
    assert (hard.stop, hard.spent) == (Stop.BUDGET, 50)


def test_each_witness_has_its_own_limit_of_work() -> None:
    assert count(EMPTY, 10**6, WorkAllowance(work=0.01)).stop is Stop.BUDGET
    said = list(ask_witnesses(ONE, allowance=WorkAllowance(trial=False), witnesses=STUCK))
    assert [statement.stop for statement in said] == [Stop.FINISHED, Stop.BUDGET, Stop.FINISHED]


# Ended from outside


def test_whoever_has_ended_it_before_it_began_asks_nobody() -> None:
    nobody = Witnesses(failing, failing, failing)
    (said,) = ask_witnesses(ONE, allowance=WorkAllowance(ended=lambda: True), witnesses=nobody)
    assert (said.witness, said.stop, said.trouble) == ("cp-sat", Stop.ENDED, "")


@pytest.mark.parametrize("answers", [1, 2])
@pytest.mark.parametrize("puzzle", [ONE, NONE])
def test_what_is_ended_between_two_witnesses_is_undecided_and_provisional(
    puzzle: Puzzle, answers: int
) -> None:
    ended, said = [False], list[Statement]()
    for statement in ask_witnesses(puzzle, allowance=WorkAllowance(ended=lambda: ended[0]), witnesses=STUCK):
        said.append(statement)
        ended[0] = len(said) >= answers
    evidence = weigh(puzzle, said)
    assert Stop.ENDED in [statement.stop for statement in said]
    assert (evidence.decided, evidence.provisional, evidence.sound) == (False, True, False)
    assert "was ended early" in evidence.checks[0].says


def test_what_is_ended_when_all_is_said_is_as_good_as_ever() -> None:
    ended = [False]
    said = []
    for statement in ask_witnesses(ONE, allowance=WorkAllowance(ended=lambda: ended[0])):
        said.append(statement)
        ended[0] = len(said) >= 2
    assert weigh(ONE, said).sound


@pytest.mark.parametrize("name", ["count", "recount"])
def test_a_search_is_ended_in_its_midst(name: str) -> None:
    allowance = WorkAllowance(seconds=600, work=1e6, conflicts=10**9, ended=after_looks(3))
    said = ask_count(name, getattr(Witnesses.real(), name), EMPTY, 10**6, allowance)
    assert (said.stop, said.complete) == (Stop.ENDED, False)


@pytest.mark.parametrize("looks", [1, 2, 5])
def test_a_replay_is_ended_in_its_midst(looks: int) -> None:
    said = ask_replay(Witnesses.real().replay, ONE, True, WorkAllowance(ended=after_looks(looks)))
    assert (said.stop, said.solutions, said.proves) == (Stop.ENDED, (), False)


@pytest.mark.parametrize("witnesses", [Witnesses.real(), STUCK])
@pytest.mark.parametrize("puzzle", [ONE, NONE, TWO])
@pytest.mark.parametrize("looks", range(8))
def test_wherever_it_is_ended_no_number_of_solutions_is_wrong(
    puzzle: Puzzle, witnesses: Witnesses, looks: int
) -> None:
    evidence = establish(puzzle, allowance=WorkAllowance(ended=after_looks(looks)), witnesses=witnesses)
    true = {"one": 1, "two": 2, "none": 0}[puzzle.credits.id or ""]
    assert evidence.count == true if evidence.decided else evidence.provisional


def test_a_count_that_was_ended_vouches_for_nothing_whatever_the_solver_says() -> None:
    """The search was through before anybody looked; but then a search that was stopped may look the same."""
    assert count_solutions(ONE, allowance=WorkAllowance(ended=lambda: True)).stop is Stop.ENDED

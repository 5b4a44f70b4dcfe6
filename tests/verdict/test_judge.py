"""What a verdict rests on: who is asked, in which order, and what leaves a puzzle undecided."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest

from grader.grading.replay import Outcome, Replay, replay
from tests.evidence.stand_ins import (
    NONE,
    ONE,
    OTHER,
    SOLUTION,
    TWO,
    codes,
    failing,
    judged,
    replay_by_trial,
    replay_ending,
    saying,
    says,
    witnesses_but,
)
from tests.reference import load, puzzle_of
from verifier.counting.count import count_solutions
from verifier.evidence.witnesses import Replayer, Witnesses
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Stop, Tally
from verifier.verdict.judge import Settings, identity_of, judge, lost
from verifier.verdict.verdict import VerdictState


def test_a_sound_puzzle_is_accepted_on_the_word_of_the_count_and_the_replay() -> None:
    verdict = judge(ONE)
    assert codes(verdict) == ["accepted"]
    assert says(verdict) == {"cp-sat": 1, "replay": 1}
    assert verdict.solutions.grid == ((1, 2, 3, 4), (3, 4, 1, 2), (2, 1, 4, 3), (4, 3, 2, 1))


def test_a_puzzle_with_two_solutions_is_rejected_with_both_grids_and_its_swing_cells() -> None:
    verdict = judge(TWO)
    assert codes(verdict) == ["rejected", "several-solutions"]
    assert says(verdict) == {"cp-sat": 2, "re-check": 2}
    first, second = verdict.solutions.examples
    assert first != second
    swing = ("r1c1", "r1c2", "r2c1", "r2c2", "r3c1", "r3c2", "r4c1", "r4c2")
    assert verdict.solutions.swing_cells == swing
    assert f"differ in {', '.join(swing[:-1])} and {swing[-1]}." in verdict.reasons[0].says
    assert (verdict.solutions.count, verdict.solutions.complete) == (2, False)


def test_counting_further_tells_how_many_there_are_in_all() -> None:
    verdict = judge(TWO, settings=Settings(limit=3))
    assert (verdict.solutions.count, verdict.solutions.complete) == (2, True)
    assert "exactly 2 solutions" in verdict.reasons[0].says


def test_several_solutions_need_no_replay() -> None:
    def never(*_: object) -> Replay:
        raise AssertionError

    assert codes(judged(TWO, replay=never))[0] == "rejected"


def test_none_needs_a_contradiction_by_logic() -> None:
    verdict = judge(NONE)
    assert codes(verdict) == ["rejected", "no-solution"]
    assert says(verdict) == {"cp-sat": 0, "replay": 0}


def test_none_is_replayed_without_trial() -> None:
    trials = []

    def noting(puzzle: Puzzle, trial: bool, _: WorkAllowance) -> Replay:
        trials.append(trial)
        return replay(puzzle, trial=trial)

    judged(NONE, replay=noting)
    assert trials == [False]


@pytest.mark.parametrize(("puzzle", "count"), [(ONE, 1), (NONE, 0)])
def test_where_the_replay_gets_stuck_the_recount_is_asked(puzzle: Puzzle, count: int) -> None:
    verdict = judged(puzzle, replay=replay_ending(Outcome.STUCK))
    assert says(verdict) == {"cp-sat": count, "clingo": count}


@pytest.mark.reference
def test_a_replay_that_needs_trial_is_no_witness_but_grades() -> None:
    record = next(r for r in load("classic_hard") if r["id"] == "classic-plb2-02")
    verdict = judge(puzzle_of(record))
    assert verdict.difficulty is not None
    assert verdict.difficulty.solved_by_logic is False
    assert says(verdict) == {"cp-sat": 1, "clingo": 1}


def test_an_impossible_total_is_no_solution_by_arithmetic_and_nobody_is_asked() -> None:
    verdict = judged(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 9)]), count=failing)
    assert codes(verdict)[0] == "rejected"
    assert says(verdict) == {"arithmetic": 0}
    assert (verdict.solutions.count, verdict.solutions.complete) == (0, True)


def test_every_arithmetic_fault_is_a_reason() -> None:
    verdict = judge(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 9)], givens={4: 1, 5: 1}))
    assert len(verdict.reasons) >= 2
    assert {reason.code for reason in verdict.reasons} == {c.code for c in verdict.checks if not c.passed}


@pytest.mark.parametrize("end", [Stop.BUDGET, Stop.CLOCK])
@pytest.mark.parametrize("found", [(), (SOLUTION,)])
def test_a_count_that_did_not_finish_proves_nothing(end: Stop, found: tuple[tuple[int, ...], ...]) -> None:
    verdict = judged(ONE, count=saying(*found, stop=end))
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert (verdict.solutions.count, verdict.solutions.complete) == (len(found), False)
    assert verdict.solutions.grid is None
    assert verdict.difficulty is None


@pytest.mark.parametrize(("end", "provisional"), [(Stop.BUDGET, False), (Stop.CLOCK, True)])
def test_only_the_clock_makes_a_verdict_provisional(end: Stop, provisional: bool) -> None:
    assert judged(ONE, count=saying(stop=end)).provisional is provisional


@pytest.mark.parametrize("end", [Stop.BUDGET, Stop.CLOCK])
def test_a_recount_that_did_not_finish_leaves_one_witness_too_few(end: Stop) -> None:
    verdict = judged(ONE, replay=replay_ending(Outcome.STUCK), recount=saying(stop=end))
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert verdict.provisional is (end is Stop.CLOCK)


def out_of_memory(*_: object) -> Any:
    raise MemoryError


@pytest.mark.parametrize("cut", [replay_ending(Outcome.CLOCK), out_of_memory])
def test_no_solution_is_provisional_where_the_replay_was_cut_and_the_recount_asked_instead(
    cut: Replayer,
) -> None:
    verdict = judged(NONE, replay=cut)
    assert codes(verdict) == ["rejected", "no-solution"]
    assert says(verdict) == {"cp-sat": 0, "clingo": 0}
    assert verdict.provisional


@pytest.mark.parametrize("cut", [replay_ending(Outcome.CLOCK), out_of_memory])
def test_a_replay_that_was_cut_makes_provisional_what_the_recounts_own_budget_ends(cut: Replayer) -> None:
    verdict = judged(ONE, replay=cut, recount=saying(stop=Stop.BUDGET))
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert verdict.provisional
    assert "working it through as a person does ran out of time or memory" in verdict.reasons[0].says


def test_a_disagreement_is_provisional_where_a_witness_was_cut() -> None:
    assert judged(NONE, replay=replay_ending(Outcome.CLOCK), recount=failing).provisional
    assert not judged(NONE, replay=replay_ending(Outcome.STUCK), recount=failing).provisional


# Who may be the second witness


@pytest.mark.parametrize("stop", [Stop.BUDGET, Stop.CLOCK])
@pytest.mark.parametrize(
    ("puzzle", "found", "replayed"),
    [
        (ONE, (SOLUTION,), replay_by_trial(SOLUTION)),
        (ONE, (SOLUTION,), replay_ending(Outcome.STUCK)),
        (NONE, (), replay_by_trial(None)),
        (NONE, (), replay_ending(Outcome.STUCK)),
    ],
)
def test_neither_trial_nor_a_recount_that_was_not_finished_is_a_second_witness(
    puzzle: Puzzle, found: tuple[Filling, ...], replayed: Replayer, stop: Stop
) -> None:
    verdict = judged(puzzle, replay=replayed, recount=saying(*found, stop=stop))
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert says(verdict) == {"cp-sat": len(found), "clingo": None}
    assert (verdict.solutions.grid, verdict.solutions.complete) == (None, False)


@pytest.mark.parametrize(("puzzle", "filling", "count"), [(ONE, SOLUTION, 1), (NONE, None, 0)])
def test_where_the_replay_needs_trial_the_recount_is_the_second_witness(
    puzzle: Puzzle, filling: Filling | None, count: int
) -> None:
    assert says(judged(puzzle, replay=replay_by_trial(filling))) == {"cp-sat": count, "clingo": count}


@pytest.mark.parametrize("filling", [SOLUTION, None])
def test_a_replay_by_trial_can_still_contradict(filling: Filling | None) -> None:
    puzzle, found = (NONE, ()) if filling else (ONE, (SOLUTION,))
    claimed = saying(*found)  # of a puzzle without a solution no grid of the replay obeys the rules
    verdict = judged(puzzle, count=claimed, replay=replay_by_trial(filling), recount=claimed)
    assert codes(verdict) == ["undecided", "witnesses-disagree"]


def test_where_the_replay_vouches_the_recount_is_not_asked() -> None:
    assert codes(judged(ONE, recount=failing)) == ["accepted"]


# Who an undecided verdict names, and what it shows


@pytest.mark.parametrize(
    ("others", "named"),
    [
        ({"count": saying(stop=Stop.BUDGET)}, {"cp-sat": None}),
        ({"count": failing}, {"cp-sat": None}),
        ({"replay": replay_ending(Outcome.CLOCK)}, {"cp-sat": 1, "clingo": 1}),
        ({"replay": replay_ending(Outcome.CONTRADICTION)}, {"cp-sat": 1, "replay": 0, "clingo": 1}),
        ({"replay": replay_ending(Outcome.SOLVED, OTHER)}, {"cp-sat": 1, "replay": None, "clingo": 1}),
        ({"replay": replay_ending(Outcome.STUCK), "recount": saying()}, {"cp-sat": 1, "clingo": 0}),
        ({"replay": replay_ending(Outcome.STUCK), "recount": failing}, {"cp-sat": 1, "clingo": None}),
    ],
)
def test_an_undecided_verdict_names_every_witness_asked(
    others: dict[str, object], named: dict[str, int | None]
) -> None:
    verdict = judged(ONE, **others)
    assert verdict.state is VerdictState.UNDECIDED
    assert says(verdict) == named


@pytest.mark.parametrize("witness", ["count", "replay", "recount"])
def test_a_grid_that_breaks_the_rules_is_never_among_the_examples(witness: str) -> None:
    lies: dict[str, Any] = {"replay": replay_ending(Outcome.STUCK)}
    lies[witness] = replay_ending(Outcome.SOLVED, OTHER) if witness == "replay" else saying(SOLUTION, OTHER)
    verdict = judged(ONE, **lies)
    assert codes(verdict) == ["undecided", "witnesses-disagree"]
    assert (verdict.solutions.examples, verdict.solutions.swing_cells) == ((), ())


def test_a_refused_grid_is_told_with_the_rule_that_it_breaks() -> None:
    verdict = judged(ONE, count=saying(OTHER))
    told = "proved: the solver shows a grid that breaks column 3. That is a fault of gridproof"
    assert told in verdict.reasons[0].says
    refused = Tally("liar", (), Stop.REFUSED, refused=OTHER)
    assert judged(ONE, count=lambda *_: refused).reasons == verdict.reasons


def test_a_witness_that_is_asked_late_still_has_a_moment() -> None:
    given = []

    def noting(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
        given.append(allowance.seconds)
        return count_solutions(puzzle, limit)

    def stuck(puzzle: Puzzle, trial: bool, allowance: WorkAllowance) -> Replay:
        given.append(allowance.seconds)
        return replay_ending(Outcome.STUCK)(puzzle, trial, allowance)

    late = Settings(seconds=-1, witnesses=Witnesses(noting, stuck, noting))
    assert codes(judge(ONE, settings=late)) == ["accepted"]
    assert given == [0.1, 0.1, 0.1]


# The clock


def test_a_sound_puzzle_whose_replay_the_clock_ended_is_undecided_for_want_of_a_grade() -> None:
    verdict = judged(ONE, replay=replay_ending(Outcome.CLOCK))
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert verdict.provisional
    assert verdict.solutions.count == 1


def test_two_grids_in_time_prove_several_even_if_the_clock_ends_the_count() -> None:
    both = count_solutions(TWO).solutions
    verdict = judged(TWO, count=saying(*both, stop=Stop.CLOCK))
    assert codes(verdict) == ["rejected", "several-solutions"]
    assert verdict.provisional  # how many there are in all is still open


def test_running_out_of_memory_is_a_limit_and_provisional() -> None:
    def hungry(*_: object) -> Tally:
        raise MemoryError

    verdict = judged(ONE, count=hungry)
    assert codes(verdict) == ["undecided", "limit-reached"]
    assert verdict.provisional


@pytest.mark.parametrize(
    "others",
    [
        {"replay": replay_ending(Outcome.CONTRADICTION)},
        {"replay": replay_ending(Outcome.SOLVED, OTHER)},
        {"replay": replay_ending(Outcome.SOLVED)},
        {"replay": replay_ending(Outcome.STUCK), "recount": saying()},
        {"replay": replay_ending(Outcome.STUCK), "recount": failing},
        {"replay": replay_ending(Outcome.STUCK), "recount": saying(OTHER)},
        {"count": saying()},
        {"count": saying(OTHER)},
        {"count": saying(stop=Stop.REFUSED)},
        {"count": saying(SOLUTION, stop=Stop.ASKED)},
        {"count": saying(SOLUTION, SOLUTION, stop=Stop.ASKED)},
        {"count": failing},
    ],
)
def test_a_witness_that_disagrees_or_fails_leaves_a_sound_puzzle_undecided(others: dict[str, object]) -> None:
    verdict = judged(ONE, **others)
    assert codes(verdict) == ["undecided", "witnesses-disagree"]
    assert verdict.solutions.count is None
    assert verdict.difficulty is None


def test_a_grid_reported_twice_is_one_solution() -> None:
    assert codes(judged(ONE, count=saying(SOLUTION, SOLUTION))) == ["accepted"]


def test_a_disagreement_tells_all_that_was_found() -> None:
    verdict = judged(ONE, replay=replay_ending(Outcome.CONTRADICTION))
    assert verdict.reasons[0].says.startswith(
        "The witnesses do not agree, so nothing is proved: the solver finds exactly one solution; "
        "working it through as a person does finds no solution; the second solver finds exactly one solution."
    )


def test_the_files_own_solution_contradicts_a_count_that_finds_none() -> None:
    verdict = judged(
        replace(ONE, solution=SOLUTION), count=saying(), replay=replay_ending(Outcome.CONTRADICTION)
    )
    assert codes(verdict) == ["undecided", "witnesses-disagree"]
    assert "the solution in the file obeys every rule" in verdict.reasons[0].says


def test_the_files_own_solution_is_no_second_witness() -> None:
    verdict = judged(
        replace(ONE, solution=SOLUTION),
        replay=replay_ending(Outcome.STUCK),
        recount=saying(SOLUTION, stop=Stop.BUDGET),
    )
    assert codes(verdict) == ["undecided", "limit-reached"]


def test_a_solution_that_does_not_fit_is_rejected_with_the_cells_that_differ() -> None:
    verdict = judge(replace(ONE, solution=OTHER))
    assert codes(verdict) == ["rejected", "solution-differs"]
    assert "it differs in r4c3 and r4c4" in verdict.reasons[0].says
    assert verdict.difficulty is not None


def test_a_solution_that_fits_is_a_check_that_passed() -> None:
    verdict = judge(replace(ONE, solution=SOLUTION))
    assert codes(verdict) == ["accepted"]
    assert len(verdict.checks) == len(judge(ONE).checks) + 1


def test_a_broken_puzzle_is_also_told_that_its_solution_breaks_a_rule() -> None:
    assert len(judge(replace(NONE, solution=OTHER)).reasons) == 2


def test_our_own_bugs_are_not_taken_for_a_witness_that_failed() -> None:
    def broken(*_: object) -> Tally:
        raise KeyError

    with pytest.raises(KeyError):
        judged(ONE, count=broken)


def test_a_solver_that_gives_an_error_is_a_witness_that_failed(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> Tally:
        raise RuntimeError("the model is invalid")

    monkeypatch.setattr("verifier.counting.count.count_solutions", refused)
    verdict = judge(ONE)
    assert codes(verdict) == ["undecided", "witnesses-disagree"]
    assert "the solver failed (the model is invalid)" in verdict.reasons[0].says


def test_endless_recursion_is_a_bug_of_ours_not_a_failed_witness(monkeypatch: pytest.MonkeyPatch) -> None:
    def endless(*others: object) -> Tally:
        return endless(*others)

    monkeypatch.setattr("verifier.counting.count.count_solutions", endless)
    with pytest.raises(RecursionError):
        judge(ONE)


def test_the_witnesses_share_the_time_of_a_puzzle() -> None:
    given = []

    def slow(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
        given.append(allowance.seconds)
        time.sleep(0.2)
        return count_solutions(puzzle, limit)

    def noting(puzzle: Puzzle, trial: bool, allowance: WorkAllowance) -> Replay:
        given.append(allowance.seconds)
        return replay(puzzle, trial=trial)

    judge(ONE, settings=Settings(seconds=30, witnesses=witnesses_but(count=slow, replay=noting)))
    assert given[0] <= 30
    assert given[1] <= given[0] - 0.2


def test_fewer_than_two_solutions_cannot_be_asked_for() -> None:
    with pytest.raises(ValueError, match="at least 2"):
        Settings(limit=1)


def test_a_puzzle_whose_worker_died_is_undecided_and_tried_again() -> None:
    verdict = lost(identity_of(ONE))
    assert codes(verdict) == ["undecided", "worker-lost"]
    assert verdict.provisional


def test_the_break_in_is_the_first_step_of_the_hardest_technique() -> None:
    difficulty = judge(ONE).difficulty
    assert difficulty is not None
    assert difficulty.break_in is not None
    assert difficulty.break_in.technique == difficulty.hardest
    assert difficulty.break_in.places or difficulty.break_in.removes


def test_the_break_in_is_told_on_the_board_of_its_round() -> None:
    """Told on the board of any later round, the cage would have 3 so far."""
    givens = {cell: digit for cell, digit in enumerate(SOLUTION) if cell not in (1, 2, 5, 6)}
    puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens=givens)
    difficulty = judge(puzzle).difficulty
    assert difficulty is not None
    assert difficulty.break_in is not None
    assert difficulty.break_in.round == 1
    assert difficulty.break_in.says == "The cage of 3 at r1c1 has 1 so far: r1c2 is 2."

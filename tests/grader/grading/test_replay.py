import math
import time
from dataclasses import replace
from itertools import count

import pytest

from grader.board.board import board_from_text
from grader.board.guard import OutOfTimeError, guarded
from grader.grading.grade import grade
from grader.grading.replay import Outcome, replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from grader.walking.walk import walk
from tests.reference import load, puzzle_of, solution_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

EASY = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}


def four(givens: dict[int, int]) -> Puzzle:
    return make_puzzle("classic", Grid.square(4), givens=givens)


def test_a_solved_replay_gives_the_only_solution() -> None:
    played = replay(four(EASY))
    assert played.outcome is Outcome.SOLVED
    assert played.filling == (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def test_a_puzzle_with_several_solutions_is_never_solved() -> None:
    played = replay(four({0: 1}))
    assert (played.outcome, played.filling) == (Outcome.STUCK, None)


@pytest.mark.parametrize("givens", [{**EASY, 15: 2}, {0: 1, 1: 1}])
def test_a_puzzle_without_a_solution_ends_in_a_contradiction(givens: dict[int, int]) -> None:
    assert replay(four(givens)).outcome is Outcome.CONTRADICTION


def test_cages_that_miss_their_house_end_in_a_contradiction() -> None:
    cages = [Cage((0, 1), 3), Cage((2, 3), 4)]
    assert replay(make_puzzle("killer", Grid.square(4), cages=cages)).outcome is Outcome.CONTRADICTION


@pytest.mark.reference
def test_each_round_is_of_one_technique_and_counts_each_effect_once() -> None:
    played = replay(puzzle_of(load("killer")[0]))
    for number in played.rounds:
        assert {step.technique for step in number.steps} == {number.technique}
        assert len({step.effect for step in number.steps}) == number.width


@pytest.mark.reference
def test_no_round_was_open_to_a_simpler_technique() -> None:
    played = replay(puzzle_of(load("killer")[0]))
    rank = {technique.id: place for place, technique in enumerate(LADDER)}
    for number in played.rounds[:20]:
        fresh = number.board.looking_at(number.board.layout.all_cells)
        simpler = LADDER[: rank[number.technique]]
        assert not [technique.id for technique in simpler if list(technique.find(fresh))]


@pytest.mark.reference
def test_replay_and_record_agree_on_every_killer_of_the_reference() -> None:
    # Killers with one solution, none, and two or more; the count is recorded there.
    for record in (*load("killer"), *load("killer_derived")[::3], *load("generated")[::8]):
        if record["rows"] != 9:
            continue
        played = replay(puzzle_of(record), trial=False)
        if played.outcome is Outcome.SOLVED:
            assert (record["solutions"], played.filling) == (1, solution_of(record))
        if played.outcome is Outcome.CONTRADICTION:
            assert record["solutions"] == 0
        assert played.outcome is Outcome.STUCK or record["solutions"] in (0, 1)


@pytest.mark.reference
def test_every_step_of_the_hard_classics_keeps_the_solution() -> None:
    for record in load("classic_hard")[::6]:
        solution = solution_of(record)
        assert solution is not None
        for number in replay(puzzle_of(record)).rounds:
            for step in number.steps:
                assert all(solution[cell] == digit for cell, digit in step.places)
                assert not any(gone >> solution[cell] & 1 for cell, gone in step.removes)


@pytest.mark.reference
def test_without_trial_the_replay_stops_where_trial_would_begin() -> None:
    hardest = max(load("classic_hard"), key=lambda record: record.get("eta") or 0)
    assert replay(puzzle_of(hardest), trial=False).outcome is Outcome.STUCK


def test_a_deadline_ends_the_replay_and_says_so() -> None:
    assert replay(four(EASY), deadline=time.monotonic() - 1).outcome is Outcome.CLOCK


def test_a_deadline_is_looked_at_inside_a_round(monkeypatch: pytest.MonkeyPatch) -> None:
    empty = make_puzzle("classic", Grid.square(9))
    assert replay(empty, deadline=math.inf).outcome is Outcome.STUCK
    assert walk(empty, deadline=math.inf).outcome is Outcome.STUCK
    for play in (replay, walk):
        ticks = count()  # each look at the clock is a second
        monkeypatch.setattr("grader.board.guard.monotonic", lambda: float(next(ticks)))  # noqa: B023
        assert play(empty, deadline=50.0).outcome is Outcome.CLOCK
        assert next(ticks) == 52


@pytest.mark.parametrize("technique", ["trial", "wide-forcing-chain"])
def test_a_long_search_looks_at_the_clock_before_it_has_found_anything(technique: str) -> None:
    search = next(one for one in LADDER if one.id == technique).find
    with guarded(time.monotonic() - 1), pytest.raises(OutOfTimeError):
        next(iter(search(board_from_text("12 12 123", size=4))))


@pytest.mark.reference
def test_a_second_replay_is_the_same() -> None:
    puzzle = puzzle_of(load("killer")[0])
    first, second = replay(puzzle), replay(puzzle)
    assert [number.steps for number in first.rounds] == [number.steps for number in second.rounds]


def test_the_tier_is_that_of_the_hardest_technique() -> None:
    easy = grade(replay(four(EASY)))
    assert (easy.tier, easy.name, easy.hardest) == (1, "doorstep", "hidden-single-box")
    assert (easy.rounds, easy.steps) == (len(replay(four(EASY)).rounds), sum(easy.by_technique.values()))


@pytest.mark.reference
def test_the_break_in_is_the_first_step_of_the_hardest_technique() -> None:
    played = replay(puzzle_of(load("killer")[0]))
    graded = grade(played)
    assert graded.break_in is not None
    first = next(n for n, number in enumerate(played.rounds, 1) if number.technique == graded.hardest)
    assert graded.break_in.round == first
    assert graded.break_in.step in played.rounds[first - 1].steps


def test_a_full_grid_needs_no_step() -> None:
    filling = replay(four(EASY)).filling
    assert filling is not None
    full = grade(replay(four(dict(enumerate(filling)))))
    assert (full.tier, full.hardest, full.break_in, full.effort) == (1, None, None, 0)


def test_a_stuck_replay_is_graded_as_needing_trial() -> None:
    stuck = grade(replay(four({0: 1, 5: 2})))
    assert (stuck.tier, stuck.solved_by_logic) == (7, False)


def test_many_steps_or_a_long_bottleneck_lift_a_tier_by_one_and_never_into_the_last() -> None:
    table = default_tiers()
    for technique, tier in table.tier_of.items():
        lifted = min(tier + 1, 6) if tier < 7 else 7
        assert table.tier(technique, 0, 0) == tier
        assert table.tier(technique, table.steps_per_cell + 1, 0) == lifted
        assert table.tier(technique, 0, table.bottleneck_rounds + 1) == lifted


@pytest.mark.parametrize(
    ("steps_per_cell", "bottlenecks", "why"),
    [
        (0.0, 0, ""),
        (9.0, 0, "one tier up, because it takes 40 steps"),
        (0.0, 99, "one tier up, because in 99 rounds only one or two steps are open"),
    ],
)
def test_a_grade_says_why_it_is_above_the_tier_of_its_hardest_technique(
    steps_per_cell: float, bottlenecks: int, why: str
) -> None:
    lift = default_tiers().lift("naked-pair", steps_per_cell, bottlenecks)
    found = replace(grade(replay(four(EASY))), steps=40, bottleneck_rounds=bottlenecks, lift=lift)
    assert found.why_lifted == why


def test_every_technique_has_a_tier_and_only_trial_the_last() -> None:
    table = default_tiers()
    assert set(table.tier_of) == {technique.id for technique in LADDER}
    assert table.tier_of[LADDER[0].id] == 1
    assert [t.id for t in LADDER if table.tier_of[t.id] == 7] == ["trial"] == [LADDER[-1].id]


def test_a_house_style_may_rename_tiers() -> None:
    renamed = default_tiers().renamed({1: "a stroll"})
    assert grade(replay(four(EASY)), renamed).name == "a stroll"
    assert replace(renamed, names=default_tiers().names) == default_tiers()

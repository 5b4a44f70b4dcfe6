"""What the search rests on: solutions that refute candidates, a look at each, and what counts as nearer."""

from __future__ import annotations

import time
from dataclasses import replace
from itertools import combinations

import pytest

from grader.grading.grade import grade
from grader.grading.replay import Outcome, replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from tests.corpus.puzzles import puzzle_at
from tests.diagnosis.puzzles import sound
from verifier.counting.count import count_solutions
from verifier.diagnosis.repairs.changes import changed
from verifier.puzzle.puzzle import make_puzzle
from verifier.tuning.answers import JudgingTask, answer_to
from verifier.tuning.neighbours.moves import moves
from verifier.tuning.search.aim import Aim, aim_from
from verifier.tuning.search.looking import Ceiling, Look, LookingTask, look_at
from verifier.tuning.search.other_solutions import OtherSolutions
from verifier.tuning.wish import Wish

PUZZLE, SOLUTION = sound(12)[1]
TIERS = default_tiers()


def test_what_is_refuted_has_several_solutions() -> None:
    known = OtherSolutions(PUZZLE)
    every = list(moves(PUZZLE, SOLUTION, most_givens=1))
    for move in every:
        candidate = changed(PUZZLE, move)
        known.add(candidate, [f for f in count_solutions(candidate, 8).solutions if f != SOLUTION])
    pairs = [(a, b) for a, b in combinations(every, 2) if not {*a[0].gone} & {*b[0].gone}][::37]
    twice = [changed(PUZZLE, (*one, *other)) for one, other in pairs]
    refuted = [candidate for candidate in twice if known.refute(candidate)]
    assert len(refuted) > len(twice) / 10
    assert all(count_solutions(candidate).count == 2 for candidate in refuted)


def test_another_solution_refutes_nothing_that_it_does_not_solve() -> None:
    known = OtherSolutions(PUZZLE)
    without = PUZZLE.changed(PUZZLE.cages)
    known.add(without, count_solutions(without).solutions[:1])
    assert known.refute(without)
    assert not any(known.refute(PUZZLE.changed([cage])) for cage in PUZZLE.cages)


def looked(tier: int, path: str = "killers/fog-signal.yaml") -> Look:
    puzzle = puzzle_at(path)
    (solution,) = count_solutions(puzzle).solutions
    return look_at(LookingTask(puzzle, solution, Ceiling(TIERS, tier), time.time() + 600))


def test_a_look_grades_as_the_verdict_does_where_it_needs_more_than_easy_techniques() -> None:
    puzzle = puzzle_at("killers/fog-signal.yaml")
    assert grade(replay(puzzle)).tier > 3
    assert looked(TIERS.last).grade == grade(replay(puzzle))


def test_a_look_goes_no_further_than_the_ceiling() -> None:
    look = looked(2)
    assert (look.unique, look.grade) == (True, None)
    assert look.open > 0


def test_a_look_shows_other_solutions() -> None:
    empty = make_puzzle("classic", PUZZLE.grid)
    look = look_at(LookingTask(empty, SOLUTION, Ceiling(TIERS, 3), time.time() + 600))
    assert not look.unique
    assert len(look.others) > 1
    assert SOLUTION not in look.others


def test_a_replay_that_goes_on_ends_as_one_from_the_givens() -> None:
    puzzle = puzzle_at("killers/fog-signal.yaml")
    begun = replay(puzzle, ladder=[t for t in LADDER if TIERS.tier_of[t.id] <= 3])
    assert begun.outcome is Outcome.STUCK
    whole, on = replay(puzzle), replay(puzzle, begun=begun)
    assert [(each.technique, each.steps) for each in on.rounds] == [
        (e.technique, e.steps) for e in whole.rounds
    ]
    assert on.filling == whole.filling is not None


def aim(wish: Wish) -> Aim:
    return aim_from(answer_to(JudgingTask((), PUZZLE, wish, time.time() + 600)), wish)


@pytest.mark.parametrize(("tier", "lean"), [(1, -1), (2, 0), (3, 1)])
def test_a_wish_leans_to_easier_or_harder_puzzles(tier: int, lean: int) -> None:
    assert aim(Wish(tiers=(tier,))).lean == lean


def test_from_a_candidate_that_is_past_the_wish_it_goes_back() -> None:
    harder = aim(Wish(tiers=(1,)))
    assert harder.lean == -1
    assert Aim(Wish(tiers=(3,)), -1, harder.ceiling, harder.effort).lean_from(PUZZLE, _seen()) == 1
    assert harder.lean_from(PUZZLE, Look(True, None, open=0.5)) == -1


def _seen() -> Look:
    return look_at(LookingTask(PUZZLE, SOLUTION, Ceiling(TIERS, 6), time.time() + 600))


def test_on_the_way_up_more_effort_and_more_narrow_rounds_are_nearer() -> None:
    up, seen = aim(Wish(tiers=(3,))), _seen()
    assert seen.grade is not None
    more = Look(True, replace(seen.grade, effort=seen.grade.effort + 10), seen.narrow)
    assert up.nearness(PUZZLE, more) < up.nearness(PUZZLE, seen)
    narrower = Look(True, seen.grade, seen.narrow + 1)
    assert up.nearness(PUZZLE, narrower) < up.nearness(PUZZLE, seen)


def test_the_fewer_steps_of_an_unwanted_technique_the_nearer() -> None:
    technique = "last-cells-of-cage"
    down, seen = aim(Wish(without=(technique,))), _seen()
    assert seen.grade is not None
    assert down.nearness(PUZZLE, seen)[1] == seen.grade.by_technique[technique] > 0

"""Idle cages and givens: what goes one at a time, what goes together, and what that does to the tier."""

from __future__ import annotations

from functools import cache
from itertools import combinations

from tests.diagnosis.backtracking import count_plainly
from tests.diagnosis.puzzles import sound
from verifier.diagnosis.idle import idle_findings, idle_rules, idle_together
from verifier.diagnosis.search_budget import SearchBudget
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle, rules_of
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.rule import Rule

FOUR = Grid.square(4)


@cache
def idle_parts(puzzle: Puzzle) -> tuple[Rule, ...]:
    return tuple(rule for rule, _ in idle_rules(puzzle, SearchBudget()))


def test_a_part_is_idle_if_one_solution_is_left_without_it() -> None:
    for puzzle, _ in sound(12)[:4]:
        needless = (cage for cage in puzzle.cages if count_plainly(puzzle.changed([cage]), 2) == 1)
        assert idle_parts(puzzle) == tuple(needless)


def test_a_classic_with_the_fewest_givens_has_none_idle() -> None:
    """Four givens are the fewest that a 4x4 puzzle can have (`facts.yaml`)."""
    puzzle = make_puzzle("classic", FOUR, givens={0: 1, 6: 2, 9: 3, 15: 4})
    assert count_plainly(puzzle, 2) == 1
    assert [finding.code for finding in idle_findings(puzzle, SearchBudget())] == ["none-idle"]


def test_a_given_too_many_is_idle() -> None:
    puzzle = make_puzzle("classic", FOUR, givens={0: 1, 6: 2, 9: 3, 15: 4, 3: 3})
    if count_plainly(puzzle, 2) == 1:
        assert Given(3, 3) in idle_parts(puzzle)


def test_what_can_go_together_leaves_one_solution_and_nothing_more_can_go() -> None:
    for puzzle, solution in sound(12)[1:2]:
        idle = idle_parts(puzzle)
        together, proof = idle_together(puzzle, idle, solution, SearchBudget(5))
        left = puzzle.changed(together)
        assert count_plainly(left, 2) == 1
        assert proof.tier >= 1
        for more in set(idle) - set(together):
            assert count_plainly(left.changed([more]), 2) > 1


def test_the_largest_set_is_found_where_brute_force_can_say() -> None:
    for puzzle, solution in sound(12, size=4):
        idle = idle_parts(puzzle)
        if len(idle) > 1:
            together, _ = idle_together(puzzle, idle, solution, SearchBudget())
            larger = combinations(idle, len(together) + 1)
            assert not any(count_plainly(puzzle.changed(rules), 2) == 1 for rules in larger)


def test_findings_name_the_cages_and_the_tier() -> None:
    puzzle, _ = sound(12)[0]
    findings = idle_findings(puzzle, SearchBudget())
    named = [cage for finding in findings if finding.code == "idle" for cage in finding.facts["cages"]]
    assert len(named) == len(rules_of(idle_parts(puzzle), Cage))
    assert all(1 <= finding.facts["tier"] <= 7 for finding in findings)


def test_a_budget_that_is_spent_is_said() -> None:
    assert idle_findings(sound(12)[0][0], SearchBudget(0.02))[-1].code == "cut-short"

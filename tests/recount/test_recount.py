"""What the recount says, and what it says when it cannot know."""

import subprocess
import sys

import pytest
from hypothesis import given, settings

import verifier.recount.statements as statements
from tests.counting.backtracking import first_solutions
from tests.counting.puzzles import EMPTY_4X4, UNIQUE_4X4, killer_25x25
from tests.strategies import killers
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Stop
from verifier.recount.recount import recount_solutions

GRID = Grid.square(9)
ALL_4X4 = first_solutions(EMPTY_4X4, 1000)


def test_one_solution_and_a_finished_search_is_the_exact_number() -> None:
    tally = recount_solutions(UNIQUE_4X4)
    assert (tally.witness, tally.count, tally.complete) == ("clingo", 1, True)
    assert solves(UNIQUE_4X4, tally.solutions[0])


def test_as_many_solutions_as_asked_for_is_at_least_so_many() -> None:
    tally = recount_solutions(EMPTY_4X4, limit=5)
    assert (tally.count, tally.stop, tally.complete) == (5, Stop.ASKED, False)


def test_all_the_solutions_there_are_but_no_finished_search_is_at_least_so_many() -> None:
    assert recount_solutions(UNIQUE_4X4, limit=1).stop is Stop.ASKED


def test_the_same_puzzle_gives_the_same_tally_twice() -> None:
    assert recount_solutions(EMPTY_4X4, limit=7) == recount_solutions(EMPTY_4X4, limit=7)


def test_less_than_a_second_left_is_still_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("verifier.recount.recount.monotonic", lambda: 0.0)  # so that no machine is too slow
    assert recount_solutions(UNIQUE_4X4, allowance=WorkAllowance(seconds=0.5)).complete


def test_asking_for_no_solution_is_an_error() -> None:
    with pytest.raises(ValueError, match="limit: found 0; at least 1"):
        recount_solutions(EMPTY_4X4, limit=0)


@pytest.mark.parametrize("conflicts", [1, 100])
def test_a_budget_that_runs_out_says_so_and_never_one(conflicts: int) -> None:
    puzzle, _ = killer_25x25(share_given=0.0)
    tally = recount_solutions(puzzle, allowance=WorkAllowance(conflicts=conflicts))
    assert (tally.stop, tally.complete) == (Stop.BUDGET, False)


@pytest.mark.parametrize("seconds", [0.0, 0.3])
def test_a_clock_that_runs_out_says_so_and_never_one(seconds: float) -> None:
    puzzle, _ = killer_25x25(share_given=0.0)
    tally = recount_solutions(puzzle, allowance=WorkAllowance(seconds=seconds))
    assert (tally.stop, tally.complete) == (Stop.CLOCK, False)


@pytest.mark.parametrize(
    "cage",
    [
        Cage((0, 1), 2),
        Cage((0, 1), 18),
        Cage((0,), 0),
        Cage((0, 1), -3),
        Cage((0,), 2**32 + 5),  # the solver's whole numbers would take it for 5
        Cage(tuple(range(10)), 55),
    ],
)
def test_a_cage_that_no_digits_can_meet_has_no_solution(cage: Cage) -> None:
    tally = recount_solutions(make_puzzle("killer", GRID, cages=[cage]))
    assert (tally.count, tally.complete) == (0, True)


@pytest.mark.parametrize("givens", [{0: 5, 72: 5}, {0: 5, 1: 5}])
def test_givens_that_clash_have_no_solution(givens: dict[int, int]) -> None:
    tally = recount_solutions(make_puzzle("classic", GRID, givens=givens))
    assert (tally.count, tally.complete) == (0, True)


def test_a_25x25_killer_with_cages_of_12_can_be_counted() -> None:
    puzzle, filling = killer_25x25(share_given=0.6)
    assert recount_solutions(puzzle).solutions == (filling,)


@settings(max_examples=60, deadline=None)
@given(puzzle=killers(Grid.square(4)))
def test_the_encoding_and_the_rules_agree_on_every_4x4_grid(puzzle: Puzzle) -> None:
    tally = recount_solutions(puzzle, limit=289)
    assert tally.complete
    assert tally.solutions == tuple(filling for filling in ALL_4X4 if solves(puzzle, filling))


@pytest.mark.parametrize("rule", ["total", "house", "different"])
def test_a_filling_that_breaks_a_rule_is_refused_and_not_counted(
    rule: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    word = {"total": "#sum", "house": ":- house", "different": ":- cage(G,_,N)"}[rule]
    kept = [line for line in statements._usual().splitlines() if word not in line]
    monkeypatch.setattr(statements, "_usual", lambda: "\n".join(kept) + "\n")
    cages = [Cage((0, 1), 3), Cage((5, 8), 4)]  # r2c2 and r3c1 use up 4 with 1 and 3, not with 4 and 4
    puzzle = make_puzzle("killer", Grid.square(4), cages=cages)
    tally = recount_solutions(puzzle, limit=1000)
    assert (tally.stop, tally.complete) == (Stop.REFUSED, False)
    assert tally.refused is not None
    assert not solves(puzzle, tally.refused)


def test_the_recount_loads_nothing_of_the_count_or_its_solver() -> None:
    code = "import sys, verifier.recount.recount; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert not [
        name for name in loaded.split() if name.startswith(("ortools", "verifier.counting", "grader"))
    ]

"""What the count says, and what it says when it cannot know."""

import pytest
from hypothesis import given, settings
from ortools.sat.python.cp_model import CpModelProto

import verifier.counting.count as counting
from tests.counting.backtracking import first_solutions
from tests.counting.puzzles import EMPTY_4X4, UNIQUE_4X4, killer_25x25
from tests.strategies import killers
from verifier.counting import cage_postings, model
from verifier.counting.count import count_solutions
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Stop

GRID = Grid.square(9)
ALL_4X4 = first_solutions(EMPTY_4X4, 1000)


def killer(*cages: Cage, **givens: int) -> Puzzle:
    cells = {cell: digit for name, digit in givens.items() if (cell := GRID.cell_at(name)) is not None}
    return make_puzzle("killer", GRID, cages=cages, givens=cells)


def test_one_solution_and_a_finished_search_is_the_exact_number() -> None:
    tally = count_solutions(UNIQUE_4X4)
    assert (tally.witness, tally.count, tally.complete) == ("cp-sat", 1, True)
    assert solves(UNIQUE_4X4, tally.solutions[0])


def test_as_many_solutions_as_asked_for_is_at_least_so_many() -> None:
    tally = count_solutions(EMPTY_4X4, limit=5)
    assert (tally.count, tally.stop, tally.complete) == (5, Stop.ASKED, False)


def test_all_the_solutions_there_are_but_no_finished_search_is_at_least_so_many() -> None:
    assert count_solutions(UNIQUE_4X4, limit=1).stop is Stop.ASKED


def test_one_more_than_there_are_gives_the_exact_number() -> None:
    tally = count_solutions(EMPTY_4X4, limit=289)
    assert (tally.count, tally.complete) == (288, True)


def test_the_same_puzzle_gives_the_same_tally_twice() -> None:
    assert count_solutions(EMPTY_4X4, limit=7) == count_solutions(EMPTY_4X4, limit=7)


def test_asking_for_no_solution_is_an_error() -> None:
    with pytest.raises(ValueError, match="limit: found 0; at least 1"):
        count_solutions(EMPTY_4X4, limit=0)


@pytest.mark.parametrize("work", [0.0, 1e-6, 0.002])
def test_a_budget_that_runs_out_says_so_and_never_one(work: float) -> None:
    puzzle, _ = killer_25x25(share_given=0.0)
    tally = count_solutions(puzzle, allowance=WorkAllowance(work=work))
    assert (tally.stop, tally.complete) == (Stop.BUDGET, False)


@pytest.mark.parametrize("seconds", [0.0, 1e-6, 0.05])
def test_a_clock_that_runs_out_says_so_and_never_one(seconds: float) -> None:
    puzzle, _ = killer_25x25(share_given=0.0)
    tally = count_solutions(puzzle, allowance=WorkAllowance(seconds=seconds))
    assert (tally.stop, tally.complete) == (Stop.CLOCK, False)


def test_a_budget_that_runs_out_keeps_the_solutions_found() -> None:
    tally = count_solutions(make_puzzle("classic", GRID), limit=10_000, allowance=WorkAllowance(work=0.05))
    assert tally.stop is Stop.BUDGET
    assert 2 <= tally.count < 10_000


@pytest.mark.parametrize(
    "puzzle",
    [
        killer(Cage((0, 1), 2)),
        killer(Cage((0, 1), 18)),
        killer(Cage((0,), 10**12)),
        killer(Cage((0,), 0)),
        killer(Cage((0, 1), -3)),
        killer(Cage(tuple(range(10)), 55)),
        killer(r1c1=5, r9c1=5),
        killer(Cage((0, 1), 3), r1c1=5),
        killer(*(Cage(row.cells[:8], 35) for row in GRID.houses[:1])),
        killer(*(Cage((2 * n, 2 * n + 1), 11) for n in range(40)), Cage((80,), 1)),
    ],
    ids=lambda puzzle: f"{puzzle.cages[:1]}{puzzle.givens}",
)
def test_what_no_digits_can_meet_has_no_solution(puzzle: Puzzle) -> None:
    tally = count_solutions(puzzle)
    assert (tally.count, tally.complete) == (0, True)


def test_a_given_stands_in_every_solution() -> None:
    found = count_solutions(killer(r2c3=7), limit=20).solutions
    assert {solution[11] for solution in found} == {7}


def test_a_25x25_killer_with_cages_of_12_can_be_counted() -> None:
    puzzle, filling = killer_25x25(share_given=0.6)
    assert count_solutions(puzzle).solutions == (filling,)


def test_two_solutions_of_a_25x25_killer_with_cages_of_12_are_found() -> None:
    puzzle, _ = killer_25x25(share_given=0.45)
    assert count_solutions(puzzle).stop is Stop.ASKED


@pytest.mark.parametrize("listed", [0, cage_postings.MOST_COMBINATIONS])
@settings(max_examples=60, deadline=None)
@given(puzzle=killers(Grid.square(4)))
def test_the_model_and_the_rules_agree_on_every_4x4_grid(listed: int, puzzle: Puzzle) -> None:
    # with listed = 0 every cage of three cells or more is stated as a sum, else by its combinations
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cage_postings, "MOST_COMBINATIONS", listed)
        tally = count_solutions(puzzle, limit=289)
    assert tally.complete
    assert tally.solutions == tuple(filling for filling in ALL_4X4 if solves(puzzle, filling))


def test_a_filling_that_breaks_a_rule_is_refused_and_not_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    def lie(values: str, grid: Grid) -> Filling:
        first, second, *rest = model.filling_of(values, grid)
        return (second, first, *rest)

    monkeypatch.setattr(counting, "filling_of", lie)
    tally = count_solutions(UNIQUE_4X4)
    assert (tally.count, tally.stop, tally.complete) == (0, Stop.REFUSED, False)
    assert tally.refused is not None
    assert not solves(UNIQUE_4X4, tally.refused)


def test_a_solution_reported_twice_counts_once(monkeypatch: pytest.MonkeyPatch) -> None:
    always = count_solutions(EMPTY_4X4, limit=1).solutions[0]
    monkeypatch.setattr(counting, "filling_of", lambda *_: always)
    tally = count_solutions(EMPTY_4X4)
    assert (tally.solutions, tally.stop) == ((always,), Stop.FINISHED)


@pytest.mark.parametrize("kind", ["row", "column", "box"])
def test_houses_missing_from_the_model_never_make_a_false_one(
    kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def damaged(puzzle: Puzzle) -> CpModelProto:
        return model.build_model(puzzle.changed(gone=[h for h in puzzle.houses if h.kind == kind]))

    monkeypatch.setattr(counting, "build_model", damaged)
    assert count_solutions(EMPTY_4X4, limit=1000).stop is Stop.REFUSED


@pytest.mark.parametrize("number", range(4))
def test_a_cage_missing_from_the_model_never_makes_a_false_one(
    number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    def damaged(puzzle: Puzzle) -> CpModelProto:
        return model.build_model(puzzle.changed(gone=[puzzle.cages[number]]))

    monkeypatch.setattr(counting, "build_model", damaged)
    assert count_solutions(UNIQUE_4X4, limit=1000).stop is Stop.REFUSED


def test_a_model_that_the_solver_finds_fault_with_is_our_bug(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(puzzle: Puzzle) -> CpModelProto:
        built = model.build_model(puzzle)
        built.constraints.add().exactly_one.literals.extend([10**6])
        return built

    monkeypatch.setattr(counting, "build_model", broken)
    with pytest.raises(RuntimeError, match="fault with the model"):
        count_solutions(UNIQUE_4X4)

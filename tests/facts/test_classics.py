"""Published facts about 9x9 classics."""

from itertools import combinations

import pytest

from tests.reference import facts, load, puzzle_of, solution_of
from verifier.counting.count import count_solutions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.tally import Stop
from verifier.recount.recount import recount_solutions

pytestmark = pytest.mark.reference

GRID = Grid.square(9)


def test_no_17_given_classic_keeps_one_solution_when_a_given_is_taken_away() -> None:
    # McGuire, Tugemann, Civario, "There is no 16-Clue Sudoku" (2012). A sample of the list of 17-given
    # grids collected by Gordon Royle: all 17 givens of every 100th grid.
    assert facts()["clues"]["minimum_givens_9x9"]["value"] == 17
    for record in load("classic_17")[::100]:
        givens = puzzle_of(record).givens
        assert len(givens) == 17
        for left_out in range(17):
            fewer = make_puzzle("classic", GRID, givens=givens[:left_out] + givens[left_out + 1 :])
            assert count_solutions(fewer).stop is Stop.ASKED, record["id"]


def test_a_famous_misprint_has_4181_solutions() -> None:
    # a transcription error found in a public repository; see the reference data's README
    (record,) = load("classic_misprint")
    assert record["solutions_exact"] == 4181
    tallies = [witness(puzzle_of(record), limit=5000) for witness in (count_solutions, recount_solutions)]
    assert [(tally.count, tally.complete) for tally in tallies] == [(4181, True)] * 2
    assert tallies[0].solutions == tallies[1].solutions


def test_the_solutions_add_up_to_the_published_sum() -> None:
    # The sum of the three-digit numbers in the top left corners; `facts.yaml` names where it is published.
    solutions = [count_solutions(puzzle_of(record)).solutions for record in load("classic_pe96")]
    total = sum(100 * grid[0] + 10 * grid[1] + grid[2] for (grid,) in solutions)
    assert total == facts()["project_euler_96"]["sum_of_top_left_three_digit_numbers"]["value"]


def exchangeable(filling: Filling) -> tuple[int, ...] | None:
    """Four cells of two lines and two boxes in which two digits can change places."""
    for row, other in combinations(range(3), 2):
        for left in range(9):
            for right in range(left // 3 * 3 + 3, 9):
                cells = (9 * row + left, 9 * row + right, 9 * other + left, 9 * other + right)
                a, b, c, d = (filling[cell] for cell in cells)
                if (a, b) == (d, c):
                    return cells
    return None


def test_77_givens_can_leave_two_solutions() -> None:
    # facts.yaml, max_givens_still_ambiguous_9x9 (from memory): 81 less an unavoidable set of four cells
    givens = facts()["clues"]["max_givens_still_ambiguous_9x9"]["value"]
    fillings = (solution_of(record) for record in load("classic_human"))
    filling, cells = next((f, found) for f in fillings if f and (found := exchangeable(f)))
    puzzle = make_puzzle("classic", GRID, givens={c: d for c, d in enumerate(filling) if c not in cells})
    assert len(puzzle.givens) == givens
    tally = count_solutions(puzzle, limit=3)
    assert (tally.count, tally.complete, tally.swing_cells) == (2, True, cells)


@pytest.mark.parametrize("left_empty", [1, 2, 3])
def test_78_givens_leave_one_solution(left_empty: int) -> None:
    filling = next(solution for record in load("classic_human") if (solution := solution_of(record)))
    givens = dict(enumerate(filling[: GRID.cell_count - left_empty]))
    tally = count_solutions(make_puzzle("classic", GRID, givens=givens))
    assert tally.solutions == (filling,)

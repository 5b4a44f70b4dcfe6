"""Several solutions: how many, where they differ, and what leaves one of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations, islice, starmap
from math import prod
from random import Random

import pytest

from tests.diagnosis.backtracking import count_plainly
from tests.diagnosis.puzzles import drawn, full_grid, sound, with_several
from tests.reference import load, puzzle_of
from verifier.counting.count import count_solutions
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.repairs.changes import CageChange, changed
from verifier.diagnosis.repairs.mends import Mend
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.differences import Figure, groups_of, most_different, swing_cells
from verifier.diagnosis.several.extra_givens import fewest_for_all, fewest_for_one
from verifier.diagnosis.several.redrawn_cages import added, joined, parted, split
from verifier.diagnosis.several.several_solutions import swing_findings
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

FOUR = Grid.square(4)

Recut = Callable[[Puzzle, Sequence[Filling], SearchBudget], Iterator[Mend]]


def solutions_of(puzzle: Puzzle) -> tuple[Filling, ...]:
    return count_solutions(puzzle, 2000).solutions


def test_exact_counts_agree_with_a_plain_search() -> None:
    for puzzle, number in with_several(40, 1000):
        tally = count_solutions(puzzle, 1001)
        assert (tally.count, tally.complete) == (number, True)


@pytest.mark.reference
def test_exact_counts_agree_with_recorded_ones() -> None:
    """`classic_multi_derived.jsonl`: grids of G. Royle's list less one given, counted exhaustively."""
    records = [record for record in load("classic_multi_derived") if record["solutions_exact"] <= 1000]
    for record in records[:12]:
        finding = next(
            swing_findings(puzzle_of(record), count_solutions(puzzle_of(record), 1000), SearchBudget())
        )
        assert (finding.facts["count"], finding.facts["complete"]) == (record["solutions_exact"], True)


def test_beyond_the_limit_the_count_says_at_least() -> None:
    finding = diagnose(make_puzzle("classic", FOUR), seconds=2, limit=100).findings[0]
    assert finding.says.startswith("The puzzle has at least 100 solutions. Those found differ in 16 cells")


def test_two_solutions_differ_most_if_no_others_differ_more() -> None:
    for puzzle, _ in with_several(40, 1000)[:30]:
        solutions = solutions_of(puzzle)
        one, other = most_different(solutions, puzzle.grid.digits)
        most = max(_distance(a, b) for a, b in combinations(solutions, 2))
        assert _distance(one, other) == most


def _distance(one: Filling, other: Filling) -> int:
    return sum(a != b for a, b in zip(one, other, strict=True))


# Groups


def test_the_ways_of_the_groups_multiply_to_the_number_of_solutions() -> None:
    for puzzle, number in with_several(40, 1000):
        groups = groups_of(puzzle, solutions_of(puzzle))
        assert prod(len(group.fillings) for group in groups) == number
        assert sorted(c for group in groups for c in group.cells) == list(swing_cells(solutions_of(puzzle)))


def test_groups_can_be_exchanged_one_by_one() -> None:
    """Take each group from another solution: whatever comes out is a solution."""
    for puzzle, _ in with_several(40, 1000):
        solutions = solutions_of(puzzle)
        for group in groups_of(puzzle, solutions):
            mixed = list(solutions[0])
            for cell in group.cells:
                mixed[cell] = solutions[-1][cell]
            assert solves(puzzle, tuple(mixed))


def test_a_rectangle_is_named() -> None:
    one = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    solutions = solutions_of(
        make_puzzle("classic", FOUR, givens={c: d for c, d in enumerate(one) if c not in (0, 2, 4, 6)})
    )
    assert [group.figure for group in groups_of(make_puzzle("classic", FOUR), solutions)] == [
        Figure.RECTANGLE
    ]


@pytest.mark.parametrize("seed", range(8))
def test_two_digits_that_change_places_in_a_round_are_a_rectangle_or_a_loop(seed: int) -> None:
    """Follow two digits from house to house until the round is closed, and exchange them on the way."""
    grid = Grid.square(6)
    one = full_grid(grid, Random(seed))
    for both in combinations(grid.all_digits, 2):
        start = min(cell for cell, digit in enumerate(one) if digit in both)
        cells = _round(grid, one, both, start)
        other = tuple(sum(both) - digit if cell in cells else digit for cell, digit in enumerate(one))
        (group,) = groups_of(make_puzzle("classic", grid), [one, other])
        assert group.cells == tuple(sorted(cells))
        assert group.figure is (Figure.RECTANGLE if len(cells) == 4 else Figure.LOOP)


def _round(grid: Grid, filling: Filling, both: tuple[int, int], start: int) -> set[int]:
    reached, fresh = {start}, [start]
    while fresh:
        here = fresh.pop()
        houses = [house.cells for house in grid.houses if here in house.cells]
        near = {cell for cells in houses for cell in cells if filling[cell] in both} - reached
        reached |= near
        fresh += near
    return reached


# Extra givens


def test_no_smaller_set_of_givens_leaves_one_solution() -> None:
    """By brute force: every smaller set of digits of every solution leaves several."""
    for puzzle, _ in with_several(40, 1000):
        solutions = solutions_of(puzzle)
        sets, proved = fewest_for_all(solutions, 3, SearchBudget())
        assert proved
        for extra in sets:
            assert count_plainly(puzzle.changed(come=starmap(Given, extra)), 2) == 1
        assert not _some_set_does(solutions, len(sets[0]) - 1)


def _some_set_does(solutions: tuple[Filling, ...], size: int) -> bool:
    cells = swing_cells(solutions)
    keys = ([tuple(s[c] for c in chosen) for s in solutions] for chosen in combinations(cells, size))
    return any(key.count(one) == 1 for key in keys for one in set(key))


def test_the_solver_finds_sets_as_small_where_three_are_needed() -> None:
    """No 4x4 puzzle with fewer than 4 givens has exactly one solution (`facts.yaml`); one is there."""
    empty = make_puzzle("classic", FOUR, givens={0: 1})
    sets, proved = fewest_for_all(solutions_of(empty), 3, SearchBudget())
    assert (len(sets[0]), proved) == (3, True)


def test_a_solution_that_is_meant_is_reached_with_the_fewest_givens() -> None:
    puzzle = make_puzzle("classic", FOUR)
    target = solutions_of(puzzle)[7]
    extra, proved = fewest_for_one(puzzle, target, solutions_of(puzzle)[:5], SearchBudget())
    assert (len(extra), proved) == (4, True)
    assert solutions_of(puzzle.changed(come=starmap(Given, extra))) == (target,)


# Cages drawn anew


@pytest.mark.parametrize("kind", [split, added])
def test_every_cage_drawn_anew_leaves_one_solution(kind: Recut) -> None:
    offered = 0
    for puzzle, _ in with_several(40, 1000):
        for mend in islice(kind(puzzle, solutions_of(puzzle), SearchBudget()), 2):
            offered += 1
            assert count_plainly(changed(puzzle, mend.changes), 2) == 1
    assert offered, f"nothing is offered by {kind}"


def test_a_join_that_leaves_one_solution_is_rare_but_found() -> None:
    puzzle, _ = drawn(FOUR, 328, largest=3)
    (mend,) = joined(puzzle, solutions_of(puzzle), SearchBudget())
    assert count_plainly(puzzle, 3) == 2
    assert mend.changes == (CageChange((Cage((5, 6), 5), Cage((10, 11), 5)), (Cage((5, 6, 10, 11), 10),)),)
    assert count_plainly(changed(puzzle, mend.changes), 2) == 1


def test_two_cages_with_one_mark_are_parted() -> None:
    """Two cages of a sound puzzle run together into one with more cells than there are digits."""
    found = 0
    for puzzle, _ in sound(12, size=4):
        for one, other in combinations(puzzle.cages, 2):
            if len(one.cells) + len(other.cells) > puzzle.grid.digits:
                both = Cage(tuple(sorted((*one.cells, *other.cells))), one.total + other.total)
                broken = changed(puzzle, [CageChange((one, other), (both,))])
                mends = list(parted(broken, SearchBudget()))
                found += len(mends)
                assert all(count_plainly(changed(broken, mend.changes), 2) == 1 for mend in mends)
                undone = {(one, other), (other, one)}
                if in_one_piece(puzzle.grid, both.cells):
                    assert any(getattr(mend.changes[0], "new", None) in undone for mend in mends)
    assert found

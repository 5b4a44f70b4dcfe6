"""Clues on whole grids: both counts find the grids that the plain rules leave of all 288, and no others."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest

from tests.rules.shapes import fillings_of
from tests.rules.test_reading_clues import SAME_AS_WRITTEN
from verifier.counting.count import count_solutions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.rule import Rule
from verifier.recount.recount import recount_solutions

FOUR = Grid.square(4)
CLUES = [*SAME_AS_WRITTEN.values()]
SUMS = [clue for clue in CLUES if clue.word in ("arrow", "region_sum", "little_killer")]


@cache
def every_grid() -> list[Filling]:
    """All 4x4 grids, by plain backtracking."""
    return fillings_of(make_puzzle("classic", FOUR))


def assert_both_counts_agree(*clues: Rule) -> None:
    puzzle = make_puzzle("classic", FOUR, clues=clues)
    wanted = {filling for filling in every_grid() if all(clue.holds(filling) for clue in clues)}
    for tally in (count_solutions(puzzle, 1000), recount_solutions(puzzle, 1000)):
        assert set(tally.solutions) == wanted, tally.witness
        assert tally.complete


@pytest.mark.parametrize("clue", CLUES, ids=repr)
def test_one_clue_leaves_the_grids_for_which_it_holds(clue: Rule) -> None:
    assert_both_counts_agree(clue)


@pytest.mark.parametrize("clue", SUMS, ids=repr)
def test_sums_of_too_many_steps_leave_the_same(clue: Rule, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("verifier.counting.running_sums._MOST_STEPS", -1)
    assert_both_counts_agree(clue)


@pytest.mark.parametrize("seed", range(20))
def test_several_clues_leave_the_grids_for_which_all_hold(seed: int) -> None:
    chance = Random(seed)
    places = [*range(16)]
    clues = [clue.moved(_symmetry(chance, places)) for clue in chance.sample(CLUES, chance.choice((2, 3)))]
    assert_both_counts_agree(*clues)


def _symmetry(chance: Random, places: list[int]) -> list[int]:
    """A turn or mirror of the grid."""
    turned = chance.choice((places, [cell % 4 * 4 + cell // 4 for cell in places]))
    return chance.choice((turned, [15 - cell for cell in turned]))

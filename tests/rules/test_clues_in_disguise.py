"""Puzzles with clues in disguise: turned, rearranged or complemented they are the same puzzle."""

from __future__ import annotations

import pytest

from tests.rules.test_reading_clues import SAME_AS_WRITTEN
from verifier.diagnosis.repairs.near_readings import near
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import turned_images, turned_key
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

FOUR = Grid.square(4)
CLUES = [*SAME_AS_WRITTEN.values(), Unmarked("ratio", (2,), ((0, 1), (4, 8)))]
ROWS_EXCHANGED = (4, 5, 6, 7, 0, 1, 2, 3, *range(8, 16))
FIXED = {0: 1, 1: 2, 2: 3, 3: 4, 4: 3, 8: 2}
"""Givens that no rearrangement leaves as they are."""

every_clue = pytest.mark.parametrize("clue", CLUES, ids=repr)


def with_clue(clue: Rule) -> Puzzle:
    return make_puzzle("classic", FOUR, clues=[clue], givens=FIXED)


@every_clue
def test_a_turned_puzzle_is_the_same(clue: Rule) -> None:
    puzzle = with_clue(clue)
    for grid, places in turned_images(FOUR):
        turned = puzzle.moved(grid, places)
        assert turned is not None
        assert (turned_key(turned), structure_key(turned)) == (turned_key(puzzle), structure_key(puzzle))


@every_clue
def test_a_puzzle_whose_rows_change_places_is_the_same_by_its_structure_alone(clue: Rule) -> None:
    puzzle = with_clue(clue)
    moved = puzzle.moved(FOUR, ROWS_EXCHANGED)
    assert moved is not None
    assert structure_key(moved) == structure_key(puzzle)
    assert turned_key(moved) != turned_key(puzzle)


@every_clue
def test_a_complemented_puzzle_is_the_same_where_the_clue_can_be_complemented(clue: Rule) -> None:
    puzzle = with_clue(clue)
    other = puzzle.moved(FOUR, range(16), (0, 4, 3, 2, 1))
    assert (other is None) == (clue.relabelled((0, 4, 3, 2, 1)) is None)
    if other is not None:
        assert (turned_key(other), structure_key(other)) == (turned_key(puzzle), structure_key(puzzle))


@every_clue
def test_with_another_clue_it_is_another_puzzle(clue: Rule) -> None:
    puzzle = with_clue(clue)
    for other in near(clue, puzzle):
        changed = with_clue(other)
        assert turned_key(changed) != turned_key(puzzle)
        assert structure_key(changed) != structure_key(puzzle)


def test_the_tens_of_an_arrow_are_not_its_units() -> None:
    one, other = with_clue(Arrow((0, 1), (4, 8))), with_clue(Arrow((1, 0), (4, 8)))
    assert structure_key(one) != structure_key(other)

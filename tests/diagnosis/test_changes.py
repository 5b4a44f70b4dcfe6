"""What a puzzle is after a change."""

from __future__ import annotations

import pytest

from verifier.diagnosis.repairs.changes import CageChange, CellMove, changed, given_change, total_change
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage

LEFT, RIGHT = Cage((0, 1), 3), Cage((2, 3, 7), 9)
PUZZLE = make_puzzle("killer", Grid.square(4), cages=[LEFT, RIGHT], givens={5: 2})


def test_a_total_changes_and_nothing_else() -> None:
    after = changed(PUZZLE, [total_change(LEFT, 5)])
    assert after.cages == (Cage((0, 1), 5), RIGHT)
    assert (after.givens, after.houses, after.grid) == (PUZZLE.givens, PUZZLE.houses, PUZZLE.grid)


def test_a_cell_moves_and_both_totals_stay() -> None:
    after = changed(PUZZLE, [CellMove(2, RIGHT, LEFT)])
    assert after.cages == (Cage((0, 1, 2), 3), Cage((3, 7), 9))


def test_a_cell_leaves_for_no_cage_and_comes_from_none() -> None:
    assert changed(PUZZLE, [CellMove(7, RIGHT, None)]).cages == (LEFT, Cage((2, 3), 9))
    assert changed(PUZZLE, [CellMove(4, None, LEFT)]).cages == (Cage((0, 1, 4), 3), RIGHT)


def test_the_last_cell_takes_its_cage_away() -> None:
    single = make_puzzle("killer", Grid.square(4), cages=[Cage((0,), 3)])
    assert changed(single, [CellMove(0, single.cages[0], None)]).cages == ()


@pytest.mark.parametrize(("old", "new", "givens"), [(2, 4, {5: 4}), (2, None, {})])
def test_a_given_changes_or_goes(old: int, new: int | None, givens: dict[int, int]) -> None:
    assert dict(changed(PUZZLE, [given_change(5, old, new)]).givens) == givens


def test_a_given_comes() -> None:
    assert changed(PUZZLE, [given_change(6, None, 1)]).givens == ((5, 2), (6, 1))


def test_cages_are_drawn_anew() -> None:
    pieces = (Cage((2,), 4), Cage((3, 7), 5))
    assert changed(PUZZLE, [CageChange((RIGHT,), pieces)]).cages == (LEFT, *pieces)


def test_later_changes_see_what_earlier_ones_left() -> None:
    after = changed(PUZZLE, [total_change(LEFT, 5), total_change(Cage((0, 1), 5), 6)])
    assert after.cages[0].total == 6


def test_a_change_of_a_cage_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="not in list"):
        changed(PUZZLE, [total_change(Cage((0, 1), 4), 5)])

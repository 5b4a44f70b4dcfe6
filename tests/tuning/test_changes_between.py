"""What was changed from one version of a puzzle to another."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.diagnosis.puzzles import sound
from verifier.diagnosis.repairs.changes import Change, changed, given_change, total_change
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.changes_between import changes_between
from verifier.tuning.neighbours.moves import moves

PUZZLE, SOLUTION = sound(12)[4]
MOVES = list(moves(PUZZLE, SOLUTION, most_givens=2))


def between(changes: list[Change]) -> tuple[Puzzle, tuple[Change, ...]]:
    after = changed(PUZZLE, changes)
    return after, changes_between(PUZZLE, after)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(MOVES))
def test_one_move_is_found_again_as_it_was_made(move: tuple[Change, ...]) -> None:
    after, found = between(list(move))
    assert len(found) == 1
    assert changed(PUZZLE, found) == after
    assert type(found[0]) is type(move[0])


@settings(max_examples=20, deadline=None)
@given(st.lists(st.sampled_from(MOVES), min_size=2, max_size=3))
def test_whatever_was_changed_can_be_made_again(several: list[tuple[Change, ...]]) -> None:
    after = PUZZLE
    for move in several:
        for _, again in [(change, change) for change in move]:
            if set(again.gone) <= set(after.rules) and not set(again.come) & set(after.rules):
                after = changed(after, [again])
    assert changed(PUZZLE, changes_between(PUZZLE, after)) == after


def test_a_total_and_a_given_are_named_as_such() -> None:
    cage = PUZZLE.cages[0]
    _, found = between([total_change(cage, cage.total + 1), given_change(0, None, 1)])
    assert [change.record(PUZZLE.grid)["what"] for change in found] == ["total", "given"]


def test_two_puzzles_that_are_equal_have_no_change_between_them() -> None:
    assert changes_between(PUZZLE, PUZZLE) == ()

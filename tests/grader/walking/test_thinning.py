"""The steps that matter: fewer, sound on their own, and each of use."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from grader.board.board import board_from_text, opening_board
from grader.board.steps import WalkStep
from grader.grading.replay import Outcome
from grader.ladder import LADDER, TECHNIQUES
from grader.walking.thinning import Goal, Work, in_order, retold, sliced, thinned, uses
from grader.walking.walk import Walk, walk
from tests.corpus.puzzles import puzzle_at
from tests.grader.boards import audit
from tests.grader.walks import small_puzzles, some_walks
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

some_puzzles = settings(max_examples=30, deadline=None)


@some_puzzles
@given(small_puzzles())
def test_a_shortened_walk_is_sound_on_its_own_boards(puzzle: Puzzle) -> None:
    shortened = walk(puzzle).shortened()
    assert all(audit(taken.step, taken.board) for taken in shortened.steps)


@some_puzzles
@given(small_puzzles())
def test_a_shortened_walk_places_every_digit_that_the_whole_walk_places(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    assert _placed(walked.shortened()) == _placed(walked)


@some_puzzles
@given(small_puzzles())
def test_the_boards_of_a_shortened_walk_follow_from_one_another(puzzle: Puzzle) -> None:
    walked = walk(puzzle).shortened()
    board = opening_board(puzzle)
    for taken in walked.steps:
        assert (taken.board.candidates, taken.board.placed) == (board.candidates, board.placed)
        board = board.after([taken.step])


@some_puzzles
@given(small_puzzles())
def test_the_story_of_a_cell_ends_with_its_digit(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    for cell, digit in _placed(walked)[-2:]:
        told = walked.story_of(cell)
        assert (cell, digit) in told.steps[-1].step.places
        assert all(audit(taken.step, taken.board) for taken in told.steps)


@pytest.mark.reference
def test_whole_puzzles_are_told_in_fewer_steps_that_all_hold() -> None:
    for walked in some_walks():
        shortened = walked.shortened()
        assert len(shortened.steps) <= len(walked.steps)
        assert all(audit(taken.step, taken.board) for taken in shortened.steps)


@pytest.mark.reference
def test_a_slice_of_a_slice_leaves_nothing_more_out() -> None:
    for walked in some_walks():
        once = walked.shortened()
        assert len(once.shortened().steps) == len(once.steps)


def test_a_removal_that_nobody_needs_is_left_out() -> None:
    # The pair of row 1 goes from r1c3 and r1c4; the singles of the other rows do without.
    cages = [Cage((0, 1), 3), Cage((2, 3), 7)]
    givens = {4: 3, 5: 4, 6: 1, 7: 2, 8: 2, 9: 1, 10: 4}
    walked = walk(make_puzzle("killer", Grid.square(4), cages=cages, givens=givens))
    assert all(taken.step.places for taken in walked.shortened().steps)


TWO_PAIRS = """
12 12 123 .
. . . .
. . . .
34 34 . .
"""


def two_pairs_and_a_single() -> list[WalkStep]:
    """The pair of row 1, which leaves 3 for r1c3; the pair of row 4, which helps nobody; then the 3."""
    board = board_from_text(TWO_PAIRS, size=4)
    taken = []
    for technique, cell in (("naked-pair", 2), ("naked-pair", 14), ("naked-single", 2)):
        board = board.looking_at(board.layout.all_cells)
        found = next(one for one in LADDER if one.id == technique).find(board)
        step = next(s for s in found if cell in dict((*s.places, *s.removes)))
        taken.append(WalkStep(step, board, 1))
        board = board.after([step])
    return taken


def test_a_removal_is_kept_where_a_digit_needs_it_and_left_out_where_none_does() -> None:
    pair, other, single = two_pairs_and_a_single()
    kept = thinned(pair.board, [pair, other, single], Goal(2), Work(100))
    assert kept is not None
    assert [taken.step for taken in kept] == [pair.step, single.step]
    assert kept[1].board.candidates == pair.board.after([pair.step]).candidates  # without the other pair
    assert other.step.removes


@pytest.mark.parametrize(
    ("goal", "kept"), [(Goal(2), [0, 2]), (Goal(14, 0b11000), [1]), (Goal(3, 0b110), [0])]
)
def test_a_slice_is_what_a_digit_or_a_removal_rests_on(goal: Goal, kept: list[int]) -> None:
    steps = two_pairs_and_a_single()
    assert [steps.index(taken) for taken in sliced(steps[0].board, steps, goal)] == kept


def test_what_does_not_lead_to_a_goal_is_no_argument_for_it() -> None:
    steps = two_pairs_and_a_single()
    assert thinned(steps[0].board, steps, Goal(10), Work(100)) is None


def test_a_step_is_used_by_those_that_need_what_it_closed() -> None:
    steps = two_pairs_and_a_single()
    assert uses(steps[0].board, steps) == [{2}, set(), set()]


def test_each_step_is_told_right_before_the_one_that_needs_it() -> None:
    pair, other, single = two_pairs_and_a_single()
    board = pair.board
    moved = retold(board, [pair, other, single], Goal(2), Work(100))
    assert moved is not None
    assert in_order(board, [other, pair, single], Goal(2), Work(100)) == (
        other,
        pair,
        single,
    )  # other has no use
    assert [taken.step for taken in in_order(board, [pair, single], Goal(2), Work(100))] == [
        pair.step,
        single.step,
    ]


def test_a_walk_that_did_not_reach_the_solution_keeps_every_step() -> None:
    walked = walk(make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3}))
    assert walked.outcome is Outcome.STUCK
    end, told = walked.steps[-1], walked.shortened().steps[-1]
    assert told.board.after([told.step]).candidates == end.board.after([end.step]).candidates


def test_of_seven_combinations_in_a_whole_puzzle_the_two_that_are_needed_stay() -> None:
    ids = ["last-cell-of-house", "last-cell-of-cage", "rest-of-house", "rule-of-45", "hidden-single-box"]
    ids += ["hidden-single-line", "naked-single", "single-combination", "rule-of-45-2-houses"]
    ladder = [TECHNIQUES[technique] for technique in ids]  # none that sees a digit where these remove
    walked = walk(puzzle_at("small/sardine-tin.yaml"), ladder=ladder)
    steps = [taken.step for taken in walked.steps if not taken.step.places]
    kept = [taken.step for taken in walked.shortened().steps if not taken.step.places]
    totals = [[walked.layout.cage(step.rules[-1]).total for step in some] for some in (steps, kept)]
    assert totals == [[11, 4, 11, 3, 11, 10, 9], [10, 3]]


def test_the_story_of_a_given_is_empty() -> None:
    walked = walk(make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3}))
    assert walked.story_of(0).steps == ()


def _placed(walked: Walk) -> list[tuple[int, int]]:
    return [place for taken in walked.steps for place in taken.step.places]

"""What holds of a walk: it ends where the replay does, each step changes something, the order is as told."""

from __future__ import annotations

import time
from itertools import pairwise

import pytest
from hypothesis import given, settings

from grader.board.board import Board, board_from_text
from grader.board.steps import Step
from grader.grading.replay import Outcome, replay
from grader.ladder import LADDER
from grader.walking.choosing import placing, simplest_steps
from grader.walking.walk import shortest_argument, walk
from tests.corpus.puzzles import puzzle_at
from tests.grader.boards import agrees, audit
from tests.grader.walks import small_puzzles, some_walks
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle

RANKS = [technique.id for technique in LADDER]

some_puzzles = settings(max_examples=40, deadline=None)


@some_puzzles
@given(small_puzzles())
def test_a_walk_comes_to_the_same_solution_as_the_replay_in_rounds(puzzle: Puzzle) -> None:
    walked, played = walk(puzzle), replay(puzzle)
    assert walked.filling == played.filling
    assert (walked.outcome is Outcome.SOLVED) is (walked.filling is not None)


@some_puzzles
@given(small_puzzles())
def test_each_step_changes_the_board_and_leads_to_the_next(puzzle: Puzzle) -> None:
    steps = walk(puzzle).steps
    for taken, following in pairwise(steps):
        after = taken.board.after([taken.step])
        assert (after.candidates, after.placed) != (taken.board.candidates, taken.board.placed)
        assert (after.candidates, after.placed) == (following.board.candidates, following.board.placed)


@some_puzzles
@given(small_puzzles())
def test_no_step_is_harder_than_the_hardest_that_is_needed(puzzle: Puzzle) -> None:
    walked, played = walk(puzzle), replay(puzzle)
    if walked.filling is not None and walked.steps:
        needed = max(RANKS.index(each.technique) for each in played.rounds)
        assert max(RANKS.index(taken.step.technique) for taken in walked.steps) <= needed


@some_puzzles
@given(small_puzzles())
def test_nothing_is_removed_while_a_digit_is_at_hand(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    hardest = max((RANKS.index(taken.step.technique) for taken in walked.steps), default=0)
    writing = placing(LADDER[: hardest + 1])
    for taken in walked.shortened().steps if walked.filling else ():
        everything_fresh = taken.board.looking_at(taken.board.layout.all_cells)
        at_hand = [step for one in writing for step in one.find(everything_fresh) if step.places]
        assert taken.step.places or not at_hand


@pytest.mark.reference
def test_every_step_of_whole_puzzles_keeps_the_solution() -> None:
    for walked in some_walks():
        assert walked.filling is not None
        assert all(agrees(taken.step, walked.filling) for taken in walked.steps)


def test_a_step_knows_at_how_many_places_one_could_have_gone_on() -> None:
    puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    widths = [(taken.width, len(simplest_steps(taken.board))) for taken in walk(puzzle).steps]
    assert all(width == there for width, there in widths)
    assert max(widths) > (1, 1)


def test_a_second_walk_takes_the_same_steps() -> None:
    puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    assert [taken.step for taken in walk(puzzle).steps] == [taken.step for taken in walk(puzzle).steps]


def test_a_step_that_rests_on_the_last_one_comes_before_one_that_was_open_all_the_time() -> None:
    # r1c4 and r4c1 are open from the start; with r1c4 in place, r2c4 is the last cell of its column.
    walked = walk(make_puzzle("classic", Grid.square(4), givens=_rows("123. .... ...3 .321")))
    told = [_named(taken.step, taken.board) for taken in walked.shortened().steps]
    assert told[told.index("r1c4") + 1] == "r2c4"


def test_without_a_last_step_the_fewest_premises_and_reading_order_decide() -> None:
    found = shortest_argument(board_from_text("1 2 3 .\n. . . .\n. . . .\n4 3 2 .", size=4))
    assert found is not None
    assert _named(found.steps[0].step, found.steps[0].board) == "r1c4"


def test_there_is_no_argument_on_a_full_board() -> None:
    assert shortest_argument(board_from_text("1 2 3 4\n3 4 1 2\n2 1 4 3\n4 3 2 1", size=4)) is None


def test_a_puzzle_with_several_solutions_is_walked_as_far_as_it_goes() -> None:
    walked = walk(make_puzzle("classic", Grid.square(4), givens=_rows("123. .... .... ....")))
    assert walked.outcome is Outcome.STUCK
    assert [_named(taken.step, taken.board) for taken in walked.steps if taken.step.places] == ["r1c4"]


def test_a_puzzle_without_a_solution_ends_in_a_contradiction() -> None:
    walked = walk(make_puzzle("classic", Grid.square(4), givens=_rows("123. ...4 .... ....")))
    assert walked.outcome is Outcome.CONTRADICTION


def test_a_deadline_that_has_passed_ends_the_walk_before_its_first_step() -> None:
    puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1})
    walked = walk(puzzle, deadline=time.monotonic() - 1)
    assert (walked.outcome, walked.steps) == (Outcome.CLOCK, ())


def test_a_story_that_ran_out_of_time_is_a_slice_of_the_walk() -> None:
    walked = walk(puzzle_at("killers/coopers-yard.yaml"))
    short, long = walked.story_of(37), walked.story_of(37, deadline=time.monotonic() - 1)
    assert len(short.steps) < len(long.steps)
    assert long.steps[-1].step.places[0][0] == 37
    assert all(audit(taken.step, taken.board) for taken in long.steps)


def test_a_walk_that_is_told_the_replay_needs_no_other_to_know_how_hard_it_may_be() -> None:
    puzzle = puzzle_at("killers/coopers-yard.yaml")
    told = walk(puzzle, played=replay(puzzle)).told
    assert [taken.step for taken in told] == [taken.step for taken in walk(puzzle).told]


@pytest.mark.reference
def test_without_trial_a_walk_never_tries() -> None:
    for walked in some_walks():
        assert walked.steps[-1].step.technique in RANKS[:-1]


def _rows(text: str) -> dict[int, int]:
    marks = text.replace(" ", "")
    return {cell: int(mark) for cell, mark in enumerate(marks) if mark != "."}


def _named(step: Step, board: Board) -> str:
    return board.layout.grid.cell_name(step.places[0][0])

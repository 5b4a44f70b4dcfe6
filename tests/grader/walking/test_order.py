"""A person's order: what is at hand first, a removal when it is needed, of several readings the lightest."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from grader.board.board import Board, board_from_text
from grader.board.steps import WalkStep
from grader.ladder import LADDER, TECHNIQUES
from grader.walking.breaths import STEPS_AT_MOST, in_breaths
from grader.walking.load import load_of
from grader.walking.thinking import Thinking, lightest
from grader.walking.thinning import Goal, Work, retold, uses
from grader.walking.walk import Walk, shortest_argument, walk
from tests.corpus.puzzles import puzzle_at
from tests.grader.boards import agrees, audit
from tests.grader.walks import small_puzzles, some_walks
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage

some_puzzles = settings(max_examples=30, deadline=None)
RANKS = [technique.id for technique in LADDER]


def arguments(walked: Walk) -> list[list[WalkStep]]:
    """Divide a walk after each step that writes something in."""
    found: list[list[WalkStep]] = [[]]
    for taken in walked.told:
        found[-1].append(taken)
        if taken.step.places:
            found.append([])
    return [argument for argument in found if argument]


def told(board: Board) -> list[str]:
    """Name the steps of the shortest argument to the next digit: its technique, and where it acts."""
    found = shortest_argument(board)
    name = board.layout.grid.cell_name
    return [
        f"{taken.step.technique} {' '.join(name(cell) for cell, _ in taken.step.places)}".strip()
        for taken in (found.steps if found else ())
    ]


def test_a_digit_at_hand_comes_before_an_easier_removal() -> None:
    # The cage of 3 in row 1 is easy, but it gives no digit; r3c1 has one candidate left.
    board = board_from_text("12 123 . .\n. . . .\n4? . . .", [Cage((0, 1), 3)], size=4)
    assert told(board) == ["naked-single r3c1"]


def test_a_removal_is_told_when_a_digit_needs_it_and_no_other_is() -> None:
    # Both cages of 3 have one combination; only that of row 4 leaves a digit: 3 in r4c3.
    text = ". . . .\n. . . .\n. . . .\n124 123 1234 123"
    board = board_from_text(text, [Cage((0, 1), 3), Cage((12, 13), 3)], size=4)
    assert told(board) == ["single-combination", "hidden-single-line r4c3"]


def test_of_several_digits_the_one_with_the_lighter_argument_comes_first() -> None:
    # 3 in r4c3 needs one cage; 4 in r1c4 needs another one and a pair as well.
    text = ". . . .\n. . . .\n. . . .\n124 123 1234 123"
    found = shortest_argument(board_from_text(text, [Cage((12, 13), 3)], size=4))
    assert found is not None
    assert found.load == sum(load_of(taken.step, taken.board) for taken in found.steps)
    assert len(found.steps) == 2


def test_the_argument_for_a_cell_ends_there() -> None:
    board = board_from_text("1 2 3 .\n. . . .\n. . . .\n4 3 2 .", size=4)
    found = shortest_argument(board, cell=15)
    assert found is not None
    assert found.steps[-1].step.places == ((15, 1),)
    assert not found.contradicts


def test_an_argument_on_a_board_that_cannot_be_ends_with_a_cell_that_has_nothing_left() -> None:
    board = board_from_text("1 2 3? 3?", size=4)
    found = shortest_argument(board, cell=15)
    assert found is not None
    assert found.contradicts
    assert [taken.step.places for taken in found.steps] == [((2, 3),)]


def test_an_argument_names_the_houses_by_which_digits_in_sight_close_something() -> None:
    board = board_from_text("1 2 . .\n. . . .\n. . 3 .", size=4)  # 3 is in column 3, so row 1 has it in r1c4
    found = shortest_argument(board, cell=3)
    assert found is not None
    names = {board.layout.rules[rule].called(board.layout.grid) for rule in found.rules}
    assert names == {"row 1", "column 3"}


def test_a_step_is_told_in_its_lightest_reading() -> None:
    # r1c4 is the last cell of row 1, and the only place for its 4 in box 2, where more is open.
    board = board_from_text("1 2 3 .\n4 . . .", size=4)
    heavy = next(step for step in TECHNIQUES["hidden-single-box"].find(board) if step.places == ((3, 4),))
    light = lightest(heavy, board, LADDER)
    assert light.technique == "last-cell-of-house"
    assert load_of(light, board) < load_of(heavy, board)


def test_a_removal_with_one_use_is_told_in_one_breath_with_it() -> None:
    text = ". . . .\n. . . .\n. . . .\n124 123 1234 123"
    found = shortest_argument(board_from_text(text, [Cage((12, 13), 3)], size=4))
    assert found is not None
    assert [taken.breath for taken in found.steps] == [1, 1]


@some_puzzles
@given(small_puzzles())
def test_breaths_are_short_and_follow_one_another(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    breaths = [taken.breath for taken in walked.told]
    assert breaths == sorted(breaths)
    assert all(breaths.count(breath) <= STEPS_AT_MOST for breath in breaths)
    assert in_breaths(walked.told) == walked.told


@some_puzzles
@given(small_puzzles())
def test_whatever_is_removed_is_used(puzzle: Puzzle) -> None:
    for argument in arguments(walk(puzzle)):
        if argument[-1].step.places:
            assert all(uses(argument[0].board, argument)[:-1])


@some_puzzles
@given(small_puzzles())
def test_no_removal_can_be_left_out(puzzle: Puzzle) -> None:
    for argument in arguments(walk(puzzle)):
        if argument[-1].step.places:
            goal = Goal(argument[-1].step.places[0][0])
            for number in range(len(argument) - 1):
                rest = [*argument[:number], *argument[number + 1 :]]
                assert retold(argument[0].board, rest, goal, Work(1000)) is None


@some_puzzles
@given(small_puzzles())
def test_the_shortest_argument_on_any_board_holds_and_is_not_too_hard(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    for taken in walked.told[::5] if walked.filling else ():
        found = shortest_argument(taken.board.looking_at(taken.board.layout.all_cells))
        assert found is not None
        assert all(audit(each.step, each.board) for each in found.steps)
        assert found.steps[-1].step.places
        hardest = max(RANKS.index(each.step.technique) for each in walked.told)
        assert max(RANKS.index(each.step.technique) for each in found.steps) <= hardest


@pytest.mark.reference
def test_the_way_to_a_cell_is_no_longer_than_the_walk_and_no_harder() -> None:
    for walked in some_walks():
        assert walked.filling is not None
        placed = [cell for taken in walked.told for cell, _ in taken.step.places]
        for cell in placed[20::30]:
            story = walked.story_of(cell).steps
            until = next(n for n, taken in enumerate(walked.told) if cell in dict(taken.step.places))
            before = walked.told[: until + 1]
            assert len(story) <= len(before)
            assert max(map(_rank, story)) <= max(map(_rank, before))
            assert all(agrees(taken.step, walked.filling) for taken in story)


def test_the_way_to_the_middle_of_coopers_yard_is_short() -> None:
    walked = walk(puzzle_at("killers/coopers-yard.yaml"))
    assert len(walked.story_of(37).steps) <= 10  # 65 when the story was a slice of the walk


def test_a_walk_goes_on_from_any_board() -> None:
    puzzle = puzzle_at("killers/coopers-yard.yaml")
    half = walk(puzzle).told[40].board
    onward = walk(puzzle, board=half.looking_at(half.layout.all_cells))
    assert onward.filling == walk(puzzle).filling
    assert onward.told[0].board.placed == half.placed


def test_thinking_knows_more_than_it_tells() -> None:
    board = board_from_text(
        ". . . .\n. . . .\n. . . .\n124 123 1234 123", [Cage((0, 1), 3), Cage((12, 13), 3)], size=4
    )
    thinking = Thinking(board, LADDER)
    thinking.next_argument()
    assert thinking.known.candidates[0] == mask_of([1, 2])
    assert thinking.told.candidates[0] != mask_of([1, 2])


def _rank(taken: WalkStep) -> int:
    return RANKS.index(taken.step.technique)

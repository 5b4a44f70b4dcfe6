"""What holds of every technique on the ladder, on boards made at random; CP-SAT judges each step."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

import pytest
from hypothesis import Phase, find, given, settings
from hypothesis import strategies as st

from grader.board import Board
from grader.ladder import LADDER
from grader.steps import Step
from grader.technique import Technique
from tests.grader.boards import Position, agrees, audit, derived, positions
from tests.grader.symmetries import Turned, in_order
from tests.symmetries import rearrangements
from verifier.puzzle.grid import Grid

NINE = Grid.square(9)
GRIDS = st.sampled_from([Grid.square(4), Grid.square(6), Grid.square(6, (3, 2)), NINE, NINE, NINE])

TRACED = {technique.id for technique in LADDER if technique.id.endswith("-chain")} | {
    "almost-locked-pair",
    "almost-locked-triple",
    "cage-subset",
    "cut-sums",
    "equal-cells",
    "grouped-links",
    "multi-colouring",
    "simple-colouring",
    "trial",
}
"""Techniques that give one of several ways to a conclusion: which one is not fixed, only how long it is."""

# A failing board is shown as it was drawn: to make it smaller, out of hundreds of draws, takes minutes.
some_boards = settings(max_examples=40, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])


@st.composite
def any_position(draw: st.DrawFn) -> Position:
    return draw(positions(draw(GRIDS), killer=draw(st.booleans())))


def every_step(board: Board, at_most: int | None = None) -> Iterator[Step]:
    """The steps of every technique, or the first few of each."""
    for technique in LADDER:
        yield from islice(technique.find(board), at_most)


def steps_of(technique: Technique, board: Board) -> set[Step]:
    steps = {in_order(step) for step in technique.find(board)}
    return {without_the_way(step) for step in steps} if technique.id in TRACED else steps


def without_the_way(step: Step) -> Step:
    return Step(step.technique, step.places, step.removes, length=step.length)


@pytest.mark.parametrize("technique", LADDER, ids=lambda technique: technique.id)
def test_the_boards_give_every_technique_something_to_find(technique: Technique) -> None:
    # Always the same boards, so that a rare pattern does not fail a run by chance.
    boards = settings(max_examples=500, phases=[Phase.generate], database=None, derandomize=True)
    killers = positions(NINE, killer=True)
    assert find(killers, lambda position: bool(steps_of(technique, position.board)), settings=boards)


@some_boards
@given(any_position())
def test_a_step_keeps_the_solution(position: Position) -> None:
    for step in every_step(position.board):
        assert agrees(step, position.solution)


@some_boards
@given(any_position())
def test_a_step_follows_from_its_premises_alone(position: Position) -> None:
    for step in every_step(position.board, at_most=3):
        assert audit(step, position.board)


@some_boards
@given(any_position())
def test_a_derived_sum_is_made_of_the_sums_of_its_houses_and_cages(position: Position) -> None:
    for step in every_step(position.board):
        assert all(derived(premise, position.board) for premise in step.sums)


@some_boards
@given(any_position())
def test_a_step_places_or_removes_only_what_is_open(position: Position) -> None:
    candidates, placed = position.board.candidates, position.board.placed
    for step in every_step(position.board):
        assert step.places or step.removes
        assert all(candidates[cell] >> digit & 1 and not placed >> cell & 1 for cell, digit in step.places)
        assert all(gone and gone & candidates[cell] == gone for cell, gone in step.removes)


@some_boards
@given(any_position())
def test_a_step_lists_its_cells_in_reading_order(position: Position) -> None:
    for step in every_step(position.board):
        assert list(step.places) == sorted(step.places)
        assert list(step.removes) == sorted(step.removes)
        assert list(step.looks) == sorted(set(step.looks))


@some_boards
@given(st.data())
def test_turning_and_relabelling_the_board_turns_and_relabels_the_steps(data: st.DataObject) -> None:
    position = data.draw(any_position())
    turned = Turned(position.puzzle, position.board, data.draw(rearrangements(position.puzzle)))
    for technique in LADDER:
        expected = turned.steps(steps_of(technique, position.board))
        assert not steps_of(technique, turned.board) ^ expected


@some_boards
@given(any_position())
def test_a_second_call_finds_the_same(position: Position) -> None:
    assert list(every_step(position.board)) == list(every_step(position.board))


@some_boards
@given(any_position(), st.lists(st.integers(0), max_size=6))
def test_nothing_is_missed_by_looking_at_fresh_cells_only(position: Position, chosen: list[int]) -> None:
    board, solution = position.board, position.solution
    cells = sorted({number % len(solution) for number in chosen})
    wrong = Step(
        "given", removes=tuple((cell, board.layout.all_digits & ~(1 << solution[cell])) for cell in cells)
    )
    for technique in LADDER:
        seen = board.after(technique.find(board))
        later = seen.after([wrong])
        narrow, wide = (later.looking_at(fresh) for fresh in (seen.fresh | later.fresh, board.fresh))
        assert not steps_of(technique, narrow) ^ steps_of(technique, wide)

"""What holds of every technique on boards with marks, lines and clues at the edge; a solver judges them."""

from __future__ import annotations

from functools import cached_property

from hypothesis import Phase, find, given, settings
from hypothesis import strategies as st

from grader.board.board import Board
from grader.board.layout import layout_of
from grader.board.steps import Step, WalkStep
from grader.ladder import TECHNIQUES
from tests.grader.boards import Position, agrees
from tests.grader.laws import (
    Case,
    a_second_call_finds_the_same,
    a_step_lists_its_cells_in_reading_order,
    a_step_places_or_removes_only_what_is_open,
    nothing_is_missed_by_looking_at_fresh_cells_only,
)
from tests.grader.symmetries import Turned
from tests.grader.techniques.clue_boards import clued_positions
from tests.symmetries import Rearrangement, rearrangements
from verifier.audit.audit import audit_step
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule

AUDITED = 3
"""So many steps of a technique are audited on one board."""
LONG = ("trial", "wide-forcing-chain", "forcing-chain", "contradiction-chain", "almost-locked-chain")
"""Techniques that take long on a board, and look at clues no other way than shorter ones do."""
RARE = {"circle-digits", "low-and-high-in-house", "too-few-partners", "certain-in-block"}
"""Techniques for which few of the boards have anything; `test_clues` has examples."""
WITH_CLUES = {name for name, one in TECHNIQUES.items() if ".clues." in one.find.__module__} - RARE

some_boards = settings(max_examples=15, deadline=None, phases=[Phase.explicit, Phase.reuse, Phase.generate])


class CluedCase(Case):
    """A case of which the long techniques are left out."""

    @cached_property
    def found(self) -> dict[str, tuple[Step, ...]]:
        used = {name: technique for name, technique in TECHNIQUES.items() if name not in LONG}
        return {name: tuple(technique.find(self.board)) for name, technique in used.items()}


class Clued(Rearrangement):
    """Another form of a puzzle with clues, each of which has one."""

    def clue(self, clue: Rule) -> Rule | None:
        return clue.moved(self.cells).relabelled(self.digits)

    def puzzle(self, puzzle: Puzzle) -> Puzzle:
        turned = [self.clue(rule) for rule in clues_of(puzzle)]
        return make_puzzle("classic", self.grid, clues=[clue for clue in turned if clue is not None])

    def effect(self, step: Step) -> tuple[object, ...]:
        """What a step does, in this form."""
        places = {(self.cells[cell], 1 << self.digits[digit]) for cell, digit in step.places}
        removes = {
            (
                self.cells[cell],
                sum(1 << other for digit, other in enumerate(self.digits) if gone >> digit & 1),
            )
            for cell, gone in step.removes
        }
        return step.length, frozenset(places), frozenset(removes)


def clues_of(puzzle: Puzzle) -> list[Rule]:
    return [rule for rule in puzzle.rules if type(rule) not in (House, Given)]


@st.composite
def cases(draw: st.DrawFn) -> CluedCase:
    position = draw(clued_positions())
    form = draw(rearrangements(make_puzzle("killer", position.puzzle.grid)))
    numbers = draw(st.lists(st.integers(0), max_size=6))
    closing = tuple(sorted({number % len(position.solution) for number in numbers}))
    return CluedCase(position, Clued(form.grid, form.cells, form.digits), closing)


@some_boards
@given(cases())
def test_every_step_follows_from_its_premises_and_keeps_the_solution(case: CluedCase) -> None:
    assert [step for step in case.steps if not agrees(step, case.position.solution)] == []
    some = [step for found in case.found.values() for step in found[:AUDITED]]
    assert [step for step in some if not audit_step(WalkStep(step, case.board)).passed] == []


@some_boards
@given(cases())
def test_no_other_law_is_broken(case: CluedCase) -> None:
    for law in (
        a_second_call_finds_the_same,
        a_step_lists_its_cells_in_reading_order,
        a_step_places_or_removes_only_what_is_open,
        nothing_is_missed_by_looking_at_fresh_cells_only,
    ):
        assert list(law(case)) == [], law.__name__


@some_boards
@given(cases())
def test_turning_the_board_turns_what_goes(case: CluedCase) -> None:
    form, old = case.form, case.board
    assert isinstance(form, Clued)
    kept = [clue for clue in clues_of(case.position.puzzle) if form.clue(clue) is not None]
    puzzle = make_puzzle("classic", case.position.puzzle.grid, clues=kept)
    board = Board(layout_of(puzzle), old.candidates, old.placed, old.fresh)
    turned = Turned(puzzle, board, form).board
    same = Clued(puzzle.grid, tuple(range(puzzle.grid.cell_count)), tuple(range(puzzle.grid.digits + 1)))
    for name in case.found:
        there = {same.effect(step) for step in TECHNIQUES[name].find(turned)}
        assert there == {form.effect(step) for step in TECHNIQUES[name].find(board)}, name


def test_the_boards_give_every_technique_something_to_find() -> None:
    # Always the same boards, so that a rare pattern does not fail a run by chance.
    boards = settings(max_examples=500, phases=[Phase.generate], database=None, derandomize=True)
    missing = set(WITH_CLUES)

    def all_found(position: Position) -> bool:
        missing.difference_update({name for name in missing if any(TECHNIQUES[name].find(position.board))})
        return not missing

    assert find(clued_positions(), all_found, settings=boards)

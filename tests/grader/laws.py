"""The laws of techniques: what holds of every technique on the ladder, on any board.

A law is a function that yields the steps that break it; its name says what it demands. The suite tries all of
them on some boards, ``scripts.study_laws`` on many.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from hypothesis import strategies as st

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.ladder import LADDER, TECHNIQUES
from tests.grader.boards import Position, agrees, audit, derived, positions
from tests.grader.symmetries import Turned, in_order
from tests.symmetries import Rearrangement, rearrangements
from verifier.puzzle.grid import Grid

__all__ = ["BOARDS", "LAWS", "NINE", "Case", "Law", "broken", "cases", "steps_of"]

NINE = Grid.square(9)
_GRIDS = st.sampled_from([Grid.square(4), Grid.square(6), Grid.square(6, (3, 2)), NINE, NINE, NINE])

BOARDS = 40
"""The suite tries the laws on so many boards."""

_AUDITED = 3
"""A solver is asked about so many steps of a technique on one board."""

_TRACED = {technique.id for technique in LADDER if technique.id.endswith("-chain")} | {
    "almost-locked-pair",
    "almost-locked-triple",
    "cage-subset",
    "cut-sums",
    "equal-cells",
    "grouped-links",
    "two-clusters",
    "one-cluster",
    "trial",
}
"""Techniques that give one of several ways to a conclusion: which one is not fixed, only how long it is."""


@dataclass(frozen=True)
class Case:
    """A board to try the laws on.

    `form` is another form of its puzzle, `closing` the cells that lose all their wrong digits between a first
    and a second look.
    """

    position: Position
    form: Rearrangement
    closing: tuple[int, ...]

    @property
    def board(self) -> Board:
        """The board."""
        return self.position.board

    @cached_property
    def found(self) -> Mapping[str, tuple[Step, ...]]:
        """The steps of every technique on the board."""
        return {technique.id: tuple(technique.find(self.board)) for technique in LADDER}

    @property
    def steps(self) -> Iterator[Step]:
        """All of them, in the order of the ladder."""
        for found in self.found.values():
            yield from found


Law = Callable[[Case], Iterator[Step]]


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """Positions of classics and killers of some sizes, each with all that the laws need besides."""
    position = draw(positions(draw(_GRIDS), killer=draw(st.booleans())))
    numbers = draw(st.lists(st.integers(0), max_size=6))
    closing = tuple(sorted({number % len(position.solution) for number in numbers}))
    return Case(position, draw(rearrangements(position.puzzle)), closing)


def steps_of(technique: Technique, board: Board) -> set[Step]:
    """What a technique finds, as far as it must not depend on the order of anything."""
    return _fixed(technique, technique.find(board))


def _fixed(technique: Technique, steps: Iterable[Step]) -> set[Step]:
    ordered = {in_order(step) for step in steps}
    return {_without_the_way(step) for step in ordered} if technique.id in _TRACED else ordered


def _without_the_way(step: Step) -> Step:
    return Step(step.technique, step.places, step.removes, length=step.length)


def a_step_keeps_the_solution(case: Case) -> Iterator[Step]:
    return (step for step in case.steps if not agrees(step, case.position.solution))


def a_step_follows_from_its_premises_alone(case: Case) -> Iterator[Step]:
    for found in case.found.values():
        yield from (step for step in found[:_AUDITED] if not audit(step, case.board))


def a_derived_sum_is_made_of_the_sums_of_its_houses_and_cages(case: Case) -> Iterator[Step]:
    return (step for step in case.steps if not all(derived(premise, case.board) for premise in step.sums))


def a_step_places_or_removes_only_what_is_open(case: Case) -> Iterator[Step]:
    candidates, placed = case.board.candidates, case.board.placed
    for step in case.steps:
        stand = all(candidates[cell] >> digit & 1 and not placed >> cell & 1 for cell, digit in step.places)
        go = all(gone and gone & candidates[cell] == gone for cell, gone in step.removes)
        if not (step.places or step.removes) or not stand or not go:
            yield step


def a_step_lists_its_cells_in_reading_order(case: Case) -> Iterator[Step]:
    for step in case.steps:
        listed = [list(step.places), list(step.removes), list(step.looks)]
        if listed != [sorted(step.places), sorted(step.removes), sorted(set(step.looks))]:
            yield step


def turning_and_relabelling_the_board_turns_and_relabels_the_steps(case: Case) -> Iterator[Step]:
    turned = Turned(case.position.puzzle, case.board, case.form)
    for technique in LADDER:
        expected = turned.steps(_fixed(technique, case.found[technique.id]))
        yield from steps_of(technique, turned.board) ^ expected


def a_second_call_finds_the_same(case: Case) -> Iterator[Step]:
    for name, found in case.found.items():
        again = tuple(TECHNIQUES[name].find(case.board))
        if again != found:
            yield from again


def nothing_is_missed_by_looking_at_fresh_cells_only(case: Case) -> Iterator[Step]:
    board, solution = case.board, case.position.solution
    wrong = Step(
        "given", removes=tuple((c, board.layout.all_digits & ~(1 << solution[c])) for c in case.closing)
    )
    for name, found in case.found.items():
        technique, seen = TECHNIQUES[name], board.after(found)
        later = seen.after([wrong])
        narrow, wide = (later.looking_at(fresh) for fresh in (seen.fresh | later.fresh, board.fresh))
        yield from steps_of(technique, narrow) ^ steps_of(technique, wide)


LAWS: tuple[Law, ...] = (
    a_step_keeps_the_solution,
    a_step_follows_from_its_premises_alone,
    a_derived_sum_is_made_of_the_sums_of_its_houses_and_cages,
    a_step_places_or_removes_only_what_is_open,
    a_step_lists_its_cells_in_reading_order,
    turning_and_relabelling_the_board_turns_and_relabels_the_steps,
    a_second_call_finds_the_same,
    nothing_is_missed_by_looking_at_fresh_cells_only,
)


def broken(case: Case) -> dict[str, list[Step]]:
    """The laws that do not hold on a board, each with the steps that break it."""
    found = {law.__name__: list(law(case)) for law in LAWS}
    return {law: steps for law, steps in found.items() if steps}

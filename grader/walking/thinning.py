"""Of steps that lead to a goal, those that it rests on, each told anew on the board that the others lead to.

What was found on the way to a goal is more than the goal needs. It is made less in three passes:

- *slicing*: going backwards from the goal, a step is kept if a kept step needs what it closed. A technique
  that follows one digit, such as a hidden single, needs only that digit gone from the cells it looks at;
  any other is taken to need all that is closed there, which is too much;
- *deletion*: each step is left out in turn, the last first, and stays out if the goal is reached without it:
  the steps behind it are looked for again on the boards that are left, by the same technique;
- *order*: each step is told right before the first that needs it.

What a placed digit takes from the cells that see it is no step; it is free once the digit is placed.

Source: deletion as in the search for minimal unsatisfiable sets (Chinneck and Dravnieks, ORSA Journal on
Computing 3(2), 1991, from memory), with a person's techniques in the place of a solver.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.steps import Step, WalkStep
from grader.board.technique import Trait
from grader.ladder import TECHNIQUES
from grader.walking.load import load_of, load_of_all
from verifier.puzzle.masks import bits

__all__ = ["Goal", "Work", "in_order", "retold", "sliced", "still_open", "thinned", "uses"]


class Goal(NamedTuple):
    """What an argument is for.

    Parameters
    ----------
    cell : int
        The cell it is about.
    gone : int
        Mask of the digits that it closes there; 0 where it writes in the digit of the cell.
    """

    cell: int
    gone: int = 0

    def reached(self, board: Board) -> bool:
        """Whether a board is where the argument leads."""
        if self.gone:
            return not board.candidates[self.cell] & self.gone
        return bool(board.placed >> self.cell & 1)


class Work:
    """How often a technique may still be asked again: a limit that is the same on every machine."""

    def __init__(self, asks: int) -> None:
        self.left = asks

    @property
    def done(self) -> bool:
        """Whether nothing is left."""
        return self.left <= 0


def retold(board: Board, steps: Sequence[WalkStep], goal: Goal, work: Work) -> tuple[WalkStep, ...] | None:
    """Tell steps anew from another board on, up to the goal; those that do nothing there are left out.

    Returns
    -------
    tuple of WalkStep or None
        None where they do not reach the goal any more.
    """
    told = []
    for taken in steps:
        step = _again(taken, board, work)
        if step is not None:
            told.append(replace(taken, step=step, board=board))
            board = board.after([step])
            if goal.reached(board):
                return tuple(told)
    return None


def _again(taken: WalkStep, board: Board, work: Work) -> Step | None:
    """Return a step as its technique finds it on another board; None where it does nothing there.

    There it may do more or less than where it was found first. Where the technique does not find it, it
    stands as it was if all that it needs is closed as it was.
    """
    step, before = taken.step, taken.board
    todo = still_open(step, board)
    if todo is None or (board.placed == before.placed and board.candidates == before.candidates):
        return todo
    if not _dear(step) and not work.done:
        work.left -= 1
        look_at_clock()
        found = [
            other
            for other in TECHNIQUES[step.technique].find(board.looking_at(step.cells))
            if _in_common(other, todo)
        ]
        if found:
            return min(
                found,
                key=lambda other: (
                    -_in_common(other, todo),
                    other.focus != step.focus,
                    load_of(other, board),
                    other.effect,
                ),
            )
    concern = _concern(step, board)
    closed = all(not board.candidates[cell] & ~before.candidates[cell] & concern for cell in step.looks)
    written = all(board.placed >> cell & 1 or not before.placed >> cell & 1 for cell in step.looks)
    return todo if closed and (written or concern != board.layout.all_digits) else None


def _dear(step: Step) -> bool:
    """Whether a step is found only by a search all over the grid."""
    return bool(step.length) or Trait.TRIAL in TECHNIQUES[step.technique].traits


def still_open(step: Step, board: Board) -> Step | None:
    """Return the step with what is left for it to do; None where that is nothing."""
    removes = tuple(
        (cell, gone & board.candidates[cell]) for cell, gone in step.removes if gone & board.candidates[cell]
    )
    places = tuple(place for place in step.places if not board.placed >> place[0] & 1)
    if not removes and not places:
        return None
    return step if (places, removes) == step.effect else replace(step, places=places, removes=removes)


def _in_common(one: Step, other: Step) -> int:
    """Return how much of what one step does the other does too."""
    removes = dict(other.removes)
    return len(set(one.places) & set(other.places)) + sum(
        (gone & removes.get(cell, 0)).bit_count() for cell, gone in one.removes
    )


def _concern(step: Step, board: Board) -> int:
    """Return the mask of the digits that must be closed where the step looks."""
    follows = Trait.FOLLOWS_ITS_DIGITS in TECHNIQUES[step.technique].traits
    return step.digits if follows else board.layout.all_digits


def thinned(board: Board, steps: Sequence[WalkStep], goal: Goal, work: Work) -> tuple[WalkStep, ...] | None:
    """Return some of the steps, none of which can be left out, that reach the goal from a board.

    Parameters
    ----------
    board : Board
        From where.
    steps : sequence of WalkStep
        In an order in which they can be taken.
    goal : Goal
        What for.
    work : Work
        When it is used up, what is left stays as it is.

    Returns
    -------
    tuple of WalkStep or None
        Each on the board that those before it lead to; None where they do not reach the goal.
    """
    told = retold(board, steps, goal, work)
    at = len(told) - 2 if told else -1
    while told and at >= 0 and not work.done:
        rest = retold(told[at].board, told[at + 1 :], goal, work)
        if rest is not None:
            shorter = (*told[:at], *rest)
            if load_of_all(shorter) < load_of_all(told):
                told = shorter
        at = min(at, len(told) - 1) - 1
    return told


def sliced(board: Board, steps: Sequence[WalkStep], goal: Goal) -> list[WalkStep]:
    """Return the steps that the goal may rest on: a quick look backwards, which keeps too many."""
    givers = _Givers(board, steps)
    kept = set(givers.of_goal(goal))
    for number in range(len(steps) - 1, -1, -1):
        if number in kept:
            kept |= givers.of(number)
    return [steps[number] for number in sorted(kept)]


def uses(board: Board, steps: Sequence[WalkStep]) -> list[set[int]]:
    """Return, for each step, the places of the later ones that need something it closed."""
    givers = _Givers(board, steps)
    used: list[set[int]] = [set() for _ in steps]
    for number in range(len(steps)):
        for giver in givers.of(number):
            used[giver].add(number)
    return used


def in_order(board: Board, steps: Sequence[WalkStep], goal: Goal, work: Work) -> tuple[WalkStep, ...]:
    """Return the same steps, each right before the first that needs it, as far as they are found so."""
    givers = _Givers(board, steps)
    order: list[int] = []

    def visit(number: int) -> None:
        if number not in order:
            for giver in sorted(givers.of(number)):
                visit(giver)
            order.append(number)

    visit(len(steps) - 1)
    if len(order) == len(steps) and order != sorted(order):
        told = retold(board, [steps[number] for number in order], goal, work)
        if told is not None and len(told) <= len(steps):
            return told
    return tuple(steps)


class _Givers:
    """Which of some steps closed what since a board: for each candidate the first to do so."""

    def __init__(self, board: Board, steps: Sequence[WalkStep]) -> None:
        self._board, self._steps = board, steps
        self._first: dict[tuple[int, int], int] = {}
        self._written: dict[int, int] = {}
        layout = board.layout
        for number, taken in enumerate(steps):
            for cell, gone in taken.step.removes:
                for digit in bits(gone):
                    self._first.setdefault((cell, digit), number)
            for cell, digit in taken.step.places:
                self._written.setdefault(cell, number)
                for other in bits(layout.all_digits & ~(1 << digit)):
                    self._first.setdefault((cell, other), number)
                for peer in layout.peers[cell]:
                    self._first.setdefault((peer, digit), number)

    def of(self, number: int) -> set[int]:
        """Return the steps that one step needs."""
        step, before = self._steps[number].step, self._steps[number].board
        return {
            giver
            for cell in step.looks
            for giver in self._of_cell(cell, before, _concern(step, before))
            if giver < number
        }

    def of_goal(self, goal: Goal) -> set[int]:
        """Return the steps that reach a goal."""
        if not goal.gone:
            return {self._written[goal.cell]}
        closed = self._board.candidates[goal.cell] & goal.gone
        return {self._first[goal.cell, digit] for digit in bits(closed)}

    def _of_cell(self, cell: int, before: Board, concern: int) -> Iterator[int]:
        if concern == before.layout.all_digits and before.placed >> cell & 1 and cell in self._written:
            yield self._written[cell]
            return
        for digit in bits(self._board.candidates[cell] & ~before.candidates[cell] & concern):
            yield self._first[cell, digit]

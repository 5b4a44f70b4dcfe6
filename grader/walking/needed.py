"""The steps that matter: those that a later step, or the end of the story, rests on.

A walk removes much that nobody needs. Going backwards from the end, a step is kept if it took away a
candidate that a kept step needs gone; the others are left out. What a step needs is found in two ways:

- a technique that follows one digit, such as a hidden single, needs only that digit gone from the cells it
  looks at; any other needs all that is closed there;
- where that leaves a removal that only one step needs, the technique is asked whether it finds the same
  without it.

What a placed digit takes from the cells that see it is free once the digit is placed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from grader.board.board import Board, bits
from grader.board.steps import Step, WalkStep
from grader.board.technique import Trait
from grader.ladder import LADDER, TECHNIQUES

__all__ = ["needed_steps"]

_Fact = tuple[int, int]  # a cell, and a digit that is closed in it


def needed_steps(steps: Sequence[WalkStep], goals: Sequence[int]) -> tuple[WalkStep, ...]:
    """Return the steps that some goals rest on, and the goals, each on the board that the others lead to.

    Parameters
    ----------
    steps : sequence of WalkStep
        The steps of a walk, from its beginning.
    goals : sequence of int
        The places in it of the steps that are kept whatever happens.
    """
    rigid: set[int] = set()
    while goals:
        told = list(_Story(steps, goals, rigid).told())
        failed = {number for number, taken in told if taken is None}
        if not failed:
            return tuple(taken for _, taken in told if taken is not None)
        rigid |= failed
    return ()


class _Story:
    """Which steps are kept, and for which facts. Working memory of one pass backwards.

    Parameters
    ----------
    steps : sequence of WalkStep
        The whole walk.
    goals : sequence of int
        The steps that are kept whatever happens.
    rigid : set of int
        Steps that must find exactly what was closed before them; nothing is spared in their premises.
    """

    def __init__(self, steps: Sequence[WalkStep], goals: Sequence[int], rigid: set[int]) -> None:
        self._steps = steps
        self._rigid = rigid
        self._givers = _givers(steps)
        self._placed_at = {cell: n for n, taken in enumerate(steps) for cell, _ in taken.step.places}
        self._rank = {technique.id: rank for rank, technique in enumerate(LADDER)}
        self._wanted: dict[int, set[_Fact]] = {number: set() for number in goals}
        for number in range(len(steps) - 1, -1, -1):
            if number in self._wanted:
                self._want(number)

    def told(self) -> Iterator[tuple[int, WalkStep | None]]:
        """Yield the kept steps, each on the board the others lead to; None where it is not found there."""
        board = self._steps[0].board
        for number in sorted(self._wanted):
            step = self._again(number, board)
            if step is None:
                yield number, None
            elif step.places or step.removes:  # the kept steps before it may do its work by now
                yield number, replace(self._steps[number], step=step, board=board)
            board = board.after([step or self._steps[number].step])

    def _want(self, number: int) -> None:
        """Keep whatever the step rests on."""
        step, board = self._steps[number].step, self._steps[number].board
        missing = {
            fact: givers for fact, givers in self._rests_on(step, board, number) if not self._kept(givers)
        }
        spare = [] if number in self._rigid else self._spare(step, board, missing)
        for fact, givers in missing.items():
            if fact not in spare and not self._kept(givers):
                self._wanted[min(givers, key=self._ease)] = set()
        for fact, givers in self._rests_on(step, board, number):
            kept = [giver for giver in givers if giver in self._wanted]
            if kept and fact not in spare:
                self._wanted[min(kept, key=self._ease)].add(fact)

    def _kept(self, givers: Iterable[int]) -> bool:
        return any(giver in self._wanted for giver in givers)

    def _ease(self, number: int) -> tuple[bool, int, int]:
        """Order the steps that could give a fact: placed digits first, then the simplest, the earliest."""
        step = self._steps[number].step
        return not step.places, self._rank[step.technique], number

    def _rests_on(self, step: Step, board: Board, number: int) -> Iterator[tuple[_Fact, list[int]]]:
        """Yield each fact that a step needs and that some earlier step gave, with those steps."""
        follows = Trait.FOLLOWS_ITS_DIGITS in TECHNIQUES[step.technique].traits and number not in self._rigid
        concern = step.digits if follows else board.layout.all_digits
        opening = self._steps[0].board
        for cell in step.looks:
            placed_at = self._placed_at.get(cell, number)
            for digit in bits(opening.candidates[cell] & ~board.candidates[cell] & concern):
                givers = [placed_at] if placed_at < number else []
                if placed_at >= number or follows:
                    givers += [giver for giver in self._givers[cell, digit] if giver < number]
                yield (cell, digit), givers

    def _spare(self, step: Step, board: Board, missing: dict[_Fact, list[int]]) -> set[_Fact]:
        """Return the facts without which the technique still finds the step."""
        if step.length:
            return set()  # a chain is looked for all over the grid: too dear to look again
        by_giver: dict[int, set[_Fact]] = defaultdict(set)
        for fact, givers in missing.items():
            if not board.placed >> fact[0] & 1:
                by_giver[min(givers, key=self._ease)].add(fact)
        spare: set[_Fact] = set()
        for giver in sorted(by_giver, key=self._ease, reverse=True):
            more = spare | by_giver[giver]
            if _found(step, _reopened(board, more), step.effect) is not None:
                spare = more
        return spare

    def _again(self, number: int, board: Board) -> Step | None:
        """Return a kept step as its technique finds it on the board that the kept steps lead to.

        There it may do more than on the full board, where steps that are left out had done it before. Where
        the technique does not find it, it stands as it was if all that it looks at is closed as it was.
        """
        step, full = self._steps[number].step, self._steps[number].board
        if number not in self._rigid and not step.length:
            wanted = () if step.places else ((cell, 1 << digit) for cell, digit in self._wanted[number])
            still = tuple((cell, bit) for cell, bit in wanted if board.candidates[cell] & bit)
            found = _found(step, board, (step.places, still))
            if found is not None:
                return found
            if any(board.candidates[cell] & ~full.candidates[cell] for cell in step.looks):
                return None
        open_still = ((cell, gone & board.candidates[cell]) for cell, gone in step.removes)
        return replace(step, removes=tuple((cell, gone) for cell, gone in open_still if gone))


def _givers(steps: Sequence[WalkStep]) -> dict[_Fact, list[int]]:
    """Return, for each closed candidate, the steps any of which closes it: the first, and placed digits."""
    givers: dict[_Fact, list[int]] = defaultdict(list)
    for number, taken in enumerate(steps):
        layout = taken.board.layout
        for cell, gone in taken.step.removes:
            for digit in bits(gone):
                givers[cell, digit].append(number)
        for cell, digit in taken.step.places:
            for other in bits(layout.all_digits & ~(1 << digit)):
                givers[cell, other].append(number)
            for peer in layout.peers[cell]:
                givers[peer, digit].append(number)
    return givers


def _reopened(board: Board, facts: Iterable[_Fact]) -> Board:
    candidates = list(board.candidates)
    for cell, digit in facts:
        candidates[cell] |= 1 << digit
    return Board(board.layout, candidates, board.placed, board.layout.all_cells)


_Effect = tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]


def _found(step: Step, board: Board, needed: _Effect) -> Step | None:
    """Return the step of the same technique on another board that does at least what is needed."""
    places, removes = needed
    enough = [
        found
        for found in TECHNIQUES[step.technique].find(board.looking_at(step.cells))
        if set(places) <= set(found.places)
        and all(dict(found.removes).get(cell, 0) & gone == gone for cell, gone in removes)
    ]
    return min(enough, key=lambda found: (found.focus != step.focus, found.premise_count), default=None)

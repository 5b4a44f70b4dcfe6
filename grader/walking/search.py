"""A short way to one cell: what is lightest is found first, whatever it is about.

From a board on, the step whose whole argument has the least load is taken again and again, until it is the
one that was asked for (uniform-cost search; Dijkstra, Numerische Mathematik 1, 1959, from memory). The cost
is that of all the steps an argument rests on, each counted once. So it is no tree, and what is found first
need not be the best: it is thinned afterwards.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from itertools import count

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.steps import Step, WalkStep
from grader.board.technique import Technique, Trait
from grader.grading.tiers import default_tiers
from grader.ladder import TECHNIQUES
from grader.walking.load import load_of
from grader.walking.thinning import Goal, still_open
from verifier.puzzle.masks import bits

__all__ = ["way_to"]

EAGER_UP_TO = 3
"""Techniques of higher tiers are looked for only where the others have nothing left."""


def way_to(board: Board, cell: int, ladder: Sequence[Technique]) -> tuple[list[WalkStep], Goal] | None:
    """Return steps that lead from a board to the digit of a cell, in an order in which they can be taken.

    Parameters
    ----------
    board : Board
        From where.
    cell : int
        A cell without a digit.
    ladder : sequence of Technique
        What may be used.

    Returns
    -------
    list of WalkStep, and Goal
        The goal is the digit, or a contradiction where one is found first. None where neither is.
    """
    return _Search(board, cell, ladder).run()


class _Search:
    """What has been found and taken. Working memory of one search."""

    def __init__(self, board: Board, cell: int, ladder: Sequence[Technique]) -> None:
        self._opening = self._board = board
        self._cell = cell
        self._ladder = ladder
        self._unseen = [board.layout.all_cells] * len(ladder)
        self._queue: list[tuple[int, int, int, WalkStep, int]] = []
        self._number = count()
        self._taken: list[WalkStep] = []
        self._loads: list[int] = []
        self._rests: dict[tuple[int, int], int] = {}  # for a closed candidate, a mask of the steps it needs

    def run(self) -> tuple[list[WalkStep], Goal] | None:
        """Take one step after the other."""
        while self._look():
            *_, taken, rests = heapq.heappop(self._queue)
            if still_open(taken.step, self._board) is None:
                continue
            self._take(taken, rests)
            if 0 in self._board.candidates:
                empty = self._board.candidates.index(0)
                return self._way(Goal(empty, self._opening.candidates[empty]))
            if self._board.placed >> self._cell & 1:
                return self._way(Goal(self._cell))
        return None

    def _way(self, goal: Goal) -> tuple[list[WalkStep], Goal]:
        closed = self._opening.candidates[goal.cell] & ~self._board.candidates[goal.cell]
        kept = 0
        for digit in bits(closed):
            kept |= self._rests[goal.cell, digit]
        if not goal.gone:
            kept |= self._rests[goal.cell, 0]
        return [self._taken[number] for number in bits(kept)], goal

    def _look(self) -> bool:
        """Put what is new on the queue, easy techniques first; say whether there is anything on it."""
        tiers = default_tiers().tier_of
        for rank, technique in enumerate(self._ladder):
            if self._queue and tiers[technique.id] > EAGER_UP_TO:
                break
            if self._unseen[rank]:
                look_at_clock()
                found = technique.find(self._board.looking_at(self._unseen[rank]))
                self._unseen[rank] = 0
                for step in found:
                    self._put(step)
        return bool(self._queue)

    def _put(self, step: Step) -> None:
        rests = 0
        for fact in self._needed(step):
            rests |= self._rests[fact]
        load = load_of(step, self._board)
        cost = load + sum(self._loads[number] for number in bits(rests))
        heapq.heappush(self._queue, (cost, load, next(self._number), WalkStep(step, self._board), rests))

    def _needed(self, step: Step) -> Iterator[tuple[int, int]]:
        """Yield what must be closed, or written in, for a step: cell and digit, or 0 for the cell's own."""
        board, opening = self._board, self._opening
        follows = Trait.FOLLOWS_ITS_DIGITS in TECHNIQUES[step.technique].traits
        for cell in step.looks:
            new = opening.candidates[cell] & ~board.candidates[cell]
            if follows:
                yield from ((cell, digit) for digit in bits(new & step.digits))
            elif board.placed >> cell & 1 and not opening.placed >> cell & 1:
                yield cell, 0
            else:
                yield from ((cell, digit) for digit in bits(new))

    def _take(self, taken: WalkStep, rests: int) -> None:
        before, after = self._board, self._board.after([taken.step])
        rests |= 1 << len(self._taken)
        self._taken.append(taken)
        self._loads.append(load_of(taken.step, taken.board))
        for cell, _ in taken.step.places:
            self._rests.setdefault((cell, 0), rests)
        for cell in bits(after.fresh):
            for digit in bits(before.candidates[cell] & ~after.candidates[cell]):
                self._rests[cell, digit] = rests
        self._board = after
        self._unseen = [cells | after.fresh for cells in self._unseen]

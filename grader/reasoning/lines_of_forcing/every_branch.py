"""The branches of all candidates of a board, gone forward side by side.

A branch comes level by level to what a `Branch` comes to, and fails at the same level; only what led there
is not remembered. So one sees here which branches are worth following for their premises.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache

import numpy as np

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.layout import Layout
from grader.reasoning.clues.listed import list_ways
from grader.reasoning.lines_of_forcing.branch import Origin
from grader.reasoning.lines_of_forcing.forks import Ways, forks
from grader.reasoning.lines_of_forcing.level import Flags, Masks, Numbers, State, a_level_on, kind_of_masks
from verifier.puzzle.masks import bits

__all__ = ["EveryBranch"]

_Candidate = tuple[int, int]


class EveryBranch:
    """Some branches of a board, followed as far as anybody asks.

    Parameters
    ----------
    origin : Origin
        Where the assumptions are made; read, never changed.
    start : State
        Where they start, with the assumptions to be written in.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123", size=4)
    >>> branches = EveryBranch.of_board(board)
    >>> branches.failing(2)[:2]  # 1 in r1c3 leaves 2 for both of the others
    [(2, 1), (2, 2)]
    """

    def __init__(self, origin: Origin, start: State) -> None:
        self._origin = origin
        self._number: dict[_Candidate, int] = {}
        self._start = start
        self._known: dict[int | None, State] = {}
        self._set_out()

    def _set_out(self) -> None:
        self._going = np.arange(len(self._start.failed))
        self._now = self._start.some(self._going)
        self._level = 0

    @classmethod
    def of_board(cls, board: Board) -> EveryBranch:
        """Return the branches of every candidate of a board: one technique after another asks for them."""
        return _of_board(board.layout, tuple(board.candidates), board.placed)

    @classmethod
    def of_candidates(cls, board: Board, starts: Sequence[_Candidate]) -> EveryBranch:
        """Return one branch for each cell and digit that is taken to be right."""
        here = np.array(board.candidates, dtype=kind_of_masks(board.layout))[:, np.newaxis]
        stands = np.array([[board.placed >> cell & 1] for cell in range(len(here))], np.bool_)
        alike = State(np.zeros(1, np.bool_), here, stands, np.zeros_like(here))
        start = alike.some(np.zeros(len(starts), np.intp))
        for branch, (cell, digit) in enumerate(starts):
            start.to_write[cell, branch] = 1 << digit
        origin = Origin(board)
        for clue, _ in origin.clues:
            list_ways(board.layout, clue, board.candidates)
        branches = cls(origin, start)
        branches._number = {start: branch for branch, start in enumerate(starts)}
        return branches

    @property
    def origin(self) -> Origin:
        """Where the assumptions are made."""
        return self._origin

    @cached_property
    def pairs(self) -> Sequence[Ways]:
        """The forks of two ways."""
        return tuple(forks(self._origin, 2, 2))

    def failing(self, levels: int) -> list[_Candidate]:
        """Return the candidates whose branches fail within so many levels, in reading order."""
        starts = list(self._number)
        return sorted([starts[number] for number in np.flatnonzero(self.after(levels).failed)])

    def tell(self, forks: Sequence[Sequence[_Candidate]], levels: int) -> Sequence[bool]:
        """Return, for each fork, whether anything goes in all its ways that have not failed by then."""
        if not forks:
            return ()
        failed, candidates, *_ = self.after(levels)
        most = max(map(len, forks))
        even = [[*fork, *list(fork[:1]) * (most - len(fork))] for fork in forks]
        ways = np.array([[self._number[way] for way in fork] for fork in even])
        left = np.bitwise_or.reduce([np.where(failed[way], 0, candidates[:, way]) for way in ways.T])
        before = np.array(self._origin.board.candidates, left.dtype)[:, np.newaxis]
        told: Sequence[bool] = (before & ~left).any(axis=0).tolist()
        return told

    def after(self, levels: int | None = None) -> State:
        """Return where the branches are after some levels, or at their ends."""
        if levels not in self._known:
            if levels is not None and levels < self._level:
                self._set_out()
            while len(self._going) and (levels is None or self._level < levels):
                self._advance()
            self._known[levels] = self._now.some(np.arange(len(self._now.failed)))
        return self._known[levels]

    def _advance(self) -> None:
        look_at_clock()
        after = a_level_on(self._origin, self._now.some(self._going))
        self._now.put(self._going, after)
        self._going = self._going[~after.failed & after.to_write.any(axis=0)]
        self._level += 1

    @property
    def failed(self) -> Flags:
        """Which branches fail in the end."""
        return self.after().failed

    @property
    def tightest(self) -> Masks:
        """By cell and branch, what is open in the cells without a digit that have the fewest candidates."""
        end = self.after()
        several = np.where(end.placed, np.uint8(255), np.bitwise_count(end.candidates))
        fewest = several.min(axis=0)
        return np.asarray(np.where((several == fewest) & (fewest < 255), end.candidates, 0))

    def with_one_more(self, parents: Numbers, cells: Numbers, digits: Masks) -> EveryBranch:
        """Return some of them with one more assumption each: a cell, and the mask of its digit."""
        start = self.after().some(parents)
        start.to_write[:] = 0
        start.to_write[cells, np.arange(len(cells))] = digits
        return EveryBranch(self._origin, start)


@lru_cache(maxsize=2)
def _of_board(layout: Layout, candidates: tuple[int, ...], placed: int) -> EveryBranch:
    board = Board(layout, candidates, placed, layout.all_cells)
    places = board.places()
    starts = [
        (cell, digit)
        for digit in layout.grid.all_digits
        for cell in bits(places[digit])
        if not placed >> cell & 1 or layout.sees[cell] & places[digit]
    ]
    return EveryBranch.of_candidates(board, starts)

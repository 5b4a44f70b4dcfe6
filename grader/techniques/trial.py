"""Trial: whatever needs a line that is too long for a chain, or one that branches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.every_branch import EveryBranch
from grader.reasoning.lines_of_forcing.many_branches import ManyBranches
from grader.reasoning.lines_of_forcing.tracing import TracedPremises
from verifier.puzzle.masks import bits

__all__ = ["BRANCHES_AT_MOST", "DEPTH_AT_MOST", "TRIAL"]

BRANCHES_AT_MOST = 20_000
"""No depth of nesting is begun that could need more branches than this."""

DEPTH_AT_MOST = 3
"""Assumptions on top of one another."""

_AT_ONCE = 4096
"""Branches that are followed together: more would take much memory, and no less time each."""

_Candidate = tuple[int, int]
_Branches = ManyBranches | EveryBranch


def find_trials(board: Board) -> Iterator[Step]:
    """A candidate goes if it ends in a contradiction, whatever it takes to see that.

    Each candidate in turn is taken to be right. Where that ends in a contradiction, it goes. Where no
    single line does, each cell with the fewest candidates is tried on top of the first assumption, and
    so on, three deep::

        suppose r1c1 is 3 ... then r5c5 is 1 or 2: if 1 ... no; if 2 ... no. So r1c1 is not 3.

    Yields
    ------
    Step
        In reading order, at the smallest depth that refutes anything; ``length`` is that depth, 1 where
        one line was enough. Nothing where no depth allowed does.

    Notes
    -----
    Sound in every solution: a candidate that leads to a contradiction stands in none. All candidates are
    tried, and a depth is given up as a whole, so that the steps do not depend on any order.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123", size=4)
    >>> [(step.removes, step.length) for step in find_trials(board)][:2]
    [(((2, 2),), 1), (((2, 4),), 1)]
    """
    if board.contradicted:
        return
    starts = [
        (cell, digit)
        for cell, mask in enumerate(board.candidates)
        if not board.placed >> cell & 1
        for digit in bits(mask)
    ]
    houses_alone = ManyBranches.can_follow(board)
    search = _Search(starts, (ManyBranches if houses_alone else EveryBranch).of_candidates(board, starts))
    origin = Origin(board)
    for depth in range(1, DEPTH_AT_MOST + 1):
        if depth > 1 and sum(width ** (depth - 1) for width in search.widths) > BRANCHES_AT_MOST:
            return
        found = search.refuted(depth)
        if found:
            break
    for start, tried in found:
        branch = Branch(origin, *start)
        branch.run()
        yield _refutation(branch, depth, tried)


class _Search:
    """The search over the branches of some starts, and of what is assumed on top of them."""

    def __init__(self, starts: Sequence[_Candidate], branches: _Branches) -> None:
        self._starts = starts
        self._branches = branches

    @property
    def widths(self) -> list[int]:
        """How many assumptions there are to be made on top of each start."""
        widths: list[int] = np.bitwise_count(self._branches.tightest).sum(axis=0, dtype=np.intp).tolist()
        return widths

    def refuted(self, depth: int) -> list[tuple[_Candidate, int]]:
        """Return the starts that fail `depth` assumptions deep, where none does at less.

        With each goes the first of the tightest cells in which all candidates fail, from two assumptions on.
        """
        failed = np.flatnonzero(self._failed(self._branches, depth - 1))
        starts = [self._starts[branch] for branch in failed.tolist()]
        if depth == 1 or not starts:
            return [(start, -1) for start in starts]
        cells, digits = np.array(starts, np.intp).T
        again = self._branches.with_one_more(failed, cells, 1 << digits)
        tried = self._refuting(again, depth - 1, every=True).argmax(axis=0).tolist()
        return list(zip(starts, tried, strict=True))

    def _failed(self, branches: _Branches, more: int) -> NDArray[np.bool_]:
        """Return which branches fail: by themselves, or with a tightest cell all of whose candidates fail."""
        return branches.failed | self._refuting(branches, more).any(axis=0) if more else branches.failed

    def _refuting(self, branches: _Branches, more: int, *, every: bool = False) -> NDArray[np.bool_]:
        """Return, by cell and branch, the tightest cells in which all candidates fail: every one, or some."""
        untried = branches.tightest
        untried[:, branches.failed] = 0
        refuting = np.zeros(untried.shape, np.bool_)
        # One candidate of a cell after the other: as soon as one of them holds, the cell is done with.
        while untried.any():
            cells, parents = np.nonzero(untried)
            for first in range(0, len(cells), _AT_ONCE):
                cell, parent = cells[first : first + _AT_ONCE], parents[first : first + _AT_ONCE]
                left = untried[cell, parent]
                digit = left & -left
                fails = self._failed(branches.with_one_more(parent, cell, digit), more - 1)
                untried[cell, parent] = np.where(fails, left ^ digit, 0)
                refuting[cell, parent] = fails & (left == digit)
            if not every:
                untried[:, refuting.any(axis=0)] = 0
        return refuting


def _refutation(branch: Branch, depth: int, tried: int) -> Step:
    """Return the step that removes the candidate from which a refuted branch starts.

    From two assumptions on, all candidates of the cell `tried` are refuted on top of it.
    """
    premises = TracedPremises()
    if depth == 1:
        premises.add_contradiction(branch)
    else:
        end = Origin.at_end_of(branch)
        _add_trial(branch, tried, _failing(end, tried, depth - 1), depth, premises)
    cell, digit = branch.start
    return premises.step("trial", cell, digit, focus=(cell,), digits=1 << digit, length=depth)


def _add_trial(
    branch: Branch, tried: int, further: Sequence[Branch], depth: int, premises: TracedPremises
) -> None:
    """Add all that it rests on that a branch fails, for all candidates of a cell do on top of it."""
    on_top = TracedPremises()
    on_top.looks.add(tried)
    for one in further:
        if one.contradicted:
            on_top.add_contradiction(one)
        else:
            origin = Origin.at_end_of(one)
            lines = ((cell, _failing(origin, cell, depth - 2)) for cell in _tightest(origin.board))
            cell, refuted = next(found for found in lines if found[1])
            _add_trial(one, cell, refuted, depth - 1, on_top)
    premises.rules |= on_top.rules
    premises.add_closed(branch, on_top.looks)  # what these cells had lost by then rests on the branch


def _failing(origin: Origin, cell: int, depth: int) -> list[Branch]:
    """Return the branches of all candidates of a cell; none where one survives so many assumptions."""
    branches = []
    for digit in bits(origin.board.candidates[cell]):
        branch = Branch(origin, cell, digit)
        branch.run()
        if not branch.contradicted:
            end = Origin.at_end_of(branch)
            if depth == 1 or not any(_failing(end, other, depth - 1) for other in _tightest(end.board)):
                return []
        branches.append(branch)
    return branches


def _tightest(board: Board) -> list[int]:
    """Return the cells without a digit that have the fewest candidates; none on a solved board."""
    look_at_clock()
    open_cells = board.unsolved(range(board.layout.grid.cell_count))
    fewest = min([board.candidates[cell].bit_count() for cell in open_cells], default=0)
    return [cell for cell in open_cells if board.candidates[cell].bit_count() == fewest]


TRIAL = Technique("trial", "trial", find_trials, traits=Trait.TRIAL)

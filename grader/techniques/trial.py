"""Trial: whatever needs a line that is too long for a chain, or one that branches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from grader.board.board import Board, bits
from grader.board.guard import look_at_clock
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.lines_of_forcing.branch import Branch, Origin
from grader.reasoning.lines_of_forcing.every_branch import EveryBranch
from grader.reasoning.lines_of_forcing.many_branches import ManyBranches
from grader.reasoning.lines_of_forcing.tracing import TracedPremises

__all__ = ["BRANCHES_AT_MOST", "DEPTH_AT_MOST", "TRIAL"]

BRANCHES_AT_MOST = 20_000
"""No depth of nesting is begun that could need more branches than this."""

DEPTH_AT_MOST = 3
"""Assumptions on top of one another."""

_Candidate = tuple[int, int]


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
    for start in found:
        branch = Branch(origin, *start)
        branch.run()
        yield _refutation(branch, depth)


class _Search:
    """The search over the branches of some starts, and of what is assumed on top of them."""

    def __init__(self, starts: Sequence[_Candidate], branches: ManyBranches | EveryBranch) -> None:
        self._starts = starts
        self._branches = branches

    @property
    def widths(self) -> Iterable[int]:
        """How many assumptions there are to be made on top of each start."""
        return map(int, self._branches.widths)

    def refuted(self, depth: int) -> list[_Candidate]:
        """Return the starts that fail `depth` assumptions deep, where none does at less."""
        failed = self._failed(self._branches, depth - 1)
        return [start for start, fails in zip(self._starts, failed, strict=True) if fails]

    def _failed(self, branches: ManyBranches | EveryBranch, more: int) -> NDArray[np.bool_]:
        """Return which branches fail: by themselves, or with a tightest cell all of whose candidates fail."""
        failed = branches.failed.copy()
        for tried in branches.on_tightest() if more else ():
            left = ~self._failed(tried.branches, more - 1)
            alive = np.zeros((tried.cells.max() + 1, len(failed)), dtype=np.bool_)
            alive[tried.cells[left], tried.parents[left]] = True
            failed[tried.parents[~alive[tried.cells, tried.parents]]] = True
        return failed


def _refutation(branch: Branch, depth: int) -> Step:
    """Return the step that removes the candidate from which a refuted branch starts."""
    premises = TracedPremises()
    _trace(branch, depth, premises)
    cell, digit = branch.start
    return premises.step("trial", cell, digit, focus=(cell,), digits=1 << digit, length=depth)


def _trace(branch: Branch, depth: int, premises: TracedPremises) -> None:
    """Add to `premises` all that it rests on that a branch fails, `depth` assumptions deep."""
    if branch.contradicted:
        premises.add_contradiction(branch)
        return
    end = _End(Origin.at_end_of(branch))
    tried = next(cell for cell in end.tightest if _all_fail(end.origin, cell, depth - 1))
    on_top = TracedPremises()
    on_top.looks.add(tried)
    for digit in bits(end.origin.board.candidates[tried]):
        further = Branch(end.origin, tried, digit)
        further.run()
        _trace(further, depth - 1, on_top)
    premises.rules |= on_top.rules
    premises.add_closed(branch, on_top.looks)  # what these cells had lost by then rests on the branch


class _End:
    """Where a branch has ended that has not failed, and where to go on from there.

    `tightest` is the cells without a digit that have the fewest candidates; none on a solved board. `width`
    is how many assumptions there are to be made in them: the same in any order.
    """

    def __init__(self, origin: Origin) -> None:
        look_at_clock()
        board = origin.board
        open_cells = board.unsolved(range(board.layout.grid.cell_count))
        counts = [board.candidates[cell].bit_count() for cell in open_cells]
        fewest = min(counts, default=0)
        self.origin = origin
        self.tightest = [cell for cell, count in zip(open_cells, counts, strict=True) if count == fewest]
        self.width = fewest * len(self.tightest)


def _refuted(end: _End, depth: int) -> bool:
    """Whether one of the tightest cells has no candidate that survives `depth` more assumptions."""
    return any(_all_fail(end.origin, cell, depth) for cell in end.tightest)


def _all_fail(origin: Origin, cell: int, depth: int) -> bool:
    for digit in bits(origin.board.candidates[cell]):
        branch = Branch(origin, cell, digit)
        branch.run()
        if not branch.contradicted and not (
            depth > 1 and _refuted(_End(Origin.at_end_of(branch)), depth - 1)
        ):
            return False
    return True


TRIAL = Technique("trial", "trial", find_trials, traits=Trait.TRIAL)

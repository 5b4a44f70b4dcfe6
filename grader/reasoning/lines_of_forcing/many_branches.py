"""Many branches at once: what follows from each of thousands of assumptions by singles alone.

The candidates of all branches stand in one array, so that one operation takes a cell or a house of all of
them. That is for grids whose rules are houses alone: cages would each go a way of their own. A branch comes
to the same end as a `Branch` of the next module. For what follows from some candidates follows from
fewer, so that it does not matter in which order singles are written in; and what follows from two assumptions
is what follows from each, put together and followed further.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.board.layout import Layout

__all__ = ["ManyBranches"]

_Masks = NDArray[np.unsignedinteger[Any]]
"""By cell and branch, or by house, cell of it and branch: the mask of the open digits."""

_Numbers = NDArray[np.intp]
_Flags = NDArray[np.bool_]


class ManyBranches:
    """Branches that have come to their ends, each followed as far as singles lead.

    Parameters
    ----------
    layout : Layout
        That of a board for which `can_follow` holds.
    candidates : array of int
        By cell and branch, with what is assumed.
    single : optional
        What follows from each candidate of the board by itself.

    Attributes
    ----------
    failed : array of bool
        Which of them end in a contradiction.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123", size=4)
    >>> branches = ManyBranches.of_candidates(board, [(2, 1), (2, 3)])
    >>> branches.failed.tolist()  # 1 in r1c3 leaves 2 for both of the others
    [True, False]
    """

    def __init__(self, layout: Layout, candidates: _Masks, single: _Single | None = None) -> None:
        self._layout = layout
        self._candidates, self.failed = _followed(layout, candidates)
        self._single = single

    @staticmethod
    def can_follow(board: Board) -> bool:
        """Whether there are houses alone, in each of which every digit stands, and no single is in sight."""
        layout = board.layout
        if len(layout.rules) > len(layout.houses) or layout.grid.blocked:
            return False
        here = _side_by_side(board, 1)
        after, failed = _written_in(here, _Houses.of(layout), layout.all_digits)
        at_rest = not failed.any() and np.array_equal(after, here)
        return at_rest and all(
            (mask & mask - 1 == 0) == (board.placed >> cell & 1) for cell, mask in enumerate(board.candidates)
        )

    @classmethod
    def of_candidates(cls, board: Board, starts: Sequence[tuple[int, int]]) -> ManyBranches:
        """Return one branch for each cell and digit that is taken to be right."""
        layout, assumed = board.layout, _side_by_side(board, len(starts))
        number = np.zeros((layout.grid.cell_count, layout.grid.digits + 1), dtype=np.intp)
        for branch, (cell, digit) in enumerate(starts):
            assumed[cell, branch] = 1 << digit
            number[cell, digit] = branch
        branches = cls(layout, assumed)
        branches._single = _Single(number, branches._candidates)
        return branches

    @property
    def tightest(self) -> _Masks:
        """By cell and branch, what is open in the cells that have the fewest candidates, but several."""
        counts = np.bitwise_count(self._candidates)
        several = np.where(counts > 1, counts, np.uint8(255))
        fewest = several.min(axis=0)
        return np.asarray(np.where((several == fewest) & (fewest < 255), self._candidates, 0))

    def with_one_more(self, parents: _Numbers, cells: _Numbers, digits: _Masks) -> ManyBranches:
        """Return some of them with one more assumption each: a cell, and the mask of its digit."""
        assert self._single is not None
        alone = self._single.candidates[:, self._single.number[cells, np.bitwise_count(digits - 1)]]
        return ManyBranches(self._layout, self._candidates[:, parents] & alone, self._single)


class _Single(NamedTuple):
    """What follows from each candidate of a board by itself.

    Parameters
    ----------
    number : array of int
        By cell and digit, the branch that starts with it.
    candidates : array of int
        What is open at the end of each branch.
    """

    number: _Numbers
    candidates: _Masks


def _side_by_side(board: Board, branches: int) -> _Masks:
    """Return the candidates of a board once for each branch."""
    kind = np.uint16 if board.layout.grid.digits < 16 else np.uint32
    return np.repeat(np.array(board.candidates, dtype=kind)[:, np.newaxis], branches, axis=1)


class _Houses(NamedTuple):
    """The houses of a grid as arrays: the cells of each house, and the houses of each cell."""

    cells: _Numbers
    of_cell: _Numbers

    @classmethod
    def of(cls, layout: Layout) -> _Houses:
        """Return those of a layout; a cell in fewer houses than others has its last one again."""
        most = max(map(len, layout.houses_of))
        of_cell = [[*houses, *houses[-1:] * (most - len(houses))] for houses in layout.houses_of]
        return cls(np.array([house.cells for house in layout.houses]), np.array(of_cell).T)

    def once_and_twice(self, masks: _Masks) -> tuple[_Masks, _Masks]:
        """Return by house the digits that any of its cells has, and those that at least two have."""
        shape = len(self.cells), masks.shape[1]
        once, twice = np.zeros(shape, masks.dtype), np.zeros(shape, masks.dtype)
        for place in self.cells.T:
            here = masks[place]
            twice |= once & here
            once |= here
        return once, twice

    def in_any(self, by_house: _Masks) -> _Masks:
        """Return by cell the digits that any of its houses has."""
        return np.asarray(np.bitwise_or.reduce([by_house[houses] for houses in self.of_cell]))


def _followed(layout: Layout, candidates: _Masks) -> tuple[_Masks, _Flags]:
    """Return what is open when all singles have been written in, and which branches fail by then."""
    houses = _Houses.of(layout)
    failed = (candidates == 0).any(axis=0)
    going = np.flatnonzero(~failed)
    while len(going):
        look_at_clock()
        before = candidates[:, going]
        after, fails = _written_in(before, houses, layout.all_digits)
        candidates[:, going], failed[going] = after, fails
        going = going[(after != before).any(axis=0) & ~fails]
    return candidates, failed


def _written_in(candidates: _Masks, houses: _Houses, all_digits: int) -> tuple[_Masks, _Flags]:
    """Return what is left when all singles in sight have been written in, and which branches fail."""
    somewhere, in_several = houses.once_and_twice(candidates)
    alone = houses.in_any(somewhere & ~in_several) & candidates
    written = np.where(alone, alone, np.where(np.bitwise_count(candidates) == 1, candidates, 0))
    taken, clash = houses.once_and_twice(written)
    left = np.where(written, written, candidates & ~houses.in_any(taken))
    failed = (somewhere != all_digits).any(axis=0) | clash.any(axis=0)
    failed |= (np.bitwise_count(written) > 1).any(axis=0) | (left == 0).any(axis=0)
    return left, failed

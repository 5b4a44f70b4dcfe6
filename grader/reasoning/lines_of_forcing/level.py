"""One level of many branches at once: what is written in, and what follows from it.

What is open in all of them stands in one array, so that one operation takes a cell or a house of all; a
cage or a clue is looked at for each of them, but worked out once for all that leave it the same.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from grader.board.layout import Layout
from grader.reasoning.clues.narrow import EMPTY_AT_MOST, left_in_cells
from grader.reasoning.combinations import open_digits
from grader.reasoning.lines_of_forcing.branch import Origin
from grader.reasoning.pairs import fits_of

__all__ = ["Flags", "Masks", "Numbers", "State", "a_level_on", "kind_of_masks"]

Masks = NDArray[np.unsignedinteger[Any]]
Numbers = NDArray[np.intp]
Flags = NDArray[np.bool_]


class State(NamedTuple):
    """Where some branches are.

    Parameters
    ----------
    failed : array of bool
        By branch, which have failed: what the other arrays say of them means nothing.
    candidates : array of int
        By cell and branch, as those that follow: the mask of the digits that are open.
    placed : array of bool
        Where a digit is written in.
    to_write : array of int
        The digits to be written in next, as masks.
    """

    failed: Flags
    candidates: Masks
    placed: Flags
    to_write: Masks

    def some(self, branches: Numbers) -> State:
        """Return where some of the branches are, each of them as often as it is named."""
        by_cell = self.candidates.take(branches, 1), self.placed.take(branches, 1)
        return State(self.failed[branches], *by_cell, self.to_write.take(branches, 1))

    def put(self, branches: Numbers, state: State) -> None:
        """Change where some of the branches are."""
        self.failed[branches] = state.failed
        self.candidates[:, branches], self.placed[:, branches] = state.candidates, state.placed
        self.to_write[:, branches] = state.to_write


def kind_of_masks(layout: Layout) -> type[np.unsignedinteger[Any]]:
    """Return the kind of number that has a bit for each digit."""
    return np.uint16 if layout.grid.digits < 16 else np.uint32


def a_level_on(origin: Origin, before: State) -> State:
    """Return where branches are after one more level; all of them are still going."""
    return _Level(origin, before).after


class _Level:
    """The arrays of a level while it is worked out; `after` is what it comes to."""

    def __init__(self, origin: Origin, before: State) -> None:
        self._layout, tables = origin.board.layout, _tables(origin.board.layout)
        written = np.where(before.placed & (before.candidates == before.to_write), 0, before.to_write)
        clash = (np.bitwise_count(written) > 1) | (written & ~before.candidates > 0)
        self._failed: Flags = np.asarray(clash.any(axis=0))
        self._candidates = np.ascontiguousarray(np.where(written, written, before.candidates))
        tables.write(self._candidates, written)
        self._placed = before.placed | (written > 0)
        self._touched = (self._candidates != before.candidates) | (written > 0)
        self._note_empty()
        till_now = self._candidates.copy()
        for _, _, cells, total in origin.open_cages:
            self._keep_open_combinations(np.array(cells), total)
        for clue, _ in origin.clues:
            self._keep_open_ways(clue, till_now)
        self._note_empty()
        to_write = self._singles(tables, before.candidates)
        self.after = State(self._failed, self._candidates, self._placed, to_write)

    def _note_empty(self) -> None:
        self._failed |= (self._candidates == 0).any(axis=0)

    def _keep_open_combinations(self, cells: Numbers, total: int) -> None:
        """Leave in a cage the digits of its open combinations."""
        some = np.flatnonzero(self._touched[cells].any(axis=0) & ~self._failed)
        stands, here = (array[cells[:, np.newaxis], some] for array in (self._placed, self._candidates))
        keys = (here | stands).T.tolist()
        left = np.array([_left_in_cage(tuple(k), total, self._layout.grid.digits) for k in keys], here.dtype)
        self._failed[some] |= left == 0
        self._leave(cells, some, np.where(stands, here, left))

    def _keep_open_ways(self, clue: int, till_now: Masks) -> None:
        """Leave in a clue what its ways leave, from what was open before any clue or cage was looked at."""
        cells = np.array(self._layout.rules[clue].cells)
        several = (till_now[cells] & (till_now[cells] - 1) > 0).sum(axis=0)
        some = np.flatnonzero(self._touched[cells].any(axis=0) & ~self._failed & (several <= EMPTY_AT_MOST))
        keys = till_now[cells[:, np.newaxis], some].T.tolist()
        left = [left_in_cells(self._layout, clue, tuple(key)) for key in keys]
        self._leave(cells, some, np.array(left, till_now.dtype).reshape(-1, len(cells)).T)

    def _leave(self, cells: Numbers, some: Numbers, left: Masks) -> None:
        kept = self._candidates[cells[:, np.newaxis], some] & left
        self._candidates[cells[:, np.newaxis], some] = kept
        self._failed[some] |= (kept == 0).any(axis=0)

    def _singles(self, tables: _Tables, before: Masks) -> Masks:
        """Return the digits to be written in next; note where a house has no place left for one."""
        once, twice = tables.once_and_twice(self._candidates)
        self._failed |= (once != self._layout.all_digits).any(axis=0)
        lost, _ = tables.once_and_twice(before & ~self._candidates)
        alone = tables.in_any(once & ~twice & lost) & self._candidates
        alone |= np.where(np.bitwise_count(self._candidates) == 1, self._candidates, 0)
        return np.where(self._placed, 0, alone)


@lru_cache(maxsize=1 << 13)
def _left_in_cage(masks: tuple[int, ...], total: int, digits: int) -> int:
    """Return what the open combinations of a cage leave; of cells with their digit, bit 0 is set as well."""
    rest = total - sum([mask.bit_length() - 1 for mask in masks if mask & 1])
    empty = tuple([mask for mask in masks if not mask & 1])
    if not empty:
        return 0 if rest else (2 << digits) - 2
    return open_digits(empty, rest, digits)


class _Tables(NamedTuple):
    """What a layout says, as arrays.

    Parameters
    ----------
    houses : array of int
        By place in a house and house, the cells.
    houses_of : array of int
        For each cell the houses that it is in; a cell in fewer than others has one behind the last.
    around : array of int
        By cell, in a row, the cells from which a digit in it takes anything.
    left : array of int
        By cell and digit, what is left in each cell of that row.
    """

    houses: Numbers
    houses_of: Numbers
    around: Numbers
    left: Masks

    def write(self, candidates: Masks, written: Masks) -> None:
        """Take from candidates what does not go with the digits that are written in."""
        cells, branches = np.nonzero(written)
        digits = np.frexp(written[cells, branches].astype(np.float32))[1] - 1
        places = self.around[cells] * candidates.shape[1] + branches[:, np.newaxis]
        np.bitwise_and.at(candidates.reshape(-1), places.reshape(-1), self.left[cells, digits].reshape(-1))

    def once_and_twice(self, masks: Masks) -> tuple[Masks, Masks]:
        """Return by house the digits that any of its cells has, and those that at least two have."""
        shape = self.houses.shape[1], masks.shape[1]
        once, twice = np.zeros(shape, masks.dtype), np.zeros(shape, masks.dtype)
        for place in self.houses:
            here = masks[place]
            twice |= once & here
            once |= here
        return once, twice

    def in_any(self, by_house: Masks) -> Masks:
        """Return by cell the digits that any of its houses has."""
        found = np.zeros((self.houses_of.shape[1], by_house.shape[1]), by_house.dtype)
        by_house = np.concatenate([by_house, found[:1]])
        for houses in self.houses_of:
            found |= by_house[houses]
        return found


@lru_cache(maxsize=8)
def _tables(layout: Layout) -> _Tables:
    digits, houses = range(layout.grid.digits + 1), layout.houses
    left = [{peer: [layout.all_digits & ~(1 << d) for d in digits] for peer in own} for own in layout.peers]
    for (cell, other), fits in fits_of(layout).items():
        for fit in fits:
            before = left[cell].get(other, [layout.all_digits] * len(digits))
            left[cell][other] = [mask & fit.left[digit] for digit, mask in enumerate(before)]
    most, deepest = max(map(len, left)), max(map(len, layout.houses_of))
    around = [[*own, *[cell] * (most - len(own))] for cell, own in enumerate(left)]
    even = [[*own.values(), *[[-1] * len(digits)] * (most - len(own))] for own in left]
    houses_of = [[*own, *[len(houses)] * (deepest - len(own))] for own in layout.houses_of]
    return _Tables(
        np.array([house.cells for house in houses], np.intp).reshape(len(houses), layout.grid.digits).T,
        np.array(houses_of, np.intp).reshape(len(houses_of), deepest).T,
        np.array(around, np.intp),
        np.array(even, np.int64).astype(kind_of_masks(layout)).transpose(0, 2, 1).copy(),
    )

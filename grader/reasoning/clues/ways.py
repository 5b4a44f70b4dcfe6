"""All ways to fill a clue: its cells one after the other, with what each digit leaves for those behind."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from grader.board.guard import look_at_clock
from grader.board.layout import Layout
from grader.reasoning.clues.clue import Clue
from grader.reasoning.pairs import fits_of
from verifier.puzzle.masks import digits_of
from verifier.puzzle.rules.rule import Rule

__all__ = ["ClueWays", "Machine", "MakeMachine", "unwatched"]

_State = Any
_Barred = Sequence[Sequence[tuple[int, Sequence[int]]]]


class Machine(NamedTuple):
    """What must be remembered of the digits of a clue while they are filled in one after the other.

    Parameters
    ----------
    cells : tuple of int
        The cells in the order in which they are filled in.
    start : hashable
        What is remembered before the first.
    advance : callable
        Takes what is remembered, the place of the cell in the order, and its digit: what is remembered
        then, or None where the clue is broken already.
    ends : callable
        Whether the clue is obeyed, from what is remembered after the last.
    """

    cells: tuple[int, ...]
    start: Hashable
    advance: Callable[[_State, int, int], _State | None]
    ends: Callable[[_State], bool]


MakeMachine = Callable[[Any, Mapping[int, int], int], Machine]
"""Makes the machine of a rule, from what is open in each of its cells and the largest digit."""


class ClueWays:
    """The ways to fill some cells.

    Parameters
    ----------
    layout : Layout
        The puzzle's layout.
    machine : Machine
        What must be remembered on the way, and the cells.
    candidates : sequence of int, or mapping
        What is open in each cell.
    rules : frozenset of int, optional
        The numbers of the rules over pairs that count; all when absent.
    seeing : bool, optional
        Whether cells that see each other hold different digits.

    Attributes
    ----------
    cells : tuple of int
        Its cells in the order in which they are filled in.
    """

    def __init__(
        self,
        layout: Layout,
        machine: Machine,
        candidates: Sequence[int] | Mapping[int, int],
        *,
        rules: frozenset[int] | None = None,
        seeing: bool = True,
    ) -> None:
        self._machine = machine
        self.cells = machine.cells
        self._masks = tuple([candidates[cell] for cell in self.cells])
        self._left = _leaves(layout, self.cells, rules, seeing=seeing)
        self._kept = [0] * len(self.cells)
        self._known: dict[tuple[object, ...], bool] = {}
        self.found = self._fill(0, self._machine.start, self._masks)

    @classmethod
    def of_clue(cls, clue: Clue, make: MakeMachine, *, seeing: bool = True) -> ClueWays:
        """Return the ways to fill a clue, whose machine is made by `make`."""
        machine = make(clue.rule, {cell: clue.candidates[cell] for cell in clue.cells}, clue.digits)
        return cls(clue.layout, machine, clue.candidates, rules=frozenset((clue.number,)), seeing=seeing)

    @property
    def kept(self) -> dict[int, int]:
        """For each cell, the mask of the digits that some way puts there."""
        return dict(zip(self.cells, self._kept, strict=True))

    def _fill(self, place: int, state: Hashable, left: tuple[int, ...]) -> bool:
        """Fill the cells from a place on, of which `left` is open; note each digit that fits."""
        if not left:
            return self._machine.ends(state)
        key = (place, state, left)
        known = self._known.get(key)
        if known is not None:
            return known
        if place < 2:
            look_at_clock()
        advance, fits = self._machine.advance, 0
        for digit in digits_of(left[0]):
            after = advance(state, place, digit)
            if after is not None:
                rest = self._rest(place, digit, left)
                if rest is not None and self._fill(place + 1, after, rest):
                    fits |= 1 << digit
        self._kept[place] |= fits
        self._known[key] = fits > 0
        return fits > 0

    def _rest(self, place: int, digit: int, left: tuple[int, ...]) -> tuple[int, ...] | None:
        """Return what a digit leaves for the cells behind its own; None where one has nothing left."""
        bars = self._left[place]
        if not bars:
            return left[1:]
        rest = list(left)
        for behind, bar in bars:
            mask = rest[behind] & bar[digit]
            if not mask:
                return None
            rest[behind] = mask
        return tuple(rest[1:])

    def each(self) -> Iterator[tuple[int, ...]]:
        """Yield the ways, as the digits of the cells in order."""
        if self.found:
            yield from self._each(0, self._machine.start, self._masks)

    def _each(self, place: int, state: Hashable, left: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if not left:
            yield ()
            return
        for digit in digits_of(left[0]):
            after = self._machine.advance(state, place, digit)
            rest = None if after is None else self._rest(place, digit, left)
            if rest is not None and self._leads_on(place + 1, after, rest):
                for behind in self._each(place + 1, after, rest):
                    yield (digit, *behind)

    def _leads_on(self, place: int, state: Hashable, left: tuple[int, ...]) -> bool:
        return self._known[place, state, left] if left else self._machine.ends(state)


@lru_cache(maxsize=1 << 10)
def _leaves(layout: Layout, cells: tuple[int, ...], rules: frozenset[int] | None, *, seeing: bool) -> _Barred:
    """Return, for each place, how far behind it a cell does not take all, and what each digit leaves it."""
    fits = fits_of(layout)
    everything = layout.all_digits
    others = tuple(everything & ~(1 << digit) for digit in range(layout.grid.digits + 1))
    table: list[list[tuple[int, Sequence[int]]]] = []
    for place, one in enumerate(cells):
        row: list[tuple[int, Sequence[int]]] = []
        for behind, other in enumerate(cells[place + 1 :], 1):
            own = [fit.left for fit in fits.get((one, other), ()) if rules is None or fit.rule in rules]
            if seeing and layout.sees[one] >> other & 1:
                own.append(others)
            if own:
                row.append((behind, tuple(_all_of(masks) for masks in zip(*own, strict=True))))
        table.append(row)
    return table


def _all_of(masks: Sequence[int]) -> int:
    left = -1
    for mask in masks:
        left &= mask
    return left


def unwatched(rule: Rule, masks: Mapping[int, int], digits: int) -> Machine:  # noqa: ARG001 - as all machines
    """Return the machine of a rule over pairs, which needs nothing remembered: each digit bars others."""
    return Machine(rule.cells, (), lambda state, place, digit: state, lambda state: True)  # noqa: ARG005

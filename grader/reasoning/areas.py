"""Areas of runs that cross: what the runs across make against what those down make.

Where each cell lies in a run across and in one down, runs form areas. Add up what those of an area across
have to go, and those down: the cells that lie in two of them are counted on both sides. What is left is a sum
over the few cells on which the area hangs together with the rest::

    runs across - runs down = cells that lie across alone - cells that lie down alone

Taken as a graph with the runs as nodes, each cell without a digit is an edge between its two runs, or between
its one run and the outside. An area that hangs on few cells is one side of a cut of few edges.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations

from grader.board.board import Board
from grader.board.layout import Layout, cages_cross
from grader.reasoning.rule_of_45 import InnieOutieSum, SumKind
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.run_layout import is_across

__all__ = ["RUNS_AT_MOST", "area_sums", "runs_apart"]

RUNS_AT_MOST = 12
"""A person adds up no more runs at once."""

_OUTSIDE = -1
"""The node beyond all runs."""

_Ways = dict[int, list[tuple[int, int]]]
"""For each run the cells that lead on, each with the run that it leads to."""


def area_sums(board: Board, *kinds: SumKind) -> Iterator[InnieOutieSum]:
    """Yield what the areas that hang on one or two cells leave over; none where no cell is in two cages.

    Parameters
    ----------
    board : Board
        Read, never changed; every area is looked at whatever is fresh.
    kinds : SumKind
        What may be unknown: one cell, or two cells on one side or on both.

    Yields
    ------
    InnieOutieSum
        Without houses; its cages are the runs of the area, two at least. Its cells include those with a digit
        that lie in a run of the area alone.

    Notes
    -----
    Own derivation. Give each edge that is left out by a spanning tree a bit of its own, and each edge of the
    tree the bits of those edges whose circles it lies on. An edge without a bit is a cut by itself; two edges
    with the same bits are a cut together, and there are no other cuts of one or two edges.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> runs = [Cage((0, 1, 2), 7), Cage((4, 5), 9), Cage((0, 4), 4), Cage((1, 5), 10)]
    >>> [(left.cells, left.total) for left in area_sums(board_from_text("", runs, size=4), SumKind.ONE)]
    [((2,), 2)]
    """
    if not cages_cross(board.layout):
        return
    ways = _ways(board)
    for cut in _cuts(ways):
        for area in _sides(ways, cut):
            left = _left_over(board, area)
            if left.kind in kinds:
                yield left
                break


def runs_apart(layout: Layout, runs: Iterable[int]) -> tuple[list[int], list[int]]:
    """Return those of some runs that lie across, and those that lie down."""
    ways: dict[bool, list[int]] = {True: [], False: []}
    for run in runs:
        ways[is_across(layout.rules[run].cells)].append(run)
    return ways[True], ways[False]


def _ways(board: Board) -> _Ways:
    ways: _Ways = {}
    for cell in board.unsolved(board.layout.grid.cells):
        runs = board.layout.cages_of[cell]
        if runs:
            one, other = (*runs, _OUTSIDE)[:2]
            ways.setdefault(one, []).append((cell, other))
            ways.setdefault(other, []).append((cell, one))
    return ways


def _cuts(ways: _Ways) -> Iterator[tuple[int, ...]]:
    """Yield every cell, and every two cells, without which two runs that hung together no longer do."""
    circles = _circles(ways)
    alike: dict[int, list[int]] = {}
    for cell in sorted(circles):
        if circles[cell]:
            alike.setdefault(circles[cell], []).append(cell)
        else:
            yield (cell,)
    for cells in alike.values():
        yield from combinations(cells, 2)


def _circles(ways: _Ways) -> Mapping[int, int]:
    """Return, for each cell, the mask of the circles of runs that it lies on."""
    circles: dict[int, int] = {}
    through: dict[int, int] = dict.fromkeys(ways, 0)
    reached: set[int] = set()
    for start in ways:
        if start in reached:
            continue
        reached.add(start)
        order, waiting = [(start, -1, start)], [(start, -1)]
        while waiting:
            run, came_by = waiting.pop()
            for cell, other in ways[run]:
                if cell == came_by or cell in circles:
                    continue
                if other in reached:
                    circles[cell] = bit = 1 << len(circles)
                    through[run] ^= bit
                    through[other] ^= bit
                else:
                    circles[cell] = 0
                    reached.add(other)
                    order.append((other, cell, run))
                    waiting.append((other, cell))
        for run, cell, before in reversed(order[1:]):
            circles[cell] = through[run]
            through[before] ^= through[run]
    return circles


def _sides(ways: _Ways, cut: tuple[int, ...]) -> list[tuple[int, ...]]:
    """Return the areas on either side of a cut that can be added up, the smaller one first."""
    ends = [run for run, led in ways.items() if any(cell in cut for cell, _ in led)]
    found = {_area(ways, cut, end) for end in ends}
    small = [area for area in found if _OUTSIDE not in area and 1 < len(area) <= RUNS_AT_MOST]
    return sorted(small, key=lambda area: (len(area), area))


def _area(ways: _Ways, cut: tuple[int, ...], start: int) -> tuple[int, ...]:
    """Return the runs that hang together with one when the cells of a cut are left out."""
    area, waiting = {start}, [start]
    while waiting:
        for cell, other in ways[waiting.pop()]:
            if cell not in cut and other not in area:
                area.add(other)
                waiting.append(other)
    return tuple(sorted(area))


def _left_over(board: Board, area: tuple[int, ...]) -> InnieOutieSum:
    layout = board.layout
    across, down = runs_apart(layout, area)
    sides = [mask_of(cell for run in runs for cell in bits(layout.masks[run])) for runs in (across, down)]
    plus, minus = sides[0] & ~sides[1], sides[1] & ~sides[0]
    total = sum(layout.cage(run).total for run in across) - sum(layout.cage(run).total for run in down)
    return InnieOutieSum((), area, plus, minus, total, plus & ~board.placed, minus & ~board.placed)

"""The outline of a set of cells: the loops round it, and the same loops drawn a little inside its cells.

A loop goes along the borders of the cells with the cells on its right: clockwise round the outside, the
other way round a hole. Where two cells touch at a corner only, a loop stays with its own cell, so cells
that share no border get loops of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from verifier.pages.drawing.look import CELL, INSET, PERIOD

__all__ = ["Point", "Polyline", "loops", "outlines"]

Point = tuple[float, float]
"""Across and down, in units, from the top left corner of the grid."""

Polyline = tuple[Point, ...]
"""Points joined by straight lines; closed when the last is the first."""

_Corner = tuple[int, int]  # row and column of a crossing of grid lines
_Way = tuple[int, int]  # rows down and columns across, of which one is 0 and the other 1 or -1


def loops(cells: Iterable[int], columns: int) -> list[tuple[_Corner, ...]]:
    """Return the loops round some cells, as the corners at which they turn.

    Returns
    -------
    list of tuple of (int, int)
        Row and column of each turn, in order; the way back to the first is left out. The first loop begins
        at the top left corner of the first cell, and so does each other one at its first cell or hole.

    Examples
    --------
    >>> loops([0, 1, 3], columns=3)
    [((0, 0), (0, 2), (1, 2), (1, 1), (2, 1), (2, 0))]
    """
    ahead = _borders({divmod(cell, columns) for cell in cells})
    found = []
    while ahead:
        start = min(ahead)
        found.append(_turns(_walked(ahead, start, ahead[start][0])))
    return found


def _borders(cells: set[tuple[int, int]]) -> dict[_Corner, list[_Way]]:
    """Return the ways that lead from each corner along a border, the cell on the right hand."""
    ahead: dict[_Corner, list[_Way]] = {}
    for row, column in sorted(cells):
        for start, way, beyond in (
            ((row, column), (0, 1), (row - 1, column)),
            ((row, column + 1), (1, 0), (row, column + 1)),
            ((row + 1, column + 1), (0, -1), (row + 1, column)),
            ((row + 1, column), (-1, 0), (row, column - 1)),
        ):
            if beyond not in cells:
                ahead.setdefault(start, []).append(way)
    return ahead


def _walked(ahead: dict[_Corner, list[_Way]], at: _Corner, way: _Way) -> list[tuple[_Corner, _Way]]:
    """Walk one loop to its end, and take its borders away from those ahead."""
    passed = []
    while way in ahead.get(at, ()):
        ahead[at].remove(way)
        if not ahead[at]:
            del ahead[at]
        passed.append((at, way))
        at = (at[0] + way[0], at[1] + way[1])
        right, left = (way[1], -way[0]), (-way[1], way[0])
        way = next((turn for turn in (right, way, left) if turn in ahead.get(at, ())), right)
    return passed


def _turns(passed: list[tuple[_Corner, _Way]]) -> tuple[_Corner, ...]:
    before = [way for _, way in (passed[-1], *passed[:-1])]
    return tuple(corner for (corner, way), came in zip(passed, before, strict=True) if way != came)


def outlines(
    cells: Iterable[int], columns: int, inset: float = INSET, opening: tuple[int, int] | None = None
) -> list[Polyline]:
    """Return the loops round some cells, drawn inside the cells.

    Parameters
    ----------
    cells, columns
        See `loops`.
    inset : float, optional
        How far inside, in units.
    opening : tuple of (int, int), optional
        Room for a number at the first corner: how many periods across and down the first outline is left
        open there. Half a period is added, so that it begins and ends amid a gap of its dashes.

    Returns
    -------
    list of Polyline
        Closed, but for the first one where there is an opening. Each begins amid a gap.

    Examples
    --------
    >>> outlines([0], columns=9, opening=(1, 1))
    [((20, 5), (55, 5), (55, 55), (5, 55), (5, 20))]
    """
    drawn = []
    for number, corners in enumerate(loops(cells, columns)):
        inside = _inset(corners, inset)
        across, down = opening if opening and number == 0 else (0, 0)
        first = _along(inside[0], inside[1], (across + 0.5) * PERIOD)
        last = _along(inside[0], inside[-1], (down + 0.5) * PERIOD)
        opened = opening is not None and number == 0
        drawn.append((first, *inside[1:], *((last,) if opened else (inside[0], first))))
    return drawn


def _inset(corners: Sequence[_Corner], inset: float) -> list[Point]:
    """Move each corner to the right of the way that comes to it, and of the way that leaves it."""
    ways = [_way(one, other) for one, other in pairwise((*corners, corners[0]))]
    moved = []
    for (row, column), came, goes in zip(corners, (ways[-1], *ways[:-1]), ways, strict=True):
        across = column * CELL - inset * (came[0] + goes[0])
        down = row * CELL + inset * (came[1] + goes[1])
        moved.append((across, down))
    return moved


def _way(one: _Corner, other: _Corner) -> _Way:
    rows, columns = other[0] - one[0], other[1] - one[1]
    length = abs(rows) + abs(columns)
    return rows // length, columns // length


def _along(start: Point, end: Point, length: float) -> Point:
    """Return the point so far along the way from one corner to the next."""
    whole = abs(end[0] - start[0]) + abs(end[1] - start[1])
    across = start[0] + (end[0] - start[0]) / whole * length
    down = start[1] + (end[1] - start[1]) / whole * length
    return (int(across) if across == int(across) else across, int(down) if down == int(down) else down)

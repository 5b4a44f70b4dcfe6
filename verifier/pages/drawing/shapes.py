"""What drawings are made of - lines and numbers at places - and the few shapes that rules are drawn with.

Places are in units, across and down from the grid's top left corner; see `verifier.pages.drawing.look`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, cos, dist, pi, sin
from typing import Self

from verifier.pages.drawing.look import CELL, faces_of
from verifier.pages.drawing.outlines import Point, Polyline
from verifier.puzzle.grid import Grid

__all__ = [
    "Number",
    "PenLine",
    "Piece",
    "between",
    "circle",
    "halfway",
    "middle",
    "number_at",
    "pill",
    "rectangle",
    "towards",
]

_ROUND = 12
"""Points of half a circle: as many as make it look round in the largest print."""


@dataclass(frozen=True, slots=True)
class PenLine:
    """A line: its pen, one of `verifier.pages.drawing.look.PENS`, and its points."""

    pen: str
    points: Polyline

    def moved(self, way: Point) -> Self:
        """Return the line so far across and down."""
        return replace(self, points=tuple((x + way[0], y + way[1]) for x, y in self.points))


@dataclass(frozen=True, slots=True)
class Number:
    """A number: its face, one of `verifier.pages.drawing.look.FACES`, its text, and where its foot stands."""

    face: str
    text: str
    place: Point

    def moved(self, way: Point) -> Self:
        """Return the number so far across and down."""
        return replace(self, place=(self.place[0] + way[0], self.place[1] + way[1]))


Piece = PenLine | Number
"""A part of the picture of a rule."""


def middle(grid: Grid, cell: int) -> Point:
    """Return the middle of a cell."""
    row, column = divmod(cell, grid.columns)
    return (column + 0.5) * CELL, (row + 0.5) * CELL


def halfway(one: Point, other: Point) -> Point:
    """Return the point in the middle of two others."""
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def towards(one: Point, other: Point, length: float) -> Point:
    """Return the way of a length that leads from one point towards another, across and down.

    Examples
    --------
    >>> towards((0, 0), (0, 60), 5)
    (0.0, 5.0)
    """
    share = length / (dist(one, other) or 1.0)
    return (other[0] - one[0]) * share, (other[1] - one[1]) * share


def between(start: Point, end: Point, less: float, less_at_end: float) -> Polyline:
    """Return the line from one point to another, shorter at both ends; of two near points, half of it."""
    length = dist(start, end) or 1.0
    shrink = min(1.0, length / 2 / ((less + less_at_end) or 1.0))

    def part(share: float) -> Point:
        return (
            round(start[0] + (end[0] - start[0]) * share, 1),
            round(start[1] + (end[1] - start[1]) * share, 1),
        )

    return part(less * shrink / length), part(1 - less_at_end * shrink / length)


def circle(at: Point, radius: float) -> Polyline:
    """Return a circle."""
    return pill(at, at, radius)


def pill(start: Point, end: Point, radius: float) -> Polyline:
    """Return the line round all that is as near as `radius` to the straight way between two points.

    Examples
    --------
    >>> around = pill((0, 0), (60, 0), 10)
    >>> around[0] == around[-1], around[0], around[12], around[13]
    (True, (0.0, 10.0), (0.0, -10.0), (60.0, -10.0))
    """
    slant = atan2(end[1] - start[1], end[0] - start[0])
    points = [
        (round(x + radius * cos(angle), 1) + 0.0, round(y + radius * sin(angle), 1) + 0.0)  # never -0.0
        for (x, y), first in ((start, slant + pi / 2), (end, slant - pi / 2))
        for angle in (first + pi * number / _ROUND for number in range(_ROUND + 1))
    ]
    return (*dict.fromkeys(points), points[0])


def rectangle(at: Point, wide: float, high: float) -> Polyline:
    """Return a rectangle round a point."""
    left, right, top, low = at[0] - wide / 2, at[0] + wide / 2, at[1] - high / 2, at[1] + high / 2
    return (left, top), (right, top), (right, low), (left, low), (left, top)


def number_at(face: str, number: int, at: Point, grid: Grid) -> Number:
    """Return a number whose middle is at a point."""
    return Number(face, str(number), (at[0], round(at[1] + 0.36 * faces_of(grid.digits)[face].size, 1)))

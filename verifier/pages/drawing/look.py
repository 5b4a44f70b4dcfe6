"""How a grid looks: sizes, pens and faces, stated once for the screen and for paper.

Lengths are in *units*; a cell is `CELL` units wide and high, whatever the size of the grid. A drawing is
scaled as a whole, so that it fits a phone or a sheet of paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, isqrt

__all__ = [
    "ABOVE",
    "AMID",
    "BENEATH",
    "CELL",
    "FACES",
    "INSET",
    "PENS",
    "PERIOD",
    "Face",
    "Marks",
    "faces_of",
    "marks_of",
]

CELL = 60
"""Width and height of a cell."""

PERIOD = 10
"""A dash of a cage's outline and the gap after it."""

INSET = 5
"""How far inside its cells a cage's outline runs.

Twice this is one `PERIOD`, and so many of them make a cell: so every corner of every outline, whatever its
shape, lies at a whole number of periods from every other, and each can fall on the middle of a dash.
"""


BENEATH, AMID, ABOVE = 0, 1, 2
"""Where a line of a rule lies: under the borders of cells, with the outlines of cages, or on all of them."""


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn.

    Parameters
    ----------
    width : float
        In units.
    dash : tuple of float
        Lengths of dash and gap; empty for a solid line.
    phase : float
        How far into the dash a line begins.
    fill : str
        What is inside a closed line: ``paper``, ``bed``, ``ink`` or ``block``; empty for what lies below.
    level : int
        `BENEATH`, `AMID` or `ABOVE`.
    round : bool
        Whether its ends are.
    """

    width: float
    dash: tuple[float, ...] = ()
    phase: float = 0.0
    fill: str = ""
    level: int = AMID
    round: bool = False


@dataclass(frozen=True, slots=True)
class Face:
    """How a number is set.

    Parameters
    ----------
    size : float
        Of the type, in units.
    bold : bool
        Its weight.
    anchor : str
        ``start`` or ``middle``: which part of it stands at its place.
    reverse : bool
        Whether it is as light as the paper, to stand in what is filled with ink.
    """

    size: float
    bold: bool = False
    anchor: str = "middle"
    reverse: bool = False


_DASH = 6.0

PENS: Mapping[str, Pen] = {
    "line": Pen(0.8),
    "box": Pen(2.4),
    "edge": Pen(3.6),
    "cage": Pen(1.5, (_DASH, PERIOD - _DASH), _DASH + (PERIOD - _DASH) / 2),  # it begins amid a gap
    "repeats": Pen(1.5),
    "tint": Pen(0.8, fill="bed"),
    "annexe": Pen(1.6, (1.6, 4.4), round=True),
    "tie": Pen(1.2, (1.5, 3.5)),
    "parity": Pen(1.0, fill="bed", level=BENEATH),
    "tube": Pen(15.0, level=BENEATH, round=True),
    "bore": Pen(12.0, level=BENEATH, round=True),
    "bulb": Pen(1.5, fill="bed", level=BENEATH),
    "arrow": Pen(2.6, level=BENEATH),
    "mirror": Pen(9.0, level=BENEATH),
    "dashes": Pen(9.0, (14, 6), 7, level=BENEATH),
    "rails": Pen(9.0, level=BENEATH),
    "gap": Pen(5.0, level=BENEATH),
    "span": Pen(1.6, level=BENEATH),
    "beads": Pen(6.5, (6.5, 6.5), 3.25, level=BENEATH),
    "angle": Pen(2.6, level=ABOVE),
    "plate": Pen(1.5, fill="paper", level=ABOVE),
    "disc": Pen(1.5, fill="ink", level=ABOVE),
    "aside": Pen(1.5, level=ABOVE),
    "block": Pen(0.8, fill="block"),
    "corner": Pen(0.8, fill="bed"),
    "slant": Pen(1.2),
}
"""Borders of cells, boxes and the grid; outlines of cages, solid where digits may repeat, and what ties the
pieces of one together; what stands behind digits; the lines of rules; signs between cells, and those outside
the grid; blocked cells, those with totals, and the line between two totals."""

FACES: Mapping[str, Face] = {
    "total": Face(17, anchor="start"),
    "given": Face(35, bold=True),
    "digit": Face(33),
    "placed": Face(30, bold=True),
    "coordinate": Face(13),
    "value": Face(13, bold=True),
    "reverse": Face(13, bold=True, reverse=True),
    "clue": Face(16),
    "long-clue": Face(11),
    "run": Face(19),
}
"""Totals, givens, digits that a solver writes in, the numbers of rows and columns, those in marks, light on
dark where a mark is filled, those at the edge, smaller with three figures, and the totals of runs."""


def faces_of(digits: int) -> Mapping[str, Face]:
    """Return the faces for a grid with digits up to `digits`; numbers of two figures are set smaller."""
    if digits < _TWO_FIGURES:
        return FACES
    return {name: replace(face, size=face.size * _NARROW.get(name, 1.0)) for name, face in FACES.items()}


_TWO_FIGURES = 10
_NARROW = {"given": 0.8, "digit": 0.8, "placed": 0.8, "value": 0.85, "reverse": 0.85}

_MARKS_IN_CAGE = (8.0, 17.5, 52.0, 52.5)
_MARKS_ALONE = (6.0, 5.0, 54.0, 55.0)
_MARKS_AMID_SIGNS = (10.0, 10.0, 50.0, 50.0)
"""Where pencil marks stand in a cell, left, top, right and bottom: inside the outline of its cage, and below
the total; or anywhere, in a puzzle without cages; clear of signs on the borders, where there are some."""


_ONE_FIGURE_WIDE, _TWO_FIGURES_WIDE = 1.3, 0.68
"""The size of marks in parts of the room across that each has: so much that two of them do not run together
in the fonts of screens, whose figures are 0.53 to 0.64 wide."""

_LARGEST_MARK = 17.0


@dataclass(frozen=True, slots=True)
class Marks:
    """How the pencil marks of a puzzle are set.

    Parameters
    ----------
    face : Face
        As large as a cell of this grid allows.
    places : mapping of int to (float, float)
        The middle of each digit, across and down from the corner of the cell.
    """

    face: Face
    places: Mapping[int, tuple[float, float]]


@lru_cache(maxsize=32)
def marks_of(digits: int, *, caged: bool, signed: bool = False) -> Marks:
    """Return how the marks of a puzzle are set: in rows, the smallest digit first.

    Parameters
    ----------
    digits : int
        The largest digit.
    caged : bool
        Whether there are cages, whose outlines and totals need room.
    signed : bool, optional
        Whether there are signs on the borders of cells, which do, too.

    Examples
    --------
    >>> marks_of(4, caged=True).places[3]
    (19.0, 43.75)
    """
    left, top, right, bottom = _MARKS_IN_CAGE if caged else _MARKS_ALONE
    if signed:
        rooms = zip((left, top, right, bottom), _MARKS_AMID_SIGNS, (max, max, min, min), strict=True)
        left, top, right, bottom = (inner(edge, other) for edge, other, inner in rooms)
    widest = _TWO_FIGURES_WIDE if digits >= _TWO_FIGURES else _ONE_FIGURE_WIDE

    def size_in(columns: int) -> float:
        high = (bottom - top) / ceil(digits / columns)
        return round(min(_LARGEST_MARK, widest * (right - left) / columns, 1.08 * high), 1)

    square = isqrt(digits - 1) + 1
    columns = max((square, square - 1), key=size_in)  # numbers of two figures may need fewer side by side
    wide, high = (right - left) / columns, (bottom - top) / ceil(digits / columns)
    places = {
        digit: (
            round(left + wide * ((digit - 1) % columns + 0.5), 2),
            round(top + high * ((digit - 1) // columns + 0.5), 2),
        )
        for digit in range(1, digits + 1)
    }
    return Marks(Face(size_in(columns)), places)

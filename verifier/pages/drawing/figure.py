"""A puzzle as lines and numbers: what is the same on the screen, in a PDF and in an SVG file.

Nothing here knows how it is put on paper; see `verifier.pages.drawing.svg`, `verifier.pages.sheets.pdf` and
`verifier.pages.sheets.svg`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import Any

from verifier.pages.drawing.look import CELL, FACES, INSET, faces_of
from verifier.pages.drawing.outlines import Point, Polyline, outlines
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import pieces
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.rule import Rule

__all__ = [
    "LINES",
    "Number",
    "PenLine",
    "between",
    "coordinates",
    "digit_numbers",
    "frame_of",
    "grid_lines",
    "middle",
    "rule_lines",
    "totals",
]


@dataclass(frozen=True, slots=True)
class PenLine:
    """A line: its pen, one of `verifier.pages.drawing.look.PENS`, and its points."""

    pen: str
    points: Polyline


@dataclass(frozen=True, slots=True)
class Number:
    """A number: its face, one of `verifier.pages.drawing.look.FACES`, its text, and where its foot stands."""

    face: str
    text: str
    place: Point


@dataclass(frozen=True, slots=True)
class Frame:
    """The room that a drawing takes, in units; the grid's top left corner is at 0, 0."""

    left: float
    top: float
    width: float
    height: float


def frame_of(grid: Grid) -> Frame:
    """Return the room for a grid with the numbers of its rows and columns at the side."""
    side, above, border = 27.0, 20.0, 2.0
    return Frame(-side, -above, grid.columns * CELL + side + border, grid.rows * CELL + above + border)


def middle(grid: Grid, cell: int) -> Point:
    """Return the middle of a cell."""
    row, column = divmod(cell, grid.columns)
    return (column + 0.5) * CELL, (row + 0.5) * CELL


def grid_lines(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the borders: of cells, then of boxes, then of the grid, so that the wide ones lie on top.

    Blocked cells are hatched; diagonals are lines, further houses have an outline of their own.
    """
    grid = puzzle.grid
    wide, high = grid.columns * CELL, grid.rows * CELL
    for row in range(1, grid.rows):
        yield PenLine("line", ((0, row * CELL), (wide, row * CELL)))
    for column in range(1, grid.columns):
        yield PenLine("line", ((column * CELL, 0), (column * CELL, high)))
    slants = dict(zip(grid.diagonals, (((0, 0), (wide, high)), ((wide, 0), (0, high))), strict=False))
    for cell in grid.blocked:
        yield from _hatching(*divmod(cell, grid.columns))
    for house in puzzle.houses:
        if house.kind == "box":
            yield from (PenLine("box", line) for line in outlines(house.cells, grid.columns, inset=0))
        elif house in slants:
            yield PenLine("line", slants[house])
        elif house.kind not in ("row", "column"):
            yield from (PenLine("tie", line) for line in outlines(house.cells, grid.columns, inset=INSET / 2))
    yield PenLine("edge", ((0, 0), (wide, 0), (wide, high), (0, high), (0, 0)))


def _hatching(row: int, column: int) -> Iterator[PenLine]:
    left, top, step = column * CELL, row * CELL, CELL // 10
    for rise in range(step, 2 * CELL, step):
        start, end = max(0, rise - CELL), min(rise, CELL)
        yield PenLine("box", ((left + start, top + rise - start), (left + end, top + rise - end)))


def cage_lines(grid: Grid, cage: Cage) -> Iterator[PenLine]:
    """Yield the outline of each piece of a cage, open where the total stands; then what ties the pieces."""
    drawn = outlines(cage.cells, grid.columns, opening=_room_for(cage.total))
    yield from (PenLine("cage", line) for line in drawn)
    for piece, later in pairwise(pieces(grid, cage.cells)):
        yield PenLine("tie", _nearest(grid, piece, later))


def _greater_lines(grid: Grid, sign: Greater) -> Iterator[PenLine]:
    """Yield an angle across the common border that opens towards the greater cell."""
    (left, top), (right, low) = (middle(grid, cell) for cell in sign.cells)
    across, down = (right - left) / CELL, (low - top) / CELL  # one of them is 0, the other 1 or -1
    tip = ((left + right) / 2 + _ANGLE * across, (top + low) / 2 + _ANGLE * down)
    back = (tip[0] - 2 * _ANGLE * across, tip[1] - 2 * _ANGLE * down)
    one, other = (
        (back[0] + side * 1.4 * _ANGLE * down, back[1] + side * 1.4 * _ANGLE * across) for side in (1, -1)
    )
    yield PenLine("angle", (one, tip, other))


_ANGLE = 6.0
"""Half of the depth of a sign between two cells, in units."""

LINES: Mapping[type[Rule], Callable[[Grid, Any], Iterator[PenLine]]] = {
    Cage: cage_lines,
    Greater: _greater_lines,
}
"""The lines that show a rule, by its class; houses are borders, and givens are numbers."""


def rule_lines(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the lines of cages, marks and clues."""
    for rule in puzzle.rules:
        if type(rule) in LINES:
            yield from LINES[type(rule)](puzzle.grid, rule)


def _room_for(total: int) -> tuple[int, int]:
    """Return the periods across and down that a total takes."""
    return len(str(total)), 1


def _nearest(grid: Grid, one: Sequence[int], other: Sequence[int]) -> Polyline:
    """Return the shortest way from a cell to one in another piece, clear of the digits in both."""
    ways = ((middle(grid, a), middle(grid, b)) for a in one for b in other)
    start, end = min(ways, key=lambda way: dist(*way))
    return between(start, end, 0.4 * CELL, 0.4 * CELL)


def between(start: Point, end: Point, less: float, less_at_end: float) -> Polyline:
    """Return the line from one point to another, shorter at both ends; of two near points, half of it."""
    length = dist(start, end) or 1.0
    shrink = min(1.0, length / 2 / (less + less_at_end))

    def part(share: float) -> Point:
        return (
            round(start[0] + (end[0] - start[0]) * share, 1),
            round(start[1] + (end[1] - start[1]) * share, 1),
        )

    return part(less * shrink / length), part(1 - less_at_end * shrink / length)


def totals(puzzle: Puzzle) -> Iterator[Number]:
    """Yield the total of each cage, in the corner of its first cell."""
    for cage in puzzle.cages:
        row, column = divmod(cage.cells[0], puzzle.grid.columns)
        foot = round(row * CELL + INSET + 0.72 * FACES["total"].size, 1)
        yield Number("total", str(cage.total), (column * CELL + INSET - 1.5, foot))


def digit_numbers(puzzle: Puzzle, face: str, digits: Mapping[int, int]) -> Iterator[Number]:
    """Yield a digit for each cell, in its middle; among cages a little lower, clear of the totals."""
    drop = 0.36 * faces_of(puzzle.grid.digits)[face].size + (3 if puzzle.cages else 0)
    for cell, digit in digits.items():
        across, down = middle(puzzle.grid, cell)
        yield Number(face, str(digit), (across, round(down + drop, 1)))


def coordinates(grid: Grid) -> Iterator[Number]:
    """Yield the names of rows and columns, outside the grid."""
    half = 0.36 * FACES["coordinate"].size
    for column in range(grid.columns):
        yield Number("coordinate", f"c{column + 1}", ((column + 0.5) * CELL, -7))
    for row in range(grid.rows):
        yield Number("coordinate", f"r{row + 1}", (-14, round((row + 0.5) * CELL + half, 1)))

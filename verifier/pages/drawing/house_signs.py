"""Houses beside rows, columns and boxes: tinted, and told apart by their shape where there is no colour.

A diagonal is a tinted band with a line along it; an extra house is tinted cells with a dotted outline.
"""

from __future__ import annotations

from collections.abc import Iterator

from verifier.pages.drawing.look import CELL, INSET
from verifier.pages.drawing.outlines import Polyline, outlines
from verifier.pages.drawing.shapes import PenLine
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.house import House

__all__ = ["house_lines", "house_tints"]

_BAND = 18.0
"""How far a band reaches along the edges of the corner in which it begins, in units."""

_USUAL = ("row", "column", "box")


def house_tints(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield what lies below all else: the bands of diagonals, and the cells of extra houses."""
    for house in puzzle.houses:
        if house in puzzle.grid.diagonals:
            yield PenLine("tint", _band(puzzle.grid, house))
        elif house.kind not in _USUAL:
            yield from (PenLine("tint", line) for line in _outline(puzzle.grid, house))


def house_lines(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the line along each diagonal, and the outline of each extra house."""
    for house in puzzle.houses:
        if house in puzzle.grid.diagonals:
            top, low = _ends(puzzle.grid, house)
            yield PenLine("line", (top, low))
        elif house.kind not in _USUAL:
            yield from (PenLine("annexe", line) for line in _outline(puzzle.grid, house))


def _outline(grid: Grid, house: House) -> list[Polyline]:
    return outlines(house.cells, grid.columns, inset=INSET / 2)


def _ends(grid: Grid, diagonal: House) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the corners of the grid in which a diagonal begins and ends, the upper one first."""
    wide, high = grid.columns * CELL, grid.rows * CELL
    return ((0.0, 0.0), (wide, high)) if diagonal.cells[0] == 0 else ((wide, 0.0), (0.0, high))


def _band(grid: Grid, diagonal: House) -> Polyline:
    (start, _), (end, low) = _ends(grid, diagonal)
    way = _BAND if end > start else -_BAND
    points = (
        (start, 0.0),
        (start + way, 0.0),
        (end, low - _BAND),
        (end, low),
        (end - way, low),
        (start, _BAND),
        (start, 0.0),
    )
    return points if way > 0 else points[::-1]  # clockwise, so that what is tinted twice stays tinted

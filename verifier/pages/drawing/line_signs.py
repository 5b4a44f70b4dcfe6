"""Lines through cells, under the digits: each has a stroke of its own, and ends of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from verifier.pages.drawing.outlines import Polyline
from verifier.pages.drawing.shapes import (
    PenLine,
    Piece,
    between,
    circle,
    halfway,
    middle,
    number_at,
    pill,
    rectangle,
    towards,
)
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.rule import Rule

__all__ = ["LINE_SIGNS", "numbers_on"]

_BULB, _CIRCLE, _INNER = 17.0, 22.0, 18.0
"""Radius of a bulb, of a circle round a digit, and of a second one inside it."""

_BOX = 16.0
"""Side of the box of a number on a line."""

_HEAD, _PAST = 9.0, 17.0
"""How far the head of an arrow reaches back and aside, and how far past the middle of its last cell."""


def _thermometer(grid: Grid, line: Thermometer) -> Iterator[Piece]:
    """Yield a tube with a bulb at its lowest digit."""
    way = _through(grid, line.cells)
    yield PenLine("tube", way)
    yield PenLine("bore", way)
    yield PenLine("bulb", circle(way[0], _BULB))


def _arrow(grid: Grid, line: Arrow) -> Iterator[Piece]:
    """Yield a circle round one cell or two, a line from it, and its head."""
    yield PenLine("arrow", pill(middle(grid, line.circle[0]), middle(grid, line.circle[-1]), _CIRCLE))
    first, *way = _through(grid, (_nearest(grid, line), *line.line))
    before, end = (first, *way)[-2:]
    (x, y), (on, down) = towards(before, end, _HEAD), towards(before, end, _PAST)
    tip = (end[0] + on, end[1] + down)  # to be seen beside a digit
    yield PenLine("arrow", (between(first, way[0], _CIRCLE, 0)[0], *way, tip))
    yield PenLine("arrow", ((tip[0] - x - y, tip[1] - y + x), tip, (tip[0] - x + y, tip[1] - y - x)))


def _nearest(grid: Grid, line: Arrow) -> int:
    """Return the cell of the circle from which the line goes: of two, the one that it touches."""
    row, column = divmod(line.line[0], grid.columns)

    def far(cell: int) -> int:
        return abs(cell // grid.columns - row) + abs(cell % grid.columns - column)

    return min(line.circle, key=far)


def _palindrome(grid: Grid, line: Palindrome) -> Iterator[Piece]:
    """Yield a broad line."""
    yield PenLine("mirror", _through(grid, line.cells))


def _renban(grid: Grid, line: Renban) -> Iterator[Piece]:
    """Yield a broad line of dashes."""
    yield PenLine("dashes", _through(grid, line.cells))


def _whisper(grid: Grid, line: Whisper) -> Iterator[Piece]:
    """Yield a double line."""
    yield PenLine("rails", _through(grid, line.cells))
    yield PenLine("gap", _through(grid, line.cells))


def _between_line(grid: Grid, line: Between) -> Iterator[Piece]:
    """Yield a line from one double ring to another."""
    first, *inner, last = _through(grid, line.cells)
    start = between(first, inner[0], _CIRCLE, 0)[0]
    yield PenLine("span", (start, *inner, between(inner[-1], last, 0, _CIRCLE)[1]))
    for end in (first, last):
        yield from (PenLine("span", circle(end, radius)) for radius in (_CIRCLE, _INNER))


def _region_sum(grid: Grid, line: RegionSum) -> Iterator[Piece]:
    """Yield a row of small squares."""
    yield PenLine("beads", _through(grid, line.cells))


def numbers_on(puzzle: Puzzle) -> Iterator[Piece]:
    """Yield the number of each whisper, in a box on its first stretch, where not all have the same."""
    lines = rules_of(puzzle.rules, Whisper)
    for line in lines if len({line.least for line in lines}) > 1 else ():
        at = halfway(*_through(puzzle.grid, line.cells[:2]))
        yield PenLine("plate", rectangle(at, _BOX, _BOX))
        yield number_at("value", line.least, at, puzzle.grid)


def _through(grid: Grid, cells: Sequence[int]) -> Polyline:
    return tuple(middle(grid, cell) for cell in cells)


LINE_SIGNS: Mapping[type[Rule], Callable[[Grid, Any], Iterator[Piece]]] = {
    Thermometer: _thermometer,
    Arrow: _arrow,
    Palindrome: _palindrome,
    Renban: _renban,
    Whisper: _whisper,
    Between: _between_line,
    RegionSum: _region_sum,
}
"""The lines, by the class of the rule."""

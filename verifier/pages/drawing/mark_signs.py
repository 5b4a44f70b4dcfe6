"""The signs of marks: between two cells, at the meeting of four, or behind the digit of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from verifier.pages.drawing.look import CELL, INSET
from verifier.pages.drawing.outlines import Point
from verifier.pages.drawing.shapes import (
    PenLine,
    Piece,
    circle,
    halfway,
    middle,
    number_at,
    rectangle,
    towards,
)
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd, Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

__all__ = ["MARK_SIGNS", "ring_corners", "side_by_side"]

_ANGLE = 6.0
"""Half of the depth of a sign that is greater."""

_BAR = (20.0, 7.0)
"""Length and width of the bar that joins two cells."""

_DOT, _BOX = 9.5, 18.0
"""Radius of a dot between two cells, and side of a box there."""

_BEHIND = CELL / 2 - INSET - 3.0
"""Half of what stands behind a digit: it keeps clear of the outline of a cage."""

_RING, _LARGE_RING = (15.0, 6.0, 5.8), (19.5, 9.0, 6.0)
"""Radius of a ring amid four cells, and how far from its middle its digits stand, across and down: of digits
with one figure, and with two."""

_ONE_FIGURE = 9


def _greater(grid: Grid, sign: Greater) -> Iterator[Piece]:
    """Yield an angle across the border that opens towards the greater cell."""
    more, less = (middle(grid, cell) for cell in sign.cells)
    at, (x, y) = halfway(more, less), towards(more, less, _ANGLE)
    one, other = ((at[0] - x + side * 1.4 * y, at[1] - y + side * 1.4 * x) for side in (1, -1))
    yield PenLine("angle", (one, (at[0] + x, at[1] + y), other))


def _consecutive(grid: Grid, mark: Consecutive) -> Iterator[Piece]:
    """Yield an open bar from one cell into the other."""
    one, other = (middle(grid, cell) for cell in mark.cells)
    long, wide = _BAR if one[1] == other[1] else _BAR[::-1]
    yield PenLine("plate", rectangle(halfway(one, other), long, wide))


def _ratio(grid: Grid, mark: Ratio) -> Iterator[Piece]:
    """Yield a filled dot with the number in it."""
    at = halfway(*(middle(grid, cell) for cell in mark.cells))
    yield PenLine("disc", circle(at, _DOT))
    yield number_at("reverse", mark.ratio, at, grid)


def _difference(grid: Grid, mark: Difference) -> Iterator[Piece]:
    """Yield an open dot with the number in it."""
    at = halfway(*(middle(grid, cell) for cell in mark.cells))
    yield PenLine("plate", circle(at, _DOT))
    yield number_at("value", mark.difference, at, grid)


def _pair_sum(grid: Grid, mark: PairSum) -> Iterator[Piece]:
    """Yield a box with the number in it."""
    at = halfway(*(middle(grid, cell) for cell in mark.cells))
    yield PenLine("plate", rectangle(at, _BOX, _BOX))
    yield number_at("value", mark.total, at, grid)


def _even(grid: Grid, mark: Even) -> Iterator[Piece]:
    """Yield a square behind each digit."""
    yield from (
        PenLine("parity", rectangle(middle(grid, cell), 2 * _BEHIND, 2 * _BEHIND)) for cell in mark.cells
    )


def _odd(grid: Grid, mark: Odd) -> Iterator[Piece]:
    """Yield a circle behind each digit."""
    yield from (PenLine("parity", circle(middle(grid, cell), _BEHIND)) for cell in mark.cells)


def _quadruple(grid: Grid, mark: Quadruple) -> Iterator[Piece]:
    """Yield a ring where the four cells meet, with the digits in it."""
    at = halfway(middle(grid, mark.cells[0]), middle(grid, mark.cells[-1]))
    radius, x, y = _RING if max(mark.digits) <= _ONE_FIGURE else _LARGE_RING
    yield PenLine("plate", circle(at, radius))
    places = {
        1: [(0.0, 0.0)],
        2: [(-x, 0.0), (x, 0.0)],
        3: [(-x, -y), (x, -y), (0.0, y)],
        4: [(-x, -y), (x, -y), (-x, y), (x, y)],
    }[len(mark.digits)]
    for digit, (across, down) in zip(mark.digits, places, strict=True):
        yield number_at("value", digit, (at[0] + across, at[1] + down), grid)


def side_by_side(puzzle: Puzzle) -> Mapping[Rule, Point]:
    """Return how far each mark is moved whose place another one has: along their border, across and down."""
    marks_at: dict[tuple[int, ...], list[Rule]] = {}
    for rule in puzzle.rules:
        if type(rule) in MARK_SIGNS and not isinstance(rule, Parity):
            marks_at.setdefault(tuple(sorted(rule.cells)), []).append(rule)
    return {
        mark: _along(cells, (number - (len(marks) - 1) / 2) * _APART)
        for cells, marks in marks_at.items()
        if len(marks) > 1
        for number, mark in enumerate(marks)
    }


def _along(cells: tuple[int, ...], far: float) -> Point:
    """Return the way along the border of two cells, or of four from their meeting to the side."""
    return (far, 0.0) if cells[1] - cells[0] > 1 or len(cells) > 2 else (0.0, far)


_APART = 20.0
"""From one mark to the next on the same border."""


def ring_corners(puzzle: Puzzle) -> set[int]:
    """Return the cells in whose top left corner a ring lies."""
    return {rule.cells[-1] for rule in puzzle.rules if isinstance(rule, Quadruple)}


MARK_SIGNS: Mapping[type[Rule], Callable[[Grid, Any], Iterator[Piece]]] = {
    Greater: _greater,
    Consecutive: _consecutive,
    Ratio: _ratio,
    Difference: _difference,
    PairSum: _pair_sum,
    Even: _even,
    Odd: _odd,
    Quadruple: _quadruple,
}
"""The signs of marks, by the class of the rule."""

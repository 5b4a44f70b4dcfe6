"""The signs of clues at the edge: outside the grid, in lanes along its sides, a lane for each kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.outlines import Point, Polyline
from verifier.pages.drawing.run_signs import LANE, frame_of_total, sides_with_totals
from verifier.pages.drawing.shapes import Number, PenLine, Piece, middle, number_at, rectangle, towards
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.rule import Rule

__all__ = ["EDGE_SIGNS", "NO_MARGINS", "Margins", "frames_of", "lanes_out", "margins"]

_KINDS: tuple[type[Rule], ...] = (LittleKiller, Skyscraper, Sandwich)
"""The kinds of clues in the order of their lanes: an arrow must begin at the grid."""

_HALF = 10.0
"""Half of the side of a clue's sign."""

_ASIDE = 20.0
"""How far from its corner the number of a diagonal stands, across and down."""


class Margins(NamedTuple):
    """The room that clues take beside the grid, in units."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0


NO_MARGINS = Margins()

_OUT = {"left": (-1, 0), "top": (0, -1), "right": (1, 0), "bottom": (0, 1)}
"""The sides of the grid, as `Margins` has them, and the way out on each."""


def margins(puzzle: Puzzle) -> Margins:
    """Return the room that the clues of a puzzle, and totals before the grid, take on each side."""
    beside = Margins(*(len(kinds) * LANE for kinds in _lanes(puzzle).values()))
    left, top = sides_with_totals(puzzle)
    return beside._replace(left=beside.left + left * LANE, top=beside.top + top * LANE)


def lanes_out(puzzle: Puzzle) -> Mapping[Rule, Point]:
    """Return how far from the first lane each clue stands whose kind has another, across and down."""
    lanes, ways = _lanes(puzzle), {}
    for clue in puzzle.rules:
        if type(clue) in _KINDS[1:]:
            (side,) = _sides(puzzle.grid, clue)
            far = lanes[side].index(type(clue)) * LANE
            ways[clue] = (_OUT[side][0] * far, _OUT[side][1] * far)
    return ways


def frames_of(puzzle: Puzzle, rule: Rule) -> Iterator[Polyline]:
    """Yield a frame round the sign of a clue at the edge, or the total of a run; none for any other rule."""
    if puzzle.kind == KAKURO and isinstance(rule, Cage):
        yield from frame_of_total(puzzle, rule)
    if type(rule) in _KINDS:
        (x, y), (across, down) = _place(puzzle.grid, rule), lanes_out(puzzle).get(rule, (0.0, 0.0))
        yield rectangle((x + across, y + down), LANE - 2, LANE - 2)


def _lanes(puzzle: Puzzle) -> dict[str, list[type[Rule]]]:
    """Return the kinds of clues on each side, the nearest to the grid first."""
    there = {
        (side, type(clue))
        for clue in puzzle.rules
        if type(clue) in _KINDS
        for side in _sides(puzzle.grid, clue)
    }
    return {side: [kind for kind in _KINDS if (side, kind) in there] for side in _OUT}


def _sides(grid: Grid, clue: Rule) -> list[str]:
    """Return the sides beyond which a clue stands: two for one that stands off a corner of the grid."""
    x, y = _place(grid, clue)
    beyond = (x < 0, y < 0, x > grid.columns * CELL, y > grid.rows * CELL)
    return [side for side, there in zip(_OUT, beyond, strict=True) if there]


def _place(grid: Grid, clue: Rule) -> Point:
    """Return where the number of a clue stands in the first lane."""
    if not isinstance(clue, LittleKiller):
        return _beside(grid, clue.cells)[0]
    (x, y), (across, down) = middle(grid, clue.cells[0]), _slant(grid, clue.cells)
    return x - across * (CELL / 2 + _ASIDE), y - down * (CELL / 2 + _ASIDE)


def _skyscraper(grid: Grid, clue: Skyscraper) -> Iterator[Piece]:
    """Yield the number in a frame that points into the line."""
    at, (x, y) = _beside(grid, clue.cells)
    corners = ((-1.0, -1.0), (0.7, -1.0), (1.4, 0.0), (0.7, 1.0), (-1.0, 1.0), (-1.0, -1.0))  # ahead, aside
    yield PenLine("aside", tuple((at[0] + a * x + b * y, at[1] + a * y + b * x) for a, b in corners))
    yield _number(clue.count, at, grid)


def _sandwich(grid: Grid, clue: Sandwich) -> Iterator[Piece]:
    """Yield the number between two bars across the line."""
    at, (x, y) = _beside(grid, clue.cells)
    for end in (-1.1, 1.1):
        bar = ((at[0] + end * x + side * y, at[1] + end * y + side * x) for side in (-1.0, 1.0))
        yield PenLine("aside", tuple(bar))
    yield _number(clue.total, at, grid)


def _little_killer(grid: Grid, clue: LittleKiller) -> Iterator[Piece]:
    """Yield the number off a corner of the first cell, and an arrow to that corner."""
    across, down = _slant(grid, clue.cells)
    x, y = middle(grid, clue.cells[0])
    corner = (x - across * CELL / 2, y - down * CELL / 2)
    tip, start = ((corner[0] - across * back, corner[1] - down * back) for back in (1.5, 11.5))
    yield PenLine("aside", (start, tip))
    yield PenLine("aside", ((tip[0] - 7 * across, tip[1]), tip, (tip[0], tip[1] - 7 * down)))
    yield _number(clue.total, _place(grid, clue), grid)


def _number(number: int, at: Point, grid: Grid) -> Number:
    return number_at("clue" if number <= _TWO_FIGURES else "long-clue", number, at, grid)


_TWO_FIGURES = 99


def _slant(grid: Grid, cells: tuple[int, ...]) -> tuple[int, int]:
    """Return how a diagonal goes, across and down."""
    (row, column), (later_row, later_column) = (divmod(cell, grid.columns) for cell in cells[:2])
    return later_column - column, later_row - row


def _beside(grid: Grid, cells: tuple[int, ...]) -> tuple[Point, Point]:
    """Return the middle of the place in the first lane before a line, and the way that leads into it."""
    first, later = middle(grid, cells[0]), middle(grid, cells[1])
    ahead = towards(first, later, 1.0)
    back = (CELL + LANE) / 2
    at = (first[0] - ahead[0] * back, first[1] - ahead[1] * back)
    return at, (ahead[0] * _HALF, ahead[1] * _HALF)


EDGE_SIGNS: Mapping[type[Rule], Callable[[Grid, Any], Iterator[Piece]]] = {
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
    LittleKiller: _little_killer,
}
"""The clues at the edge, by the class of the rule."""

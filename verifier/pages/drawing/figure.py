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

from verifier.pages.drawing.edge_signs import EDGE_SIGNS, lanes_out, margins
from verifier.pages.drawing.house_signs import house_lines
from verifier.pages.drawing.line_signs import LINE_SIGNS, numbers_on
from verifier.pages.drawing.look import CELL, FACES, INSET, PENS, Marks, faces_of, marks_of
from verifier.pages.drawing.mark_signs import MARK_SIGNS, ring_corners, side_by_side
from verifier.pages.drawing.outlines import Polyline, outlines
from verifier.pages.drawing.run_signs import run_lines, run_totals, totals_inside
from verifier.pages.drawing.shapes import Number, PenLine, Piece, between, middle
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import pieces
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = [
    "LINES",
    "SIGNS",
    "coordinates",
    "digit_numbers",
    "frame_of",
    "grid_lines",
    "marks_in",
    "rule_lines",
    "rule_numbers",
    "sign_lines",
    "totals",
]


@dataclass(frozen=True, slots=True)
class Frame:
    """The room that a drawing takes, in units; the grid's top left corner is at 0, 0."""

    left: float
    top: float
    width: float
    height: float


def frame_of(puzzle: Puzzle) -> Frame:
    """Return the room for a grid with its clues at the edge, and the names of rows and columns beyond."""
    grid, beside = puzzle.grid, margins(puzzle)
    left, top = _SIDE + beside.left, _ABOVE + beside.top
    right, bottom = _BORDER + beside.right, _BORDER + beside.bottom
    return Frame(-left, -top, grid.columns * CELL + left + right, grid.rows * CELL + top + bottom)


_SIDE, _ABOVE, _BORDER = 27.0, 20.0, 2.0
"""Room for the numbers of rows, for those of columns, and for the edge of the grid."""


def grid_lines(puzzle: Puzzle) -> Iterator[PenLine]:
    """Yield the borders: of cells, then of boxes, then of the grid, so that the wide ones lie on top.

    Those of further houses come before the boxes.
    """
    grid = puzzle.grid
    wide, high = grid.columns * CELL, grid.rows * CELL
    if puzzle.kind == KAKURO:
        yield from run_lines(puzzle)
    for row in range(1, grid.rows):
        yield PenLine("line", ((0, row * CELL), (wide, row * CELL)))
    for column in range(1, grid.columns):
        yield PenLine("line", ((column * CELL, 0), (column * CELL, high)))
    yield from house_lines(puzzle)
    for house in puzzle.houses:
        if house.kind == "box":
            yield from (PenLine("box", line) for line in outlines(house.cells, grid.columns, inset=0))
    yield PenLine("edge", ((0, 0), (wide, 0), (wide, high), (0, high), (0, 0)))


def cage_lines(grid: Grid, cage: Rule) -> Iterator[PenLine]:
    """Yield the outline of each piece of a cage, open where a total stands; then what ties the pieces."""
    pen = "cage" if cage.differs else "repeats"
    room = _room_for(cage.figure) if cage.has_total else None
    yield from (PenLine(pen, line) for line in outlines(cage.cells, grid.columns, opening=room))
    for piece, later in pairwise(pieces(grid, cage.cells)):
        yield PenLine("tie", _nearest(grid, piece, later))


_Table = Mapping[type[Rule], Callable[[Grid, Any], Iterator[Piece]]]

SIGNS: _Table = {**MARK_SIGNS, **LINE_SIGNS, **EDGE_SIGNS}
"""The picture of a mark, a line or a clue at the edge, by its class."""

LINES: _Table = {
    Cage: cage_lines,
    Different: cage_lines,
    LinearSum: cage_lines,
    **SIGNS,
}
"""The picture of a rule, by its class; houses are borders, and givens and totals are numbers."""


def rule_lines(puzzle: Puzzle) -> list[PenLine]:
    """Return the lines of cages, marks and clues, the lowest first; see `Pen.level`."""
    return _lines(puzzle, LINES)


def sign_lines(puzzle: Puzzle) -> list[PenLine]:
    """Return the lines of marks and clues alone."""
    return _lines(puzzle, SIGNS)


def rule_numbers(puzzle: Puzzle) -> Iterator[Number]:
    """Yield the numbers of marks and clues."""
    return (piece for piece in _pieces(puzzle, SIGNS) if isinstance(piece, Number))


def _lines(puzzle: Puzzle, table: _Table) -> list[PenLine]:
    lines = [piece for piece in _pieces(puzzle, table) if isinstance(piece, PenLine)]
    return sorted(lines, key=lambda line: PENS[line.pen].level)


def _pieces(puzzle: Puzzle, table: _Table) -> Iterator[Piece]:
    """Yield what shows those rules that stand in a table, each clear of the others; nothing of runs."""
    if puzzle.kind == KAKURO:
        return
    ways = {**lanes_out(puzzle), **side_by_side(puzzle)}
    for rule in puzzle.rules:
        if type(rule) in table:
            pieces = table[type(rule)](puzzle.grid, rule)
            yield from (piece.moved(ways[rule]) for piece in pieces) if rule in ways else pieces
    yield from numbers_on(puzzle)


def _room_for(total: int) -> tuple[int, int]:
    """Return the periods across and down that a total takes."""
    return len(str(total)), 1


def _nearest(grid: Grid, one: Sequence[int], other: Sequence[int]) -> Polyline:
    """Return the shortest way from a cell to one in another piece, clear of the digits in both."""
    ways = ((middle(grid, a), middle(grid, b)) for a in one for b in other)
    start, end = min(ways, key=lambda way: dist(*way))
    return between(start, end, 0.4 * CELL, 0.4 * CELL)


def totals(puzzle: Puzzle) -> Iterator[Number]:
    """Yield the total of each cage, in the corner of its first cell; of a later one where a ring is there.

    Those of runs stand before them.
    """
    if puzzle.kind == KAKURO:
        yield from run_totals(puzzle)
        return
    taken = ring_corners(puzzle)
    for cage in puzzle.cages_with_total:
        first = next((cell for cell in cage.cells if cell not in taken), cage.cells[0])
        row, column = divmod(first, puzzle.grid.columns)
        foot = round(row * CELL + INSET + 0.72 * FACES["total"].size, 1)
        yield Number("total", str(cage.total), (column * CELL + INSET - 1.5, foot))


def digit_numbers(puzzle: Puzzle, face: str, digits: Mapping[int, int]) -> Iterator[Number]:
    """Yield a digit for each cell, in its middle; among cages a little lower, clear of the totals.

    A blocked cell, of which a filling says 0, has none.
    """
    drop = 0.36 * faces_of(puzzle.grid.digits)[face].size + (3 if totals_inside(puzzle) else 0)
    for cell, digit in digits.items():
        across, down = middle(puzzle.grid, cell)
        if digit:
            yield Number(face, str(digit), (across, round(down + drop, 1)))


def marks_in(puzzle: Puzzle) -> Marks:
    """Return how the pencil marks of a puzzle are set, clear of what is drawn in it."""
    signed = any(type(rule) in MARK_SIGNS for rule in puzzle.rules)
    return marks_of(puzzle.grid.digits, caged=totals_inside(puzzle), signed=signed)


def coordinates(puzzle: Puzzle) -> Iterator[Number]:
    """Yield the names of rows and columns, outside the grid and its clues."""
    half, beside = 0.36 * FACES["coordinate"].size, margins(puzzle)
    for column in range(puzzle.grid.columns):
        yield Number("coordinate", f"c{column + 1}", ((column + 0.5) * CELL, -7 - beside.top))
    for row in range(puzzle.grid.rows):
        yield Number("coordinate", f"r{row + 1}", (-14 - beside.left, round((row + 0.5) * CELL + half, 1)))

"""Grids to begin with: houses of other shapes, and rules of the whole grid."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import apart
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.chess_move import MOVES, ChessMove
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.not_consecutive import NotConsecutive

__all__ = ["EMPTY", "boxless", "crooked", "diagonals", "no_repeats", "not_consecutive", "patched", "windows"]

_CROOKED = """
a a a b b b
a c c c b b
a a c d d b
e c c d d f
e e d d f f
e e e f f f
"""

_PATCHED = """
a a b b b c c c c
a a a b b b c c c
a a a d d b b c c
e e a d d b f f f
e e e d d d f f f
g e e e d d f f f
g g e g h h i i i
g g g g h h i i i
g h h h h h i i i
"""


def _unboxed(grid: Grid) -> Grid:
    return Grid(grid.rows, grid.columns, 0, 0, grid.digits)


def _irregular(drawing: str, grid: Grid) -> Puzzle:
    """Return a puzzle whose boxes are drawn with marks."""
    bare, marks = _unboxed(grid), drawing.split()
    boxes = (
        House("box", number, tuple(cell for cell, own in enumerate(marks) if own == mark))
        for number, mark in enumerate(dict.fromkeys(marks), start=1)
    )
    return make_puzzle("classic", bare, houses=(*bare.houses, *boxes))


def boxless(grid: Grid) -> Puzzle:
    """Return a puzzle of rows and columns alone."""
    return make_puzzle("classic", _unboxed(grid))


def diagonals(grid: Grid) -> Puzzle:
    """Return a puzzle with both diagonals."""
    return make_puzzle("classic", grid, houses=(*grid.houses, *grid.diagonals))


def windows(grid: Grid) -> Puzzle:
    """Return a puzzle with extra houses of the shape of a box, one row and one column inside the edge."""
    height, width = grid.box_rows, grid.box_columns
    corners = (
        (y, x)
        for y in range(1, grid.rows - height, height + 1)
        for x in range(1, grid.columns - width, width + 1)
    )
    extra = (
        House(
            "extra house",
            number,
            tuple(r * grid.columns + c for r in range(y, y + height) for c in range(x, x + width)),
        )
        for number, (y, x) in enumerate(corners, start=1)
    )
    return make_puzzle("classic", grid, houses=(*grid.houses, *extra))


def no_repeats(piece: str, grid: Grid) -> Puzzle:
    """Return a puzzle in which no two equal digits are a move of a piece apart."""
    return make_puzzle("classic", grid, clues=[ChessMove(piece, apart(grid, MOVES[piece]))])


def not_consecutive(grid: Grid) -> Puzzle:
    """Return a puzzle in which no neighbours differ by one."""
    return make_puzzle("classic", grid, clues=[NotConsecutive(apart(grid, ((0, 1), (1, 0))))])


crooked = partial(_irregular, _CROOKED)
patched = partial(_irregular, _PATCHED)

EMPTY: Mapping[str, Callable[[], Puzzle]] = {
    "irregular": lambda: crooked(Grid.square(6)),
    "no boxes": lambda: boxless(Grid.square(6)),
    "diagonals": lambda: diagonals(Grid.square(9)),
    "extra houses": lambda: windows(Grid.square(9)),
    "knight": lambda: no_repeats("knight", Grid.square(6)),
    "king": lambda: no_repeats("king", Grid.square(6)),
    "not consecutive": lambda: not_consecutive(Grid.square(6)),
}
"""One of each kind."""

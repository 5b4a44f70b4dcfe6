"""Many mistakes at once that one slip explains: the whole grid copied a row too high, or turned."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from verifier.puzzle.grid import Filling, Grid

__all__ = ["Displacement", "Slip", "slip_of"]

_FEWEST = 4
"""Fewer wrong digits than this are mistakes of their own."""
_SHARE_LEFT = 4
"""A slip explains the mistakes if no more than one in so many is left when it is undone."""


class Displacement(Enum):
    """How a grid was copied that is right but for its place."""

    UP = "up"
    """One row too high."""
    DOWN = "down"
    LEFT = "left"
    RIGHT = "right"
    CLOCKWISE = "clockwise"
    """Turned by a quarter."""
    ANTICLOCKWISE = "anticlockwise"
    HALF_TURN = "half turn"
    TRANSPOSED = "transposed"
    """Rows written as columns."""
    MIRRORED = "mirrored"
    """Left and right exchanged."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip that explains many wrong digits.

    Parameters
    ----------
    way : Displacement
        What happened.
    wrong : int
        How many digits are wrong where they stand.
    right : int
        How many are right when the slip is undone.
    """

    way: Displacement
    wrong: int
    right: int


def slip_of(entries: Mapping[int, int], solution: Filling, grid: Grid) -> Slip | None:
    """Return the slip that explains most of the wrong digits of a grid; None where none does.

    Parameters
    ----------
    entries : mapping of int to int
        The digits as they were written, by cell, without the givens that stand where they belong.
    solution : Filling
        The solution.
    grid : Grid
        The grid.

    Examples
    --------
    >>> solution = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> slip_of({0: 3, 1: 4, 2: 1, 3: 2, 4: 2, 5: 1}, solution, Grid.square(4))
    Slip(way=<Displacement.UP: 'up'>, wrong=6, right=6)
    """
    wrong = sum(digit != solution[cell] for cell, digit in entries.items())
    if wrong < _FEWEST:
        return None
    left = {way: _wrong_after(entries, solution, places) for way, places in _undone(grid)}
    best = min(left, key=lambda way: left[way])
    return Slip(best, wrong, len(entries) - left[best]) if left[best] * _SHARE_LEFT <= wrong else None


def _wrong_after(entries: Mapping[int, int], solution: Filling, places: Sequence[int | None]) -> int:
    moved = ((places[cell], digit) for cell, digit in entries.items())
    return sum(cell is None or solution[cell] != digit for cell, digit in moved)


def _undone(grid: Grid) -> Iterator[tuple[Displacement, list[int | None]]]:
    """Yield each way with the cell in which each cell belongs; None for one that lies outside."""
    rows, columns = grid.rows, grid.columns

    def places(row: tuple[int, int, int], column: tuple[int, int, int]) -> list[int | None]:
        """Return the places of a map that is linear in row and column, plus a number."""
        found: list[int | None] = []
        for cell in range(grid.cell_count):
            r, c = divmod(cell, columns)
            to = row[0] * r + row[1] * c + row[2], column[0] * r + column[1] * c + column[2]
            inside = 0 <= to[0] < rows and 0 <= to[1] < columns
            found.append(to[0] * columns + to[1] if inside else None)
        return found

    down, right = rows - 1, columns - 1
    yield Displacement.UP, places((1, 0, 1), (0, 1, 0))
    yield Displacement.DOWN, places((1, 0, -1), (0, 1, 0))
    yield Displacement.LEFT, places((1, 0, 0), (0, 1, 1))
    yield Displacement.RIGHT, places((1, 0, 0), (0, 1, -1))
    yield Displacement.HALF_TURN, places((-1, 0, down), (0, -1, right))
    yield Displacement.MIRRORED, places((1, 0, 0), (0, -1, right))
    if rows == columns:
        yield Displacement.CLOCKWISE, places((0, -1, down), (1, 0, 0))
        yield Displacement.ANTICLOCKWISE, places((0, 1, 0), (-1, 0, right))
        yield Displacement.TRANSPOSED, places((0, 1, 0), (1, 0, 0))

"""The grid of a puzzle: its size, its boxes, the names of its cells, its houses.

A cell is a whole number that counts the cells in reading order from 0: the cell in row ``r`` and
column ``c`` (both counted from 1, as people do) is ``(r - 1) * columns + (c - 1)``. People read and
write it as ``r3c5``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TypeVar

from verifier.puzzle.printable import listed
from verifier.puzzle.rules.house import House

__all__ = ["USUAL_BOXES", "Filling", "Grid", "standard_houses"]

_Value = TypeVar("_Value")

Filling = tuple[int, ...]
"""A digit for every cell, in reading order; 0 in a blocked one."""

USUAL_BOXES = {4: (2, 2), 6: (2, 3), 9: (3, 3), 12: (3, 4), 16: (4, 4), 25: (5, 5)}
"""Box height and width for each grid size, where a file does not say otherwise."""

_CELL = re.compile(r"r([0-9]{1,4})c([0-9]{1,4})\Z", re.ASCII)


@dataclass(frozen=True)
class Grid:
    """A rectangle of cells to be filled with the digits ``1..digits``.

    Parameters
    ----------
    rows, columns : int
        Height and width, in cells.
    box_rows, box_columns : int
        Height and width of a box, in cells; both 0 where the grid has no boxes of one size.
    digits : int
        The largest digit, whatever the size.
    blocked : tuple of int
        The cells that are not filled, in reading order; a filling has 0 there.

    Examples
    --------
    >>> grid = Grid.square(6)
    >>> grid.name, grid.boxes_name, grid.house_total
    ('6x6', '2x3', 21)
    >>> grid.cell_name(7), grid.cell_at("r2c2"), grid.cell_at("r7c1")
    ('r2c2', 7, None)
    """

    rows: int
    columns: int
    box_rows: int
    box_columns: int
    digits: int
    blocked: tuple[int, ...] = ()

    @classmethod
    def square(cls, size: int, boxes: tuple[int, int] | None = None) -> Grid:
        """Return the square grid of `size` rows, with the usual boxes unless `boxes` says otherwise."""
        box_rows, box_columns = boxes or USUAL_BOXES[size]
        return cls(size, size, box_rows, box_columns, size)

    @property
    def cell_count(self) -> int:
        """Number of cells, blocked ones among them."""
        return self.rows * self.columns

    @cached_property
    def cells(self) -> tuple[int, ...]:
        """The cells to be filled, in reading order."""
        blocked = set(self.blocked)
        return tuple(cell for cell in range(self.cell_count) if cell not in blocked)

    @property
    def name(self) -> str:
        """Rows by columns, as a file writes it: ``9x9``."""
        return f"{self.rows}x{self.columns}"

    @property
    def boxes_name(self) -> str:
        """Height by width of a box, as a file writes it: ``3x3``."""
        return f"{self.box_rows}x{self.box_columns}"

    @property
    def house_total(self) -> int:
        """What the digits of a house that holds them all add up to (45 where they are 1 to 9)."""
        return self.digits * (self.digits + 1) // 2

    @property
    def all_digits(self) -> range:
        """Every digit, smallest first."""
        return range(1, self.digits + 1)

    def cell_name(self, cell: int) -> str:
        """Return the name people use for a cell, such as ``r3c5``."""
        return f"r{cell // self.columns + 1}c{cell % self.columns + 1}"

    def cell_names(self, cells: Iterable[int]) -> str:
        """Return the names of cells as a sentence lists them; of very many, only the first."""
        return listed(self.cell_name(cell) for cell in cells)

    def rows_of(self, cells: tuple[_Value, ...]) -> Iterator[tuple[_Value, ...]]:
        """Return what stands in the cells, row by row.

        Parameters
        ----------
        cells : tuple
            One value a cell, in reading order: a filling, or the marks of a map.

        Examples
        --------
        >>> next(Grid.square(4).rows_of(tuple("abcdefghijklmnop")))
        ('a', 'b', 'c', 'd')
        """
        return (cells[start : start + self.columns] for start in range(0, len(cells), self.columns))

    def cell_at(self, name: str) -> int | None:
        """Return the cell called `name`, or None if the grid has no such cell."""
        match = _CELL.match(name)
        if match is None:
            return None
        row, column = int(match[1]), int(match[2])
        if not (1 <= row <= self.rows and 1 <= column <= self.columns):
            return None
        return (row - 1) * self.columns + column - 1

    @cached_property
    def houses(self) -> tuple[House, ...]:
        """Rows, columns and boxes, in this order: the houses of a puzzle that brings none of its own."""
        return standard_houses(self)

    @cached_property
    def diagonals(self) -> tuple[House, ...]:
        """Both long diagonals of a square grid, the falling one first; none of another grid.

        Examples
        --------
        >>> [(house.name, house.cells) for house in Grid.square(4).diagonals]
        [('falling diagonal', (0, 5, 10, 15)), ('rising diagonal', (3, 6, 9, 12))]
        """
        if self.rows != self.columns:
            return ()
        lines = range(self.rows)
        falling = tuple(line * (self.columns + 1) for line in lines)
        rising = tuple((line + 1) * (self.columns - 1) for line in lines)
        return House("falling diagonal", 0, falling), House("rising diagonal", 0, rising)


@lru_cache(maxsize=64)
def standard_houses(grid: Grid) -> tuple[House, ...]:
    """Return the rows, the columns and the boxes of a grid, boxes in reading order.

    Examples
    --------
    >>> [house.name for house in standard_houses(Grid.square(4))][3:9]
    ['row 4', 'column 1', 'column 2', 'column 3', 'column 4', 'box 1']
    """
    rows = [
        House("row", r + 1, tuple(r * grid.columns + c for c in range(grid.columns)))
        for r in range(grid.rows)
    ]
    columns = [
        House("column", c + 1, tuple(r * grid.columns + c for r in range(grid.rows)))
        for c in range(grid.columns)
    ]
    boxes: list[House] = []
    for top in range(0, grid.rows, grid.box_rows) if grid.box_rows else ():
        for left in range(0, grid.columns, grid.box_columns):
            cells = tuple(
                r * grid.columns + c
                for r in range(top, top + grid.box_rows)
                for c in range(left, left + grid.box_columns)
            )
            boxes.append(House("box", len(boxes) + 1, cells))
    return (*rows, *columns, *boxes)

"""Random full grids."""

from __future__ import annotations

from random import Random

from scripts.setting.chance import shuffled
from verifier.puzzle.grid import Filling, Grid

__all__ = ["full_grid"]

_LARGEST_SEARCHED = 9
"""Larger grids are shuffled patterns: a search would now and then lose its way for minutes."""


def full_grid(grid: Grid, rng: Random) -> Filling:
    """Return a random grid that obeys every row, column and box.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.breaches import solves
    >>> solves(make_puzzle("classic", Grid.square(9)), full_grid(Grid.square(9), Random(1)))
    True
    """
    return _searched(grid, rng) if grid.digits <= _LARGEST_SEARCHED else _shuffled_pattern(grid, rng)


def _searched(grid: Grid, rng: Random) -> Filling:
    """Fill the cell with the fewest digits open, again and again, and go back where none is."""
    peers = [
        {other for house in grid.houses if cell in house.cells for other in house.cells} - {cell}
        for cell in range(grid.cell_count)
    ]
    digits = [0] * grid.cell_count

    def open_in(cell: int) -> list[int]:
        seen = {digits[peer] for peer in peers[cell]}
        return [digit for digit in grid.all_digits if digit not in seen]

    def fill() -> bool:
        empty = [cell for cell in range(grid.cell_count) if not digits[cell]]
        if not empty:
            return True
        cell = min(empty, key=lambda c: len(open_in(c)))
        for digit in shuffled(open_in(cell), rng):
            digits[cell] = digit
            if fill():
                return True
        digits[cell] = 0
        return False

    fill()
    return tuple(digits)


def _shuffled_pattern(grid: Grid, rng: Random) -> Filling:
    """Shuffle the rows, columns and digits of a plain pattern, bands and stacks kept together."""
    height, width, size = grid.box_rows, grid.box_columns, grid.digits
    rows = _line_order(size, height, rng)
    columns = _line_order(size, width, rng)
    digits = shuffled(grid.all_digits, rng)
    return tuple(digits[(width * (r % height) + r // height + c) % size] for r in rows for c in columns)


def _line_order(lines: int, band: int, rng: Random) -> list[int]:
    bands = shuffled(range(lines // band), rng)
    return [band * b + line for b in bands for line in shuffled(range(band), rng)]

"""The key of a puzzle turned over: equal for all its turns, mirrors and, for killers, complements."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from itertools import product
from typing import Any

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House

__all__ = ["TURNED_VERSION", "complement", "forms", "turned_images", "turned_key"]

TURNED_VERSION = 1
"""Goes up when the key of any puzzle changes."""

_Image = tuple[Any, ...]
"""The sizes of the grid, the cages and the givens; then houses and rules that are not the usual ones."""


def turned_key(puzzle: Puzzle) -> str:
    """Return a key that is equal for puzzles that are the same one turned over.

    Parameters
    ----------
    puzzle : Puzzle
        On any grid, with any rules.

    Returns
    -------
    str
        ``turned:1:`` and a hash of the least image. Credits and the claimed solution make no difference.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> grid = Grid.square(4)
    >>> one = make_puzzle("killer", grid, cages=[Cage((0, 1), 3)])
    >>> other = make_puzzle("killer", grid, cages=[Cage((11, 15), 7)])  # a quarter turn, and 5 - d for d
    >>> turned_key(one) == turned_key(other), turned_key(one)[:9]
    (True, 'turned:1:')
    """
    return f"turned:{TURNED_VERSION}:{hashlib.sha256(repr(min(_images(puzzle))).encode()).hexdigest()[:32]}"


def complement(puzzle: Puzzle) -> Puzzle:
    """Return the puzzle with each digit ``d`` become ``n + 1 - d``: as sound as it was.

    Raises
    ------
    ValueError
        If a rule says of digits what their complements do not obey.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> complement(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={5: 1})).cages
    (Cage(cells=(0, 1), total=7),)
    """
    turned = _complement(puzzle)
    if turned is None:
        raise ValueError("a rule of this puzzle bars that its digits are complemented")
    return turned


def _complement(puzzle: Puzzle) -> Puzzle | None:
    grid = puzzle.grid
    return puzzle.moved(grid, range(grid.cell_count), (0, *reversed(grid.all_digits)))


def forms(puzzle: Puzzle) -> list[Puzzle]:
    """Return the puzzle, and its complement where that is another puzzle of the same kind.

    Where there is nothing but houses and givens all digits can be renamed, which is told in another way.
    """
    if all(type(rule) in (House, Given) for rule in puzzle.rules):
        return [puzzle]
    other = _complement(puzzle)
    return [puzzle] if other is None else [puzzle, other]


def turned_images(grid: Grid) -> Iterator[tuple[Grid, tuple[int, ...]]]:
    """Yield the eight turns and mirrors of a grid: the grid that results, and where each cell goes."""
    for across, down, swapped in product((False, True), repeat=3):
        rows, columns = (grid.columns, grid.rows) if swapped else (grid.rows, grid.columns)
        boxes = (grid.box_columns, grid.box_rows) if swapped else (grid.box_rows, grid.box_columns)
        places = []
        for cell in range(grid.cell_count):
            row, column = divmod(cell, grid.columns)
            row = grid.rows - 1 - row if down else row
            column = grid.columns - 1 - column if across else column
            places.append(column * columns + row if swapped else row * columns + column)
        blocked = tuple(sorted(places[cell] for cell in grid.blocked))
        yield Grid(rows, columns, *boxes, grid.digits, blocked), tuple(places)


def _images(puzzle: Puzzle) -> Iterator[_Image]:
    usual = {house.cells for house in puzzle.houses} == {house.cells for house in puzzle.grid.houses}
    known = (Cage, Given, House) if usual else (Cage, Given)
    for form in forms(puzzle):
        others = [rule for rule in form.rules if type(rule) not in known]
        for grid, places in turned_images(puzzle.grid):
            boxes = (grid.box_rows, grid.box_columns) if usual else ()
            cages = sorted((tuple(sorted(places[c] for c in cage.cells)), cage.total) for cage in form.cages)
            givens = sorted((places[cell], digit) for cell, digit in form.givens)
            image = ((grid.rows, grid.columns, *boxes, grid.digits), tuple(cages), tuple(givens))
            moved = (rule.moved(places) for rule in others)
            more = sorted(repr(rule.cells if type(rule) is House else rule) for rule in moved)
            yield (*image, grid.blocked, *more) if more or grid.blocked else image

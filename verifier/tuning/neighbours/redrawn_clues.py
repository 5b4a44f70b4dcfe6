"""A clue drawn otherwise where one cell more or less will not do: bent, shifted, or with a part more or less.

A palindrome grows at both ends at once, an arrow by other cells with the same sum, a region sum line by a
whole part, a quadruple by a digit that the solution has there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain, combinations, product
from typing import Any, TypeVar

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import around, squares, touch
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum, parts_in_boxes
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.rule import Rule

__all__ = ["REDRAWN", "adding_up", "digit_lists", "of_parts", "redrawn"]

_TwoWay = TypeVar("_TwoWay", Palindrome, Renban, Between, Whisper)
_Line = tuple[int, ...]

_MOST_CELLS = 3
"""Cells that are put on a line at once."""
_LONGER_THAN_CUT = 3
"""A palindrome of more cells than this can lose one at each end."""
_LEAST_DIGITS = 2
"""Of a quadruple."""


def redrawn(clue: Rule, puzzle: Puzzle, solution: Filling) -> Iterator[Rule]:
    """Yield a clue of a puzzle drawn otherwise; the solution need not obey all of what is yielded.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid, solution = Grid.square(4), (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> puzzle = make_puzzle("classic", grid, clues=[Arrow((3,), (2, 6))])
    >>> [arrow.called(grid) for arrow in redrawn(puzzle.rules[-1], puzzle, solution)][:2]
    ['the arrow from r1c4 to r2c3', 'the arrow from r1c4 to r1c3']
    """
    drawn = REDRAWN.get(type(clue))
    yield from drawn(clue, puzzle, solution) if drawn else ()


def adding_up(grid: Grid, start: int, total: int, solution: Filling, but: Collection[int]) -> Iterator[_Line]:
    """Yield the short lines that go on from a cell, without it, and add up to a total in the solution.

    Parameters
    ----------
    grid : Grid
        Says which cells touch.
    start : int
        The cell.
    total : int
        What the digits add up to.
    solution : Filling
        Where they do.
    but : collection of int
        Cells that the line does not visit.

    Examples
    --------
    >>> solution = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> list(adding_up(Grid.square(4), 0, 5, solution, but=(0, 4)))
    [(1, 2), (5, 6), (5, 9), (1, 6, 7)]
    """
    lines: list[_Line] = [()]
    for _ in range(_MOST_CELLS):
        ends = ((line, line[-1] if line else start) for line in lines)
        longer = [
            (*line, cell)
            for line, end in ends
            for cell in around(grid, end)
            if cell not in line and cell not in but
        ]
        made = [(line, sum(solution[cell] for cell in line)) for line in longer]
        yield from (line for line, found in made if found == total)
        lines = [line for line, found in made if found < total]


def _bent(cells: _Line, grid: Grid) -> Iterator[_Line]:
    """Yield a line with its last or its first cell elsewhere, and the whole line shifted by one."""
    for cell in around(grid, cells[-2]):
        if cell not in cells:
            yield (*cells[:-1], cell)
    for cell in around(grid, cells[1]):
        if cell not in cells:
            yield (cell, *cells[1:])
    places = [divmod(cell, grid.columns) for cell in cells]
    for down, across in product((-1, 0, 1), repeat=2):
        shifted = [(row + down, column + across) for row, column in places]
        inside = all(0 <= row < grid.rows and 0 <= column < grid.columns for row, column in shifted)
        if inside and (down or across):
            yield tuple(row * grid.columns + column for row, column in shifted)


def _thermometers(line: Thermometer, puzzle: Puzzle, _: Filling) -> Iterator[Thermometer]:
    yield from map(Thermometer, _bent(line.cells, puzzle.grid))


def _two_way(line: _TwoWay, puzzle: Puzzle, _: Filling) -> Iterator[_TwoWay]:
    yield from (replace(line, cells=either_way(cells)) for cells in _bent(line.cells, puzzle.grid))


def _palindromes(line: Palindrome, puzzle: Puzzle, solution: Filling) -> Iterator[Palindrome]:
    """Yield also the palindrome with a cell less at each end, and with a cell more."""
    yield from _two_way(line, puzzle, solution)
    cells, grid = line.cells, puzzle.grid
    if len(cells) > _LONGER_THAN_CUT:
        yield replace(line, cells=either_way(cells[1:-1]))
    for head, tail in product(around(grid, cells[0]), around(grid, cells[-1])):
        if head != tail and not {head, tail}.intersection(cells):
            yield replace(line, cells=either_way((head, *cells, tail)))


def _arrows(arrow: Arrow, puzzle: Puzzle, solution: Filling) -> Iterator[Arrow]:
    """Yield the arrow with other cells at its end, which add up to what those did."""
    for kept in range(len(arrow.line)):
        line, cut = arrow.line[:kept], arrow.line[kept:]
        total = sum(solution[cell] for cell in cut)
        for start in line[-1:] or arrow.circle:
            for end in adding_up(puzzle.grid, start, total, solution, but=(*arrow.circle, *line)):
                yield replace(arrow, line=(*line, *end))


def _region_sums(line: RegionSum, puzzle: Puzzle, solution: Filling) -> Iterator[RegionSum]:
    """Yield the line without its last or its first part, with another in its place, and with one more."""
    total = sum(solution[cell] for cell in line.parts[0])
    for parts in (line.parts, tuple(part[::-1] for part in reversed(line.parts))):
        for kept in (parts[:-1], parts):
            cells = tuple(chain(*kept))
            ends = [(), *adding_up(puzzle.grid, cells[-1], total, solution, but=cells)]
            yield from of_parts(((*cells, *end) for end in ends), puzzle)


def of_parts(lines: Iterable[_Line], puzzle: Puzzle) -> Iterator[RegionSum]:
    """Yield those of some lines that run through two boxes or more, as region sum lines."""
    for cells in lines:
        parts = parts_in_boxes(either_way(cells), puzzle.houses)
        if len(parts) > 1:
            yield RegionSum(parts)


def _quadruples(mark: Quadruple, puzzle: Puzzle, solution: Filling) -> Iterator[Quadruple]:
    """Yield the mark with a digit more or less, and on the squares that touch its own."""
    digits = len(mark.digits)
    for cells in squares(puzzle.grid):
        if cells == mark.cells:
            for other in {max(digits - 1, _LEAST_DIGITS), min(digits + 1, len(cells))} - {digits}:
                lists = digit_lists(cells, solution, other)
                yield from (replace(mark, digits=each) for each in lists if _differ_by_one(each, mark.digits))
        elif touch(puzzle.grid, cells[0], mark.cells[0]):
            yield from (
                replace(mark, cells=cells, digits=each) for each in digit_lists(cells, solution, digits)
            )


def digit_lists(cells: Sequence[int], solution: Filling, count: int) -> list[tuple[int, ...]]:
    """Return so many of the digits that stand in some cells, in every way, smallest first.

    Examples
    --------
    >>> digit_lists((0, 1, 2, 3), (4, 1, 2, 1), 2)
    [(1, 1), (1, 2), (1, 4), (2, 4)]
    """
    return sorted(set(combinations(sorted(solution[cell] for cell in cells), count)))


def _differ_by_one(one: Sequence[int], other: Sequence[int]) -> bool:
    return (Counter(one) - Counter(other)).total() + (Counter(other) - Counter(one)).total() == 1


REDRAWN: Mapping[type[Rule], Callable[[Any, Puzzle, Filling], Iterable[Rule]]] = {
    Thermometer: _thermometers,
    **dict.fromkeys((Renban, Between, Whisper), _two_way),
    Palindrome: _palindromes,
    Arrow: _arrows,
    RegionSum: _region_sums,
    Quadruple: _quadruples,
}
"""For each class of clues, how one is drawn otherwise; any other is only drawn nearly alike."""

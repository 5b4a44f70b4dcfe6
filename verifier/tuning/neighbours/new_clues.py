"""Where a clue of a kind that a puzzle has could stand besides; its number is another question."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any, TypeVar

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import BESIDE, apart, around, squares
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.seen import SIDES, whole_diagonal
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd, Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule
from verifier.tuning.neighbours.redrawn_clues import adding_up, digit_lists, of_parts

__all__ = ["ELSEWHERE", "FOLLOWING", "new_clues"]

_Mark = TypeVar("_Mark", Consecutive, Ratio, Difference, PairSum)
_TwoWay = TypeVar("_TwoWay", Palindrome, Renban, Between, Whisper)
_Line = tuple[int, ...]

_LINES = (Thermometer, Palindrome, Renban, Between, Whisper, Arrow, RegionSum)


def new_clues(puzzle: Puzzle, clues: Sequence[Rule], solution: Filling) -> Iterator[Rule]:
    """Yield clues like some of a puzzle, for all places where they do not stand yet.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    clues : sequence of Rule
        Its clues.
    solution : Filling
        What the figures of some of them follow; others may be drawn where it does not obey them.
    """
    taken = {(type(clue), frozenset(clue.cells)) for clue in clues}
    for sample in {(type(clue), clue.figure): clue for clue in clues}.values():
        elsewhere, following = ELSEWHERE.get(type(sample)), FOLLOWING.get(type(sample))
        found = chain(
            elsewhere(sample, puzzle) if elsewhere else (),
            following(sample, puzzle, solution) if following else (),
        )
        yield from (clue for clue in found if (type(clue), frozenset(clue.cells)) not in taken)


def _marks(mark: _Mark, puzzle: Puzzle) -> Iterator[_Mark]:
    yield from (replace(mark, cells=pair) for pair in apart(puzzle.grid, BESIDE))


def _signs(_: Greater, puzzle: Puzzle) -> Iterator[Greater]:
    yield from (Greater(way) for pair in apart(puzzle.grid, BESIDE) for way in (pair, pair[::-1]))


def _parity(mark: Parity, puzzle: Puzzle) -> Iterator[Parity]:
    marked = {cell for rule in puzzle.rules if isinstance(rule, Parity) for cell in rule.cells}
    yield from (mark.on([cell]) for cell in puzzle.grid.cells if cell not in marked)


def _used(puzzle: Puzzle) -> set[int]:
    """Return the cells on which a line lies."""
    return {cell for rule in puzzle.rules if isinstance(rule, _LINES) for cell in rule.cells}


def _free_lines(puzzle: Puzzle) -> Iterator[_Line]:
    """Yield lines of three cells on which no line lies, in both directions: they can be made longer later."""
    grid, used = puzzle.grid, _used(puzzle)
    free = [cell for cell in grid.cells if cell not in used]
    near = {cell: [other for other in around(grid, cell) if other in free] for cell in free}
    for middle in free:
        yield from ((one, middle, other) for one in near[middle] for other in near[middle] if one != other)


def _thermometers(_: Thermometer, puzzle: Puzzle) -> Iterator[Thermometer]:
    yield from map(Thermometer, _free_lines(puzzle))


def _two_way(line: _TwoWay, puzzle: Puzzle) -> Iterator[_TwoWay]:
    yield from (replace(line, cells=either_way(cells)) for cells in _free_lines(puzzle))


def _arrows(_: Arrow, puzzle: Puzzle) -> Iterator[Arrow]:
    yield from (Arrow(cells[:1], cells[1:]) for cells in _free_lines(puzzle))


def _edges(grid: Grid) -> Iterator[_Line]:
    yield from (house.cells for house in grid.houses if house.kind in SIDES)


def _sandwiches(clue: Sandwich, puzzle: Puzzle) -> Iterator[Sandwich]:
    yield from (replace(clue, cells=cells) for cells in _edges(puzzle.grid))


def _skyscrapers(clue: Skyscraper, puzzle: Puzzle) -> Iterator[Skyscraper]:
    for cells in _edges(puzzle.grid):
        yield from (replace(clue, cells=way) for way in (cells, cells[::-1]))


def _little_killers(clue: LittleKiller, puzzle: Puzzle) -> Iterator[LittleKiller]:
    grid = puzzle.grid
    pairs = ((one, other) for one in grid.cells for other in around(grid, one))
    for cells in dict.fromkeys(whole_diagonal(one, other, grid) for one, other in pairs):
        if len(cells) > 1:
            yield replace(clue, cells=cells)


def _quadruples(mark: Quadruple, puzzle: Puzzle, solution: Filling) -> Iterator[Quadruple]:
    for cells in squares(puzzle.grid):
        lists = digit_lists(cells, solution, len(mark.digits))
        yield from (Quadruple(cells, digits) for digits in lists)


def _region_sums(_: RegionSum, puzzle: Puzzle, solution: Filling) -> Iterator[RegionSum]:
    """Yield lines with a part of one or two cells and another that adds up to the same."""
    grid, used = puzzle.grid, _used(puzzle)
    for cell in grid.cells:
        for first in ((cell,), *((other, cell) for other in around(grid, cell))):
            if used.isdisjoint(first):
                total = sum(solution[each] for each in first)
                ends = adding_up(grid, cell, total, solution, but=used.union(first))
                yield from of_parts((line for end in ends if len(line := (*first, *end)) > 2), puzzle)


ELSEWHERE: Mapping[type[Rule], Callable[[Any, Puzzle], Iterable[Rule]]] = {
    **dict.fromkeys((Consecutive, Ratio, Difference, PairSum), _marks),
    Greater: _signs,
    **dict.fromkeys((Even, Odd), _parity),
    Thermometer: _thermometers,
    **dict.fromkeys((Palindrome, Renban, Between, Whisper), _two_way),
    Arrow: _arrows,
    Sandwich: _sandwiches,
    Skyscraper: _skyscrapers,
    LittleKiller: _little_killers,
}
"""For each class of clues, all that there could be."""

FOLLOWING: Mapping[type[Rule], Callable[[Any, Puzzle, Filling], Iterable[Rule]]] = {
    Quadruple: _quadruples,
    RegionSum: _region_sums,
}
"""The same for classes of which only the solution says what there could be."""

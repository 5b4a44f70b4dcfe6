"""What a clue may have been meant to be that was drawn one cell too far, too long or too short.

Which slips are likely is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, TypeVar

from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import BESIDE, apart, around, beside, squares, touch
from verifier.puzzle.puzzle import Puzzle, rules_of
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.seen import whole_diagonal
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum, parts_in_boxes
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
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

__all__ = ["NEAR", "missing_marks", "near"]

_Mark = TypeVar("_Mark", Consecutive, Ratio, Difference, PairSum)
_TwoWay = TypeVar("_TwoWay", Palindrome, Renban, Between, Whisper)
_Line = tuple[int, ...]


def _borders_near(cells: _Line, grid: Grid) -> Iterator[_Line]:
    """Yield the pairs of neighbours that have one of two cells, and those that lie right beside them."""
    one, other = sorted(cells)
    for pair in apart(grid, BESIDE):
        shared = len({one, other}.intersection(pair))
        parallel = pair[1] - pair[0] == other - one and pair[0] in beside(grid, one)
        if shared == 1 or (not shared and parallel):
            yield pair


def _marks(mark: _Mark, puzzle: Puzzle) -> Iterator[_Mark]:
    yield from (replace(mark, cells=pair) for pair in _borders_near(mark.cells, puzzle.grid))


def _signs(sign: Greater, puzzle: Puzzle) -> Iterator[Greater]:
    yield from (Greater(way) for pair in _borders_near(sign.cells, puzzle.grid) for way in (pair, pair[::-1]))


def _parity(mark: Parity, puzzle: Puzzle) -> Iterator[Parity]:
    yield mark.other()
    for cell in mark.cells:
        others = set(mark.cells) - {cell}
        for new in ({near} for near in beside(puzzle.grid, cell) if near not in others):
            yield mark.on(others | new)
        if others:
            yield mark.on(others)


def _quadruples(mark: Quadruple, puzzle: Puzzle) -> Iterator[Quadruple]:
    grid = puzzle.grid
    for place, old in enumerate(mark.digits):
        rest = (*mark.digits[:place], *mark.digits[place + 1 :])
        for digit in grid.all_digits:
            if digit != old:
                yield replace(mark, digits=tuple(sorted((*rest, digit))))
    yield from (replace(mark, cells=block) for block in squares(grid) if touch(grid, block[0], mark.cells[0]))


def _longer_and_shorter(cells: _Line, least: int, grid: Grid, both_ends: bool = True) -> Iterator[_Line]:
    """Yield a line without its last cell, and with one more; at its beginning too, unless told otherwise."""
    if len(cells) > least:
        yield cells[:-1]
    yield from ((*cells, cell) for cell in around(grid, cells[-1]) if cell not in cells)
    if both_ends:
        yield from (line[::-1] for line in _longer_and_shorter(cells[::-1], least, grid, both_ends=False))


def _thermometers(line: Thermometer, puzzle: Puzzle) -> Iterator[Thermometer]:
    yield Thermometer(line.cells[::-1])
    yield from map(Thermometer, _longer_and_shorter(line.cells, 2, puzzle.grid))


def _two_way(line: _TwoWay, puzzle: Puzzle, least: int = 2) -> Iterator[_TwoWay]:
    for cells in _longer_and_shorter(line.cells, least, puzzle.grid):
        yield replace(line, cells=either_way(cells))


def _betweens(line: Between, puzzle: Puzzle) -> Iterator[Between]:
    return _two_way(line, puzzle, least=3)


def _arrows(arrow: Arrow, puzzle: Puzzle) -> Iterator[Arrow]:
    for cells in _longer_and_shorter(arrow.line, 1, puzzle.grid, both_ends=False):
        if not set(arrow.circle).intersection(cells):
            yield replace(arrow, line=cells)


def _region_sums(line: RegionSum, puzzle: Puzzle) -> Iterator[RegionSum]:
    for cells in _longer_and_shorter(line.cells, 2, puzzle.grid):
        parts = parts_in_boxes(either_way(cells), puzzle.houses)
        if len(parts) > 1:
            yield RegionSum(parts)


def _lines_near(cells: _Line, grid: Grid) -> Iterator[_Line]:
    """Yield the rows or columns on both sides of one."""
    step = grid.columns if cells[0] // grid.columns == cells[-1] // grid.columns else 1
    for by in (-step, step):
        shifted = tuple(cell + by for cell in cells)
        if all(new in beside(grid, old) for old, new in zip(cells, shifted, strict=True)):
            yield shifted


def _sandwiches(clue: Sandwich, puzzle: Puzzle) -> Iterator[Sandwich]:
    yield from (replace(clue, cells=cells) for cells in _lines_near(clue.cells, puzzle.grid))


def _skyscrapers(clue: Skyscraper, puzzle: Puzzle) -> Iterator[Skyscraper]:
    yield replace(clue, cells=clue.cells[::-1])
    yield from (replace(clue, cells=cells) for cells in _lines_near(clue.cells, puzzle.grid))


def _little_killers(clue: LittleKiller, puzzle: Puzzle) -> Iterator[LittleKiller]:
    """Yield the diagonals beside it, and those that begin where it does."""
    first, second = clue.cells[:2]
    grid = puzzle.grid
    beside_it = ((cell, cell + second - first) for cell in beside(grid, first))
    from_there = ((first, cell) for cell in around(grid, first) if cell != second)
    for one, other in (*beside_it, *from_there):
        cells = whole_diagonal(one, other, grid) if other in grid.cells else ()
        if len(cells) > 1 and set(cells) != set(clue.cells):
            yield replace(clue, cells=cells)


NEAR: Mapping[type[Rule], Callable[[Any, Puzzle], Iterable[Rule]]] = {
    **dict.fromkeys((Consecutive, Ratio, Difference, PairSum), _marks),
    Greater: _signs,
    Even: _parity,
    Odd: _parity,
    Quadruple: _quadruples,
    Thermometer: _thermometers,
    **dict.fromkeys((Palindrome, Renban, Whisper), _two_way),
    Between: _betweens,
    Arrow: _arrows,
    RegionSum: _region_sums,
    Sandwich: _sandwiches,
    Skyscraper: _skyscrapers,
    LittleKiller: _little_killers,
}
"""For each class of clues, those that were drawn nearly alike."""


def near(rule: Rule, puzzle: Puzzle) -> list[Rule]:
    """Return the clues that are drawn nearly like one of a puzzle, without those that the puzzle has.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), clues=[Skyscraper((0, 1, 2, 3), 2)])
    >>> [clue.called(puzzle.grid) for clue in near(puzzle.rules[-1], puzzle)]
    ['the skyscraper clue 2 at the right of row 1', 'the skyscraper clue 2 at the left of row 2']
    """
    drawn = NEAR.get(type(rule))
    found = dict.fromkeys(drawn(rule, puzzle) if drawn else ())
    return [clue for clue in found if clue not in puzzle.rules]


def missing_marks(rule: Rule) -> list[Rule]:
    """Return the marks that can be missing where all of a kind are said to be there; none for other rules.

    Examples
    --------
    >>> from verifier.puzzle.all_marked import all_marked
    >>> grid = Grid(1, 3, 0, 0, 3)
    >>> (rule,) = all_marked(grid, ["pair_sum"], [PairSum((0, 1), 5)])
    >>> missing_marks(rule)
    [PairSum(cells=(1, 2), total=5)]
    """
    marks: list[Rule] = []
    for stated in rules_of([rule], Unmarked):
        marks += [mark for pair in stated.pairs for mark in _MARKS[stated.kind](pair, stated.values)]
    return marks


_MARKS: Mapping[str, Callable[[tuple[int, int], tuple[int, ...]], Iterable[Rule]]] = {
    Consecutive.word: lambda pair, _: [Consecutive(pair)],
    Ratio.word: lambda pair, ratios: [Ratio(pair, ratio) for ratio in ratios],
    PairSum.word: lambda pair, totals: [PairSum(pair, total) for total in totals],
}
"""The marks of a kind, with one of some numbers, that a pair of neighbours may bear."""

"""Marks in cells and between neighbours that hold in a full grid."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import combinations
from random import Random

from scripts.setting.chance import shuffled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import apart, beside
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

__all__ = ["ALL_OF_A_KIND", "MARKS", "all_marks", "draw_marks", "neighbours"]

_SIDE_BY_SIDE = ((0, 1), (1, 0))
_RATIOS = (2, 3, 4)


def neighbours(grid: Grid) -> tuple[tuple[int, int], ...]:
    """Return the pairs of cells with a common border.

    Examples
    --------
    >>> len(neighbours(Grid.square(4)))
    24
    """
    return apart(grid, _SIDE_BY_SIDE)


def _greater(grid: Grid, filling: Filling) -> Iterator[Rule]:
    return (Greater((a, b)) for a in grid.cells for b in beside(grid, a) if filling[a] > filling[b])


def _consecutive(grid: Grid, _: Filling) -> Iterator[Rule]:
    return map(Consecutive, neighbours(grid))


def _ratio(grid: Grid, _: Filling) -> Iterator[Rule]:
    return (Ratio(pair, ratio) for pair in neighbours(grid) for ratio in _RATIOS)


def _difference(grid: Grid, filling: Filling) -> Iterator[Rule]:
    return (
        Difference((a, b), abs(filling[a] - filling[b]))
        for a, b in neighbours(grid)
        if filling[a] != filling[b]
    )


def _pair_sum(grid: Grid, filling: Filling) -> Iterator[Rule]:
    return (PairSum((a, b), filling[a] + filling[b]) for a, b in neighbours(grid))


def _even(grid: Grid, _: Filling) -> Iterator[Rule]:
    return (Even((cell,)) for cell in grid.cells)


def _odd(grid: Grid, _: Filling) -> Iterator[Rule]:
    return (Odd((cell,)) for cell in grid.cells)


def _quadruple(grid: Grid, filling: Filling) -> Iterator[Rule]:
    for cell in grid.cells:
        below, across = cell // grid.columns + 1 < grid.rows, cell % grid.columns + 1 < grid.columns
        if below and across:
            cells = (cell, cell + 1, cell + grid.columns, cell + grid.columns + 1)
            for size in (2, 3, 4):
                for digits in combinations(sorted(filling[c] for c in cells), size):
                    yield Quadruple(cells, digits)


MARKS: Mapping[str, Callable[[Grid, Filling], Iterator[Rule]]] = {
    "greater": _greater,
    "consecutive": _consecutive,
    "ratio": _ratio,
    "difference": _difference,
    "pair_sum": _pair_sum,
    "even": _even,
    "odd": _odd,
    "quadruple": _quadruple,
}
"""What yields all marks that could hold, by the word that files have for the kind."""


ALL_OF_A_KIND: Mapping[str, Callable[[Grid], tuple[str, tuple[int, ...]]]] = {
    "all consecutive": lambda _: (Consecutive.word, ()),
    "all ratios": lambda _: (Ratio.word, (2,)),
    "all sums": lambda grid: (PairSum.word, (grid.digits + 1,)),
}
"""Which marks a puzzle bears that has all of them, and with which numbers."""


def draw_marks(word: str, puzzle: Puzzle, filling: Filling, rng: Random, count: int) -> Iterator[Rule]:
    """Yield so many marks of a kind that hold in a filling, no two on the same cells."""
    held = [mark for mark in MARKS[word](puzzle.grid, filling) if mark.holds(filling)]
    one_each = {mark.cells: mark for mark in reversed(shuffled(held, rng))}
    yield from list(one_each.values())[::-1][:count]


def all_marks(word: str, puzzle: Puzzle, filling: Filling, _: Random, __: int) -> Iterator[Rule]:
    """Yield all marks of a kind that hold in a filling, and the rule that there are no more."""
    kind, values = ALL_OF_A_KIND[word](puzzle.grid)
    held = [mark for mark in MARKS[kind](puzzle.grid, filling) if mark.holds(filling)]
    marks = [mark for mark in held if not values or mark.figure in values]
    bare = set(neighbours(puzzle.grid)) - {mark.cells for mark in marks}
    yield from (*marks, Unmarked(kind, values, tuple(sorted(bare))))

"""Lines that hold in a full grid: random walks whose digits suit the rule as they grow."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby
from random import Random
from typing import NamedTuple

from scripts.setting.clues.walks import walks
from verifier.puzzle.grid import Filling
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.rule import Rule

__all__ = ["LINES", "draw_lines", "parts_of"]


class Line(NamedTuple):
    """How lines of a kind are drawn.

    Parameters
    ----------
    lengths : tuple of int
        How many cells they have, in turn.
    suits : callable
        Whether the digits of a walk that is to have so many cells may go on.
    rule : callable
        The rule that a walk makes in a puzzle; None where it makes none.
    """

    lengths: tuple[int, ...]
    suits: Callable[[Sequence[int], int], bool]
    rule: Callable[[Puzzle, tuple[int, ...]], Rule | None]


def draw_lines(word: str, puzzle: Puzzle, filling: Filling, rng: Random, count: int) -> Iterator[Rule]:
    """Yield so many lines of a kind that hold in a filling, no two of them with a cell in common."""
    line, used = LINES[word], set[int]()
    for number in range(count):
        rule = _drawn(line, line.lengths[number % len(line.lengths)], used, puzzle, filling, rng)
        if rule is not None:
            used |= set(rule.cells)
            yield rule


def _drawn(
    line: Line, length: int, used: set[int], puzzle: Puzzle, filling: Filling, rng: Random
) -> Rule | None:
    def goes_on(walk: Sequence[int], cell: int) -> bool:
        return cell not in used and line.suits([filling[c] for c in (*walk, cell)], length)

    for cells in walks(puzzle.grid, length, rng, goes_on):
        rule = line.rule(puzzle, cells)
        if rule is not None and rule.holds(filling):
            return rule
    return None


def parts_of(puzzle: Puzzle, cells: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return the stretches of a line that lie in one box each.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> parts_of(make_puzzle("classic", Grid.square(4)), (0, 1, 2, 6, 11))
    ((0, 1), (2, 6), (11,))
    """
    box = {cell: house for house in puzzle.houses if house.kind == "box" for cell in house.cells}
    return tuple(tuple(part) for _, part in groupby(cells, key=box.__getitem__))


def _rising(digits: Sequence[int], _: int) -> bool:
    return list(digits[-2:]) == sorted(set(digits[-2:]))


def _mirrored(digits: Sequence[int], length: int) -> bool:
    place = len(digits) - 1
    return place < length / 2 or digits[place] == digits[length - 1 - place]


def _without_a_gap(digits: Sequence[int], length: int) -> bool:
    return len(set(digits)) == len(digits) and max(digits) - min(digits) < length


def _on_one_side(digits: Sequence[int], _: int) -> bool:
    """Whether all are greater than the first, or all smaller."""
    first, *others = digits
    return all(digit > first for digit in others) or all(digit < first for digit in others)


def _within_the_circle(digits: Sequence[int], _: int) -> bool:
    """Whether the line after a circle of one cell makes no more than it, or that of two could be so long."""
    return len(digits) < 3 or sum(digits[1:]) <= digits[0] or min(digits[:2]) == 1


def _any_digits(_: Sequence[int], __: int) -> bool:
    return True


def _whisper(puzzle: Puzzle, cells: tuple[int, ...]) -> Whisper:
    return Whisper(either_way(cells), (puzzle.grid.digits + 1) // 2)


def _arrow(puzzle: Puzzle, cells: tuple[int, ...]) -> Arrow | None:
    """Return an arrow from one cell; from two neighbours where the walk is of five cells."""
    if len(cells) < _OF_A_CIRCLE_OF_TWO:
        return Arrow(cells[:1], cells[1:])
    circle = tuple(sorted(cells[:2]))
    return Arrow(circle, cells[2:]) if circle[1] in beside(puzzle.grid, circle[0]) else None


def _region_sum(puzzle: Puzzle, cells: tuple[int, ...]) -> RegionSum | None:
    parts = parts_of(puzzle, either_way(cells))
    return RegionSum(parts) if len(parts) > 1 else None


_OF_A_CIRCLE_OF_TWO = 5

LINES: Mapping[str, Line] = {
    "thermometer": Line((4, 3, 5), _rising, lambda _, cells: Thermometer(cells)),
    "whisper": Line((4, 3, 5), _any_digits, _whisper),
    "palindrome": Line((5, 4, 6), _mirrored, lambda _, cells: Palindrome(either_way(cells))),
    "renban": Line((3, 4), _without_a_gap, lambda _, cells: Renban(either_way(cells))),
    "between": Line((4, 3, 5), _on_one_side, lambda _, cells: Between(either_way(cells))),
    "arrow": Line((3, 4, 3, 5), _within_the_circle, _arrow),
    "region_sum": Line((4, 5, 6), _any_digits, _region_sum),
}
"""Each kind by the word that files have for it."""

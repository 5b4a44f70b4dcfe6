"""Clues that no filling can obey, told from each clue alone and the houses in which its cells lie.

One function a rule, in the table `WHY_NOT`; the sentences stand in `verifier.puzzle.clue_wording`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Any

from verifier.puzzle.clue_wording import CANNOT_HOLD, NEVER_BOTH, NEVER_HOLDS
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House, disjoint_kinds
from verifier.puzzle.rules.lines.arrow import TENS, Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd, Parity
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.totals import possible_totals, spans

__all__ = ["WHY_NOT", "Surroundings", "can_be_checked", "clues_that_never_hold"]


@dataclass(frozen=True)
class Surroundings:
    """The grid and the houses around a clue."""

    grid: Grid
    houses: tuple[House, ...]

    @cached_property
    def _kinds(self) -> list[tuple[House, ...]]:
        return disjoint_kinds(self.houses)

    @property
    def digits(self) -> int:
        """The largest digit."""
        return self.grid.digits

    def names(self, cells: Sequence[int]) -> list[str]:
        """Return the names of cells."""
        return [self.grid.cell_name(cell) for cell in cells]

    def together(self, cells: Sequence[int], least: int) -> tuple[House, int] | None:
        """Return a house with at least so many of some cells, and how many it has; None if there is none."""
        for house in self.houses:
            inside = len(set(house.cells).intersection(cells))
            if inside >= least:
                return house, inside
        return None

    def least_sum(self, cells: Sequence[int]) -> int:
        """Return a sum below which cells cannot come: those of them in one house differ."""
        return max([len(cells), *(self._least(cells, kind) for kind in self._kinds)])

    def most_sum(self, cells: Sequence[int]) -> int:
        """Return a sum above which cells cannot come."""
        return len(cells) * (self.digits + 1) - self.least_sum(cells)

    def _least(self, cells: Sequence[int], kind: tuple[House, ...]) -> int:
        inside = [len(set(house.cells).intersection(cells)) for house in kind]
        return len(cells) - sum(inside) + sum(size * (size + 1) // 2 for size in inside)


def _ratio(mark: Ratio, around: Surroundings) -> str | None:
    if 1 < mark.ratio <= around.digits:
        return None
    return filled(CANNOT_HOLD["ratio"], ratio=mark.ratio, digits=around.digits)


def _difference(mark: Difference, around: Surroundings) -> str | None:
    if 0 < mark.difference < around.digits:
        return None
    return filled(CANNOT_HOLD["difference"], most=around.digits - 1)


def _pair_sum(mark: PairSum, around: Surroundings) -> str | None:
    return _out_of(mark.total, possible_totals(2, tuple(around.grid.all_digits)), "neighbours")


def _out_of(number: int, possible: frozenset[int] | range, what: str) -> str | None:
    return None if number in possible else filled(CANNOT_HOLD[what], possible=spans(possible))


def _parity(mark: Parity, around: Surroundings) -> str | None:
    own = sum(digit % 2 == mark.rest for digit in around.grid.all_digits)
    crowd = around.together(mark.cells, own + 1)
    return crowd and filled(
        CANNOT_HOLD["parity"], cells=crowd[1], house=crowd[0].name, own=own, word=mark.word
    )


def _quadruple(mark: Quadruple, around: Surroundings) -> str | None:
    apart = max(
        size
        for size in range(1, len(mark.cells) + 1)
        for some in combinations(mark.cells, size)
        if around.together(some, 2) is None
    )
    for digit in dict.fromkeys(mark.digits):
        if mark.digits.count(digit) > apart:
            return filled(CANNOT_HOLD["quadruple"], digit=digit, times=apart)
    return None


def _length(line: Thermometer | Renban, around: Surroundings) -> str | None:
    if len(line.cells) <= around.digits:
        return None
    return filled(CANNOT_HOLD["length"], cells=len(line.cells), digits=around.digits)


def _whisper(line: Whisper, around: Surroundings) -> str | None:
    return None if line.least < around.digits else filled(CANNOT_HOLD["whisper"], most=around.digits - 1)


def _palindrome(line: Palindrome, around: Surroundings) -> str | None:
    for pair in line.pairs:
        shared = around.together(pair, 2)
        if shared:
            return filled(CANNOT_HOLD["palindrome"], cells=around.names(pair), house=shared[0].name)
    return None


def _between(line: Between, around: Surroundings) -> str | None:
    inner = max(around.digits - 2, 0)
    crowd = around.together(line.inner, inner + 1)
    return crowd and filled(
        CANNOT_HOLD["between"], cells=crowd[1], house=crowd[0].name, inner=inner, digits=around.digits
    )


def _arrow(arrow: Arrow, around: Surroundings) -> str | None:
    least, most = around.least_sum(arrow.line), around.most_sum(arrow.line)
    if len(arrow.circle) == 1:
        low, high = 1, around.digits
    else:  # the two cells of a circle are neighbours, so they differ
        low, high = TENS + 2, TENS * around.digits + around.digits - 1
    if least > high:
        return filled(CANNOT_HOLD["arrow-long"], least=least, high=high)
    return filled(CANNOT_HOLD["arrow-short"], most=most, low=low) if most < low else None


def _region_sum(line: RegionSum, around: Surroundings) -> str | None:
    low = max(line.parts, key=around.least_sum)
    high = min(line.parts, key=around.most_sum)
    least, most = around.least_sum(low), around.most_sum(high)
    if least <= most:
        return None
    return filled(
        CANNOT_HOLD["region-sum"],
        long=around.names(low),
        least=least,
        short=around.names(high),
        most=most,
    )


def _sandwich(clue: Sandwich, around: Surroundings) -> str | None:
    inner = tuple(around.grid.all_digits)[1:-1]
    possible = frozenset[int]().union(*(possible_totals(size, inner) for size in range(len(inner) + 1)))
    return _out_of(clue.total, possible, "sandwich")


def _skyscraper(clue: Skyscraper, around: Surroundings) -> str | None:
    return _out_of(clue.count, range(1, around.digits + 1), "skyscraper")


def _little_killer(clue: LittleKiller, around: Surroundings) -> str | None:
    possible = range(around.least_sum(clue.cells), around.most_sum(clue.cells) + 1)
    return _out_of(clue.total, possible, "diagonal")


WHY_NOT: Mapping[type[Rule], Callable[[Any, Surroundings], str | None]] = {
    Ratio: _ratio,
    Difference: _difference,
    PairSum: _pair_sum,
    Even: _parity,
    Odd: _parity,
    Quadruple: _quadruple,
    Thermometer: _length,
    Renban: _length,
    Whisper: _whisper,
    Palindrome: _palindrome,
    Between: _between,
    Arrow: _arrow,
    RegionSum: _region_sum,
    Sandwich: _sandwich,
    Skyscraper: _skyscraper,
    LittleKiller: _little_killer,
}
"""For each class of rules, why one of them can never hold; None where it may."""


_ONE_FIGURE = frozenset({Ratio, Difference, PairSum, Sandwich, Skyscraper, LittleKiller})
"""Clues of which no two with different figures hold of the same cells."""


def can_be_checked(puzzle: Puzzle) -> bool:
    """Whether a puzzle has clues of which some can never hold."""
    return any(type(rule) in WHY_NOT for rule in puzzle.rules)


def clues_that_never_hold(puzzle: Puzzle) -> Iterator[str]:
    """Yield a sentence on each clue that no filling can obey: the clue with its cells, and why.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> clues = [Skyscraper((4, 5, 6, 7), 5), Skyscraper((8, 9, 10, 11), 4)]
    >>> puzzle = make_puzzle("classic", grid, clues=clues)
    >>> print(*clues_that_never_hold(puzzle))  # doctest: +NORMALIZE_WHITESPACE
    The skyscraper clue 5 at the left of row 2 (r2c1, r2c2, r2c3 and r2c4) can never hold: only 1 to 4 digits
    can be seen in a line. Correct it, or take it out.
    """
    around = Surroundings(puzzle.grid, puzzle.houses)
    first: dict[tuple[str, tuple[int, ...]], Rule] = {}
    for rule in puzzle.rules:
        why = WHY_NOT[type(rule)](rule, around) if type(rule) in WHY_NOT else None
        if why:
            yield filled(NEVER_HOLDS, clue=_named(rule, puzzle.grid), why=why)
        elif type(rule) in _ONE_FIGURE:
            other = first.setdefault((rule.word, rule.cells), rule)
            if other is not rule:
                both = _named(other, puzzle.grid), rule.called(puzzle.grid)
                yield filled(NEVER_BOTH, one=both[0], other=both[1])


def _named(rule: Rule, grid: Grid) -> str:
    """Return a clue as the beginning of a sentence, with its cells where its name has but some of them."""
    called = rule.called(grid)
    all_said = all(grid.cell_name(cell) in called for cell in rule.cells)
    named = called if all_said else f"{called} ({grid.cell_names(rule.cells)})"
    return named[0].upper() + named[1:]

"""Count solutions in plain Python: the corpus builder's own opinion, which shares nothing with the program.

It propagates (one digit a cell, one place a digit, what a cage's combinations leave, rules over pairs and, by
trying, rules of any other kind) and tries what is left.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations

from scripts.setting.tried import Narrowing, narrowings
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.pair_rule import PairRule

__all__ = ["Exhausted", "count_within", "find_solutions", "plain_count"]


class Exhausted(Exception):  # noqa: N818 - it says that the search gave up, not that something went wrong
    """The search took more tries than it was allowed."""


def plain_count(puzzle: Puzzle, limit: int = 2, tries: int = 200_000) -> int:
    """Return the number of solutions, at most `limit`.

    Raises
    ------
    Exhausted
        If the search takes more than `tries` tries.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> plain_count(make_puzzle("classic", Grid.square(4)), limit=1000)
    288
    """
    return sum(1 for _, _ in zip(range(limit), find_solutions(puzzle, tries), strict=False))


def count_within(puzzle: Puzzle, tries: int, limit: int = 2) -> int | None:
    """Return the number of solutions, at most `limit`; None if the search takes more than `tries` tries."""
    try:
        return plain_count(puzzle, limit, tries)
    except Exhausted:
        return None


def find_solutions(puzzle: Puzzle, tries: int = 200_000) -> Iterator[Filling]:
    """Yield the solutions one by one.

    Raises
    ------
    Exhausted
        If the search takes more than `tries` tries.
    """
    rules = _Rules(puzzle)
    start: list[int] | None = rules.start
    for cell, digit in puzzle.givens:
        if start is not None:
            start = rules.narrowed(start, {cell: 1 << digit})
    if start is not None:
        start = rules.settled(start)
    stack = [start] if start is not None else []
    while stack:
        tries -= 1
        if tries < 0:
            raise Exhausted
        open_digits = stack.pop()
        unsolved = _fewest(open_digits)
        if unsolved is None:
            yield tuple(mask.bit_length() - 1 for mask in open_digits)
            continue
        for digit in _bits(open_digits[unsolved]):
            tried = rules.narrowed(open_digits, {unsolved: 1 << digit})
            settled = rules.settled(tried) if tried is not None else None
            if settled is not None:
                stack.append(settled)


class _Rules:
    """The rules of a puzzle, as the search needs them."""

    def __init__(self, puzzle: Puzzle) -> None:
        self.houses = [house.cells for house in puzzle.full_houses]
        self.cages = [
            (cage.cells, _combinations(puzzle.grid.digits, len(cage.cells), cage.total))
            for cage in puzzle.cages
        ]
        groups = [rule.cells for rule in puzzle.rules if type(rule) in (House, Cage, Different)]
        self.peers = [
            sorted({other for cells in groups if cell in cells for other in cells} - {cell})
            for cell in range(puzzle.grid.cell_count)
        ]
        self.full = (1 << puzzle.grid.digits + 1) - 2
        self.start = [
            1 if cell in puzzle.grid.blocked else self.full for cell in range(puzzle.grid.cell_count)
        ]
        digits = puzzle.grid.all_digits
        self.others: list[Narrowing] = []
        self.pairs = []  # two cells, and for each digit of the first the mask of what may stand in the second
        for rule in puzzle.rules:
            if isinstance(rule, PairRule):
                there = [sum(1 << d for d in digits if rule.fits(own, d)) for own in digits]
                back = [sum(1 << d for d in digits if rule.fits(d, own)) for own in digits]
                for one, other in rule.pairs:
                    self.pairs += [(one, other, there), (other, one, back)]
            elif type(rule) not in (House, Cage, Different, Given):
                self.others += narrowings(rule, self.peers)

    def narrowed(self, open_digits: list[int], change: dict[int, int]) -> list[int] | None:
        """Return the grid with fewer digits open, also for peers; None if a cell has none left."""
        grid = list(open_digits)
        waiting = list(change.items())
        while waiting:
            cell, allowed = waiting.pop()
            left = grid[cell] & allowed
            if not left:
                return None
            if left == grid[cell]:
                continue
            grid[cell] = left
            if left & (left - 1) == 0:
                waiting += [(peer, ~left) for peer in self.peers[cell]]
        return grid

    def settled(self, open_digits: list[int]) -> list[int] | None:
        """Return the grid after all rules have had their say; None if they make it impossible."""
        grid: list[int] | None = open_digits
        while grid is not None:
            change = self._from_houses(grid)
            if change is not None:
                change = self._from_cages(grid, change)
            if change is not None:
                change = self._from_pairs(grid, change)
            if change == {}:  # trying takes long: only where nothing else has a say
                change = self._from_others(grid)
            if change is None:
                return None
            if not change:
                return grid
            grid = self.narrowed(grid, change)
        return None

    def _from_houses(self, grid: list[int]) -> dict[int, int] | None:
        change: dict[int, int] = {}
        for cells in self.houses:
            once = twice = 0
            for cell in cells:
                twice |= once & grid[cell]
                once |= grid[cell]
            if once != self.full:
                return None
            single = once & ~twice
            for cell in cells:
                if grid[cell] & single and grid[cell] & ~single:
                    change[cell] = change.get(cell, self.full) & single
        return change

    def _from_cages(self, grid: list[int], change: dict[int, int]) -> dict[int, int] | None:
        for cells, sets in self.cages:
            union = needed = 0
            for cell in cells:
                union |= grid[cell]
                if grid[cell] & (grid[cell] - 1) == 0:
                    needed |= grid[cell]
            allowed = 0
            for digits in sets:
                if digits & ~union == 0 and needed & ~digits == 0:
                    allowed |= digits
            if not allowed:
                return None
            for cell in cells:
                if grid[cell] & ~allowed:
                    change[cell] = change.get(cell, self.full) & allowed
        return change

    def _from_pairs(self, grid: list[int], change: dict[int, int]) -> dict[int, int] | None:
        for one, other, fits in self.pairs:
            allowed = 0
            for digit in _bits(grid[one]):
                allowed |= fits[digit - 1]
            if not grid[other] & allowed:
                return None
            if grid[other] & ~allowed:
                change[other] = change.get(other, self.full) & allowed
        return change

    def _from_others(self, grid: list[int]) -> dict[int, int] | None:
        change: dict[int, int] = {}
        for other in self.others:
            masks = tuple(grid[cell] for cell in other.cells)
            left = other.left(masks)
            if not all(left):
                return None
            if left != masks:
                for cell, allowed in zip(other.cells, left, strict=True):
                    change[cell] = change.get(cell, self.full) & allowed
        return change


@cache
def _combinations(digits: int, size: int, total: int) -> tuple[int, ...]:
    sets = combinations(range(1, digits + 1), size)
    return tuple(sum(1 << digit for digit in chosen) for chosen in sets if sum(chosen) == total)


def _fewest(open_digits: list[int]) -> int | None:
    """Return the unsolved cell with the fewest digits open, or None if all are solved."""
    unsolved = [cell for cell, mask in enumerate(open_digits) if mask & (mask - 1)]
    return min(unsolved, key=lambda cell: open_digits[cell].bit_count(), default=None)


def _bits(mask: int) -> Iterator[int]:
    return (digit for digit in range(mask.bit_length()) if mask >> digit & 1)

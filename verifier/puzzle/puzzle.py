"""The puzzle itself: a grid with rules that a filling must obey, and the credits that go with it."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TypeVar

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["KAKURO", "KINDS", "Credits", "Puzzle", "in_order", "make_puzzle", "rules_of"]

_Sort = TypeVar("_Sort", bound=Rule)
_Value = TypeVar("_Value")

KAKURO = "kakuro"
"""The kind whose cages are runs: in line, without a gap, and each cell in one across and one down."""

KINDS = ("classic", "killer", KAKURO)
"""The kinds of puzzle that can be judged; the word a file gives for ``puzzle``."""

_CONTENT_VERSION = 1


@dataclass(frozen=True, slots=True)
class Credits:
    """What identifies a puzzle to people. None of it changes the verdict on the puzzle itself.

    Parameters
    ----------
    id : str
        From the file, or taken from the file's name and place (``box.yaml#3``).
    title, setter : str or None
        As the file gives them.
    """

    id: str = ""
    title: str | None = None
    setter: str | None = None


@dataclass(frozen=True)
class Puzzle:
    """A puzzle as it was set. Build it with `make_puzzle`, and others from it with `dataclasses.replace`.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    grid : Grid
        Size, boxes and digits.
    rules : tuple of Rule
        All that a filling must obey, in the order of `in_order`.
    credits : Credits
        Not part of the puzzle's identity: two puzzles that differ here have the same `content`.
    solution : tuple of int or None
        The solution that the file claims, if it brings one.
    marks : tuple of str
        The marks by which the file draws its cages, one for each cell; empty where it draws no map. They are
        how the puzzle was written, not what it is: puzzles that differ here are equal.
    """

    kind: str
    grid: Grid
    rules: tuple[Rule, ...]
    credits: Credits = field(default_factory=Credits)
    solution: Filling | None = None
    marks: tuple[str, ...] = field(default=(), compare=False)

    @cached_property
    def houses(self) -> tuple[House, ...]:
        """Cells that hold every digit once, or no digit twice where they are fewer than the digits."""
        return rules_of(self.rules, House)

    @cached_property
    def full_houses(self) -> tuple[House, ...]:
        """The houses in which every digit stands: those with as many cells as there are digits."""
        return tuple(house for house in self.houses if len(house.cells) == self.grid.digits)

    @cached_property
    def premises(self) -> tuple[Rule, ...]:
        """All rules but the givens, in the order by which the steps of a replay number them.

        Houses in which every digit stands, cages that may repeat digits, cages, the other rules whose cells
        differ, and the rest.
        """
        short = [house for house in self.houses if len(house.cells) != self.grid.digits]
        apart = (*self.cages, *short, *rules_of(self.rules, Different))
        others = [rule for rule in self.rules if type(rule) not in (House, Cage, Different, Given)]
        others = [rule for rule in others if not rule.is_cage]
        return (*self.full_houses, *self.repeating_cages, *apart, *others)

    @cached_property
    def cages(self) -> tuple[Cage, ...]:
        """Those with a total and different digits, in the order of their first cells; none in a classic."""
        return rules_of(self.rules, Cage)

    @cached_property
    def repeating_cages(self) -> tuple[LinearSum, ...]:
        """The cages in which digits may repeat."""
        return tuple(rule for rule in rules_of(self.rules, LinearSum) if rule.is_cage)

    @cached_property
    def cages_with_total(self) -> tuple[Cage | LinearSum, ...]:
        """The cages that have a total, in which digits may repeat or not, by their first cells."""
        return tuple(sorted((*self.cages, *self.repeating_cages), key=lambda cage: cage.cells))

    @cached_property
    def all_cages(self) -> tuple[Rule, ...]:
        """Cages of every sort, those without a total and those with repeats too, by their first cells."""
        return tuple(sorted((rule for rule in self.rules if rule.is_cage), key=lambda rule: rule.cells))

    @cached_property
    def givens(self) -> tuple[tuple[int, int], ...]:
        """Pairs of cell and digit, in reading order."""
        return tuple((given.cell, given.digit) for given in rules_of(self.rules, Given))

    @property
    def kinds_of_rules(self) -> tuple[str, ...]:
        """The kinds of rules it has beside its houses, always in the same order.

        Examples
        --------
        >>> make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={2: 3}).kinds_of_rules
        ('cage', 'given')
        """
        return tuple(dict.fromkeys(rule.word for rule in self.rules if type(rule) is not House))

    @property
    def content(self) -> str:
        """A versioned hash of the puzzle itself, without its credits and its claimed solution.

        Examples
        --------
        >>> grid = Grid.square(4)
        >>> a = make_puzzle("killer", grid, cages=[Cage((0, 1), 3), Cage((4,), 2)], credits=Credits("a"))
        >>> b = make_puzzle("killer", grid, cages=[Cage((4,), 2), Cage((1, 0), 3)], credits=Credits("b"))
        >>> a.content == b.content, a.content[:2]
        (True, '1:')
        """
        sizes = (self.grid.rows, self.grid.columns, self.grid.digits)
        known = (
            self.kind,
            (*sizes, self.grid.blocked) if self.grid.blocked else sizes,
            sorted((house.kind, house.cells) for house in self.houses),
            [(cage.cells, cage.total) for cage in self.cages],
            self.givens,
        )
        others = [repr(rule) for rule in self.rules if type(rule) not in (House, Cage, Given)]
        text = repr((*known, others) if others else known)
        return f"{_CONTENT_VERSION}:{hashlib.sha256(text.encode()).hexdigest()[:32]}"

    def changed(self, gone: Iterable[Rule] = (), come: Iterable[Rule] = ()) -> Puzzle:
        """Return the puzzle without some of its rules and with others; all else stays.

        Raises
        ------
        ValueError
            If a rule that is to go is none of the puzzle's.

        Examples
        --------
        >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)])
        >>> puzzle.changed(puzzle.cages, [Cage((0, 1), 4), Given(5, 2)]).givens
        ((5, 2),)
        """
        left = list(self.rules)
        for rule in gone:
            left.remove(rule)
        return replace(self, rules=in_order([*left, *come]))

    def having(self, sort: type[_Sort], rules: Iterable[_Sort]) -> Puzzle:
        """Return the puzzle with these rules of one class in place of all that it has.

        Examples
        --------
        >>> make_puzzle("classic", Grid.square(4), givens={0: 1}).having(Given, [Given(5, 2)]).givens
        ((5, 2),)
        """
        return self.changed(rules_of(self.rules, sort), rules)

    def moved(self, grid: Grid, places: Sequence[int], digits: Sequence[int] | None = None) -> Puzzle | None:
        """Return the puzzle turned, mirrored or rearranged, its digits renamed; None where a rule bars that.

        Parameters
        ----------
        grid : Grid
            The grid that results.
        places : sequence of int
            For each cell, the cell that it becomes.
        digits : sequence of int, optional
            For each digit, the digit that it becomes, the first entry for 0.

        Examples
        --------
        >>> grid = Grid.square(4)
        >>> puzzle = make_puzzle("killer", grid, cages=[Cage((0, 1), 3)], givens={2: 4})
        >>> turned = puzzle.moved(grid, range(15, -1, -1), (0, 4, 3, 2, 1))
        >>> turned.cages, turned.givens, turned.houses == puzzle.houses
        ((Cage(cells=(14, 15), total=7),), ((13, 1),), True)
        >>> print(puzzle.moved(grid, range(16), (0, 2, 1, 3, 4)))
        None
        """
        names = range(grid.digits + 1) if digits is None else digits
        rules = [rule.moved(places).relabelled(names) for rule in self.rules]
        if any(rule is None for rule in rules):
            return None
        filling = self.solution and [names[digit] for digit in self.solution]
        moved = [rule for rule in rules if rule is not None]
        houses = _named_anew([rule for rule in moved if type(rule) is House], grid)
        others = [rule for rule in moved if type(rule) is not House]
        return replace(
            self,
            grid=grid,
            rules=in_order([*houses, *others]),
            solution=_carried(filling, places) if filling else None,
            marks=_carried(self.marks, places) if self.marks else (),
        )


def rules_of(rules: Iterable[Rule], sort: type[_Sort]) -> tuple[_Sort, ...]:
    """Return the rules of one class among others."""
    return tuple(rule for rule in rules if type(rule) is sort)


def in_order(rules: Iterable[Rule]) -> tuple[Rule, ...]:
    """Return rules in the order in which a puzzle has them, so that equal puzzles compare equal.

    Houses come first, as they stand; then cages; givens are last. Rules of a sort stand together, in the
    order of their cells.
    """

    def place(rule: Rule) -> tuple[int, str, tuple[int, ...], int]:
        if type(rule) is House:
            return House.rank, "", (), 0
        return rule.rank, rule.word, rule.cells, rule.figure

    return tuple(sorted(rules, key=place))


def _carried(values: Sequence[_Value], places: Sequence[int]) -> tuple[_Value, ...]:
    """Return what stands in each cell when each cell goes to its place."""
    return tuple(value for _, value in sorted(zip(places, values, strict=True), key=lambda pair: pair[0]))


def _named_anew(houses: Sequence[House], grid: Grid) -> list[House]:
    """Return houses that have been moved with the names that they have now, in the order of names.

    A line is called by where it lies; the other houses of a kind are numbered in the order of their cells.
    """
    usual = [*grid.houses, *grid.diagonals]
    lines = {house.cells: house for house in usual if house.kind != "box"}
    line_kinds = {house.kind for house in lines.values()}
    named = [lines.get(house.cells, house) if house.kind in line_kinds else house for house in houses]
    numbers = Counter[str]()
    for place, house in sorted(enumerate(named), key=lambda pair: pair[1].cells):
        if house.kind not in line_kinds:
            numbers[house.kind] += 1
            named[place] = replace(house, number=numbers[house.kind])
    kinds = list(dict.fromkeys(house.kind for house in (*usual, *named)))
    return sorted(named, key=lambda house: (kinds.index(house.kind), house.number))


def make_puzzle(
    kind: str,
    grid: Grid,
    *,
    cages: Iterable[Cage] = (),
    clues: Iterable[Rule] = (),
    givens: Mapping[int, int] | Iterable[tuple[int, int]] = (),
    credits: Credits | None = None,
    solution: Filling | None = None,
    marks: tuple[str, ...] = (),
    houses: tuple[House, ...] | None = None,
) -> Puzzle:
    """Build a puzzle with its parts in reading order, so that equal puzzles compare equal.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    grid : Grid
        Size, boxes and digits.
    cages : iterable of Cage, optional
        In any order, their cells in any order.
    clues : iterable of Rule, optional
        Rules of other kinds, in any order.
    givens : mapping or iterable of (int, int), optional
        Digit by cell.
    credits, solution, marks : optional
        See `Puzzle`.
    houses : tuple of House, optional
        The rows, columns and boxes of the grid when absent.

    Returns
    -------
    Puzzle
        Equal to any other that was made from the same parts.
    """
    pairs = givens.items() if isinstance(givens, Mapping) else givens
    rules: list[Rule] = [
        *(grid.houses if houses is None else houses),
        *(replace(cage, cells=tuple(sorted(cage.cells))) for cage in cages),
        *clues,
        *(Given(cell, digit) for cell, digit in pairs),
    ]
    return Puzzle(kind, grid, in_order(rules), credits or Credits(), solution, marks)

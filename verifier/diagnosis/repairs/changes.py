"""Changes to a puzzle: rules that go and rules that come, and how people and programs are told of them.

A change names the rules as they stand before it. Several changes are made one after the other, so a later
one names what the earlier ones have left.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from verifier.diagnosis.clues import cage_name, cages_named, cells_named
from verifier.puzzle.all_marked import marked_anew
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import touch
from verifier.puzzle.printable import counted, listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule, written

__all__ = ["CageChange", "CellMove", "Change", "RuleChange", "changed", "given_change", "total_change"]

_Summed = Cage | LinearSum
_Said = Callable[[Grid, Any, Any], str]
_Record = Callable[[Grid, Any, Any], dict[str, Any]]
"""What is made of a rule before and after, each of the class under which the function stands, or None."""


class Change(ABC):
    """A change of a puzzle: some rules go, and others come."""

    __slots__ = ()

    @property
    @abstractmethod
    def gone(self) -> tuple[Rule, ...]:
        """The rules that go."""

    @property
    @abstractmethod
    def come(self) -> tuple[Rule, ...]:
        """The rules that come."""

    @property
    def seen_at(self) -> tuple[int, ...]:
        """The cells by which the change is seen."""
        return tuple(cell for rule in (*self.gone, *self.come) for cell in rule.cells)

    @property
    def nearness(self) -> tuple[int, int]:
        """How near the change is to what was set: the likeliest slips of the pen first.

        First 0 for one too many or too few and for two figures in the wrong order; 1 for one figure that is
        wrong, missing or too many, for a clue in another place, and for a cage that falls into pieces of
        which one keeps its total; 2 for any other; then by how much.

        Notes
        -----
        Which slips are likely is common practice, no source.

        Examples
        --------
        >>> [total_change(Cage((0, 1, 2), 12), total).nearness for total in (21, 13, 17, 2, 20)]
        [(0, 9), (0, 1), (1, 5), (1, 10), (2, 8)]
        """
        return 2, 0

    def made_in(self, puzzle: Puzzle) -> Puzzle:
        """Return a puzzle after the change; all else stays."""
        return puzzle.changed(self.gone, self.come)

    def solution_after(self, solution: Filling) -> Filling:
        """Return what becomes of a solution that the change keeps: the same, but for cells that it blocks."""
        return solution

    @abstractmethod
    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the change as plain values, for a program."""

    @abstractmethod
    def says(self, grid: Grid) -> str:
        """Return the change in words, as something to be done."""


@dataclass(frozen=True, slots=True)
class RuleChange(Change):
    """A rule says something else, goes, or comes.

    Parameters
    ----------
    old, new : Rule or None
        The rule before and after, alike but for what it says or where it stands; one of them may be None.
    """

    old: Rule | None
    new: Rule | None

    @property
    def gone(self) -> tuple[Rule, ...]:
        """The rule as it stands."""
        return () if self.old is None else (self.old,)

    @property
    def come(self) -> tuple[Rule, ...]:
        """The rule as it should be."""
        return () if self.new is None else (self.new,)

    @property
    def _rule(self) -> Rule:
        return (*self.gone, *self.come)[0]

    @property
    def seen_at(self) -> tuple[int, ...]:
        """The first cell of the rule, where its figure stands; of a line or a mark, all cells that matter."""
        if type(self._rule) in _SEEN_AT_A_FIGURE:
            return self._rule.cells[:1]
        old, new = ({cell for rule in rules for cell in rule.cells} for rules in (self.gone, self.come))
        return tuple(sorted(old ^ new or old))

    @property
    def nearness(self) -> tuple[int, int]:
        """See `Change.nearness`."""
        slip = _SLIPS.get(type(self._rule))
        if self.old is None or self.new is None:
            return 2, 0
        if self.old.cells != self.new.cells:
            return _SLIP_OF_PLACE
        if slip is None:
            return 2, 0
        return slip(self.old.figure, self.new.figure), abs(self.new.figure - self.old.figure)

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return what the rule says before and after."""
        record: _Record = _RECORDS.get(type(self._rule), _clue_record)
        return record(grid, self.old, self.new)

    def says(self, grid: Grid) -> str:
        """Name the rule before and after."""
        return _SAID.get(type(self._rule), _clue_said)(grid, self.old, self.new)


_SEEN_AT_A_FIGURE: frozenset[type[Rule]] = frozenset(
    {Given, Cage, LinearSum, Sandwich, Skyscraper, LittleKiller}
)
"""Rules whose cells are more than one would look at."""


def total_change(cage: Cage, to: int) -> RuleChange:
    """Return the change of a cage's total."""
    return RuleChange(cage, replace(cage, total=to))


def given_change(cell: int, old: int | None, new: int | None) -> RuleChange:
    """Return the change of the digit given in a cell; None stands for no given."""
    before, after = (None if digit is None else Given(cell, digit) for digit in (old, new))
    return RuleChange(before, after)


def _clue_said(grid: Grid, old: Rule | None, new: Rule | None) -> str:
    if old is None:
        return f"Add {new and new.called(grid)}."
    was = old.called(grid)
    if new is None:
        return f"Take out {was}."
    before, after = set(old.cells), set(new.cells)
    if after < before:
        return f"Take {cells_named(grid, sorted(before - after))} off {was}."
    if before < after:
        return f"Add {cells_named(grid, sorted(after - before))} to {was}."
    return f"Change {was} {'to' if old.cells == new.cells else 'into'} {new.called(grid)}."


def _line_said(grid: Grid, old: Rule | None, new: Rule | None) -> str:
    """Name every cell of a line that is drawn: its ends alone would not tell where it runs."""
    if new is None:
        return _clue_said(grid, old, new)
    if old is None:
        return f"Add {new.called(grid)}: {written(new.cells, grid)}."
    before, after = set(old.cells), set(new.cells)
    if after <= before or _goes_on(grid, old.cells, new.cells):
        return _clue_said(grid, old, new)
    return f"Redraw {old.called(grid)}: {written(new.cells, grid)}."


def _goes_on(grid: Grid, old: tuple[int, ...], new: tuple[int, ...]) -> bool:
    """Whether a line goes on by a cell at an end or at both, and nobody can take one end for the other."""
    for cells in (old, old[::-1]):
        for first in (0, 1):
            head, middle, tail = new[:first], new[first : first + len(cells)], new[first + len(cells) :]
            doubts = [(cell, cells[-1]) for cell in head] + [(cell, cells[0]) for cell in tail]
            if middle == cells and len(tail) <= 1 and not any(touch(grid, *pair) for pair in doubts):
                return True
    return False


def _total_said(grid: Grid, old: _Summed | None, new: _Summed | None) -> str:
    if old is None or new is None:
        return _clue_said(grid, old, new)
    if old.cells != new.cells:
        return f"{_clue_said(grid, old, new).removesuffix('.')}; its total becomes {new.total}."
    return f"Change the total of the cage {cells_named(grid, old.cells)} from {old.total} to {new.total}."


def _given_said(grid: Grid, old: Given | None, new: Given | None) -> str:
    if old is None:
        return f"Add a given: {new and new.digit} in {new and grid.cell_name(new.cell)}."
    cell = grid.cell_name(old.cell)
    if new is None:
        return f"Take out the given {old.digit} in {cell}."
    return f"Change the given in {cell} from {old.digit} to {new.digit}."


_SAID: Mapping[type[Rule], _Said] = {
    Cage: _total_said,
    LinearSum: _total_said,
    Given: _given_said,
    **dict.fromkeys((Thermometer, Palindrome, Renban, Between, Whisper, Arrow, RegionSum), _line_said),
}
"""How a rule of a class is changed, in words."""


def _clue_record(grid: Grid, old: Rule | None, new: Rule | None) -> dict[str, Any]:
    return {"what": "clue", "from": old and old.record(grid), "to": new and new.record(grid)}


def _total_record(grid: Grid, old: _Summed | None, new: _Summed | None) -> dict[str, Any]:
    if old is None or new is None or old.cells != new.cells:
        return _clue_record(grid, old, new)
    return {"what": "total", "cage": old.record(grid)["cells"], "from": old.total, "to": new.total}


def _given_record(grid: Grid, old: Given | None, new: Given | None) -> dict[str, Any]:
    cells = {grid.cell_name(given.cell) for given in (old, new) if given is not None}
    return {"what": "given", "cell": cells.pop(), "from": old and old.digit, "to": new and new.digit}


_RECORDS: Mapping[type[Rule], _Record] = {
    Cage: _total_record,
    LinearSum: _total_record,
    Given: _given_record,
}
"""The same, as plain values."""


@dataclass(frozen=True, slots=True)
class CellMove(Change):
    """A cell goes from one cage to another.

    Parameters
    ----------
    cell : int
        The cell.
    old, new : Cage or None
        The cage it leaves and the cage it joins, as they stand; None for no cage.
    digit : int, optional
        What the cell holds in the solution, where the totals follow that; 0 where they stay as they are.
    """

    cell: int
    old: Cage | None
    new: Cage | None
    digit: int = 0

    @property
    def gone(self) -> tuple[Cage, ...]:
        """Both cages as they stand."""
        return tuple(cage for cage in (self.old, self.new) if cage is not None)

    @property
    def come(self) -> tuple[Cage, ...]:
        """The one without the cell, unless it was the only one, and the other with it."""
        return tuple(cage for cage in (self._left, self._joined) if cage is not None)

    @property
    def _left(self) -> Cage | None:
        if self.old is None or len(self.old.cells) == 1:
            return None
        cells = tuple(cell for cell in self.old.cells if cell != self.cell)
        return Cage(cells, self.old.total - self.digit)

    @property
    def _joined(self) -> Cage | None:
        if self.new is None:
            return None
        return Cage(tuple(sorted((*self.new.cells, self.cell))), self.new.total + self.digit)

    @property
    def seen_at(self) -> tuple[int, ...]:
        """The cell."""
        return (self.cell,)

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the cell, the cells of both cages, and their totals after it where these follow."""
        left, joined = (cage and cage.record(grid)["cells"] for cage in (self.old, self.new))
        record = {"what": "cell", "cell": grid.cell_name(self.cell), "from": left, "to": joined}
        if self.digit:
            totals = (cage and cage.total for cage in (self._left, self._joined))
            record["totals"] = dict(zip(("from", "to"), totals, strict=True))
        return record

    def says(self, grid: Grid) -> str:
        """Name the cell and both cages, and their totals after it where these follow."""
        cell = grid.cell_name(self.cell)
        old, new = (cage and cage_name(grid, cage) for cage in (self.old, self.new))
        if old is None:
            return f"Put {cell}, which is in no cage, into the cage of {new}{self._then}."
        if new is None:
            return f"Take {cell} out of the cage of {old}{self._then}; it is then in no cage."
        return f"Move {cell} from the cage of {old} to the cage of {new}{self._then}."

    @property
    def _then(self) -> str:
        if not self.digit:
            return ""
        totals = [str(cage.total) for cage in (self._left, self._joined) if cage is not None]
        whose = "whose total becomes" if len(totals) == 1 else "whose totals become"
        return f", {whose} {listed(totals)}" if totals else ""


@dataclass(frozen=True, slots=True)
class CageChange(Change):
    """Cages are drawn anew: one split, two joined, one added, one taken out.

    Parameters
    ----------
    old, new : tuple of Cage
        The cages that go and those that come.
    """

    old: tuple[Cage, ...]
    new: tuple[Cage, ...]

    @property
    def gone(self) -> tuple[Cage, ...]:
        """The cages that go."""
        return self.old

    @property
    def come(self) -> tuple[Cage, ...]:
        """The cages that come."""
        return self.new

    @property
    def nearness(self) -> tuple[int, int]:
        """See `Change.nearness`."""
        kept = {cage.total for cage in self.old} & {cage.total for cage in self.new}
        return (1 if kept else 2), 0

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the cages, with their totals."""
        old, new = ([cage.record(grid) for cage in cages] for cages in (self.old, self.new))
        return {"what": "cages", "from": old, "to": new}

    def says(self, grid: Grid) -> str:
        """Name the cages that go, and all cells of those that come."""
        drawn = [f"{' '.join(map(grid.cell_name, cage.cells))} = {cage.total}" for cage in self.new]
        if not self.old:
            return f"Add a cage: {drawn[0]}."
        if not self.new:
            bare = "" if grid.blocked else "; its cells are then in no cage"
            return f"Take out {cages_named(grid, self.old)}{bare}."
        if len(self.old) > 1 and len(self.new) > 1:
            return f"Redraw {cages_named(grid, self.old)}: {listed(drawn)}."
        if len(self.old) == 1:
            number = counted(len(drawn), "cage").removesuffix(" cages")
            return f"Split the cage of {cage_name(grid, self.old[0])} in {number}: {listed(drawn)}."
        return f"Join {cages_named(grid, self.old)} into one cage of {self.new[0].total}."


def changed(puzzle: Puzzle, changes: Iterable[Change]) -> Puzzle:
    """Return the puzzle after some changes, made in order; all else stays.

    Where all marks of a kind are said to be there, that says of the marks as they are then what it says of
    those that stand.

    Raises
    ------
    ValueError
        If a change names a rule that the puzzle does not have when its turn comes.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((2, 3), 7)])
    >>> after = changed(puzzle, [total_change(puzzle.cages[0], 4), given_change(5, None, 2)])
    >>> after.cages[0].total, after.givens
    (4, ((5, 2),))
    >>> changed(puzzle, [CellMove(1, *puzzle.cages)]).cages
    (Cage(cells=(0,), total=3), Cage(cells=(1, 2, 3), total=7))
    """
    for change in changes:
        puzzle = change.made_in(puzzle)
    return marked_anew(puzzle)


_SLIP_OF_PLACE = (1, 0)
"""A clue that was drawn in another place; see `Change.nearness`."""


def _slip_of_total(old: int, new: int) -> int:
    was, becomes = str(old), str(new)
    if abs(old - new) == 1 or (was == becomes[::-1] and len(was) > 1):
        return 0
    return 1 if _one_figure(was, becomes) else 2


def _one_figure(one: str, other: str) -> bool:
    """Whether two numbers differ in one figure that is wrong, missing or too many."""
    if len(one) == len(other):
        return sum(a != b for a, b in zip(one, other, strict=True)) == 1
    short, long = sorted((one, other), key=len)
    return any(long[:place] + long[place + 1 :] == short for place in range(len(long)))


_SLIPS: Mapping[type[Rule], Callable[[int, int], int]] = {
    Given: lambda *_: 1,
    **dict.fromkeys((Cage, LinearSum, Ratio, Difference, PairSum), _slip_of_total),
    **dict.fromkeys((Whisper, Sandwich, Skyscraper, LittleKiller), _slip_of_total),
}
"""How grave a slip is by which a rule of a class bears another figure; see `Change.nearness`."""

"""Cages of the wrong sort: repeats that were not allowed or not meant, and totals that were forgotten."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from verifier.diagnosis.clues import cells_named
from verifier.diagnosis.repairs.changes import Change
from verifier.diagnosis.repairs.mends import Kind, Mend, proved
from verifier.diagnosis.repairs.readings import fitted
from verifier.diagnosis.search_budget import SearchBudget
from verifier.puzzle.cage_layout import cage_of_sort
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["SortChange", "sorts"]

_MOST_SOLUTIONS = 200
"""With more solutions than this, no total is looked for that was forgotten."""


@dataclass(frozen=True, slots=True)
class SortChange(Change):
    """A cage stays where it is, and becomes one of another sort.

    Parameters
    ----------
    old, new : Rule
        The cage before and after.
    """

    old: Rule
    new: Rule

    @property
    def gone(self) -> tuple[Rule, ...]:
        """The cage as it stands."""
        return (self.old,)

    @property
    def come(self) -> tuple[Rule, ...]:
        """The cage as it should be."""
        return (self.new,)

    @property
    def nearness(self) -> tuple[int, int]:
        """A word too few or too many: see `Change.nearness`."""
        return 1, 0

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return both cages, as a file lists them."""
        return {"what": "cages", "from": [self.old.record(grid)], "to": [self.new.record(grid)]}

    def says(self, grid: Grid) -> str:
        """Name the cage, and what becomes of it.

        Examples
        --------
        >>> SortChange(Different((0, 1)), Cage((0, 1), 7)).says(Grid.square(4))
        'Give the cage r1c1 and r1c2 the total 7.'
        """
        says = _SAID[type(self.old), type(self.new)]
        return says.format(cells=cells_named(grid, self.old.cells), total=self.new.figure)


_SAID: Mapping[tuple[type[Rule], type[Rule]], str] = {
    (Cage, LinearSum): "Let digits repeat in the cage {cells}.",
    (LinearSum, Cage): "Let no digit repeat in the cage {cells}.",
    (Different, Cage): "Give the cage {cells} the total {total}.",
    (Cage, Different): "Take the total off the cage {cells}.",
}
"""By the sorts before and after."""


def sorts(puzzle: Puzzle, allow: Callable[[Collection[Rule]], bool], budget: SearchBudget) -> Iterator[Mend]:
    """Yield each cage that leaves exactly one solution once it is of another sort.

    Only sorts that the puzzle has in other cages are thought of: there a word is easily forgotten.

    Parameters
    ----------
    puzzle : Puzzle
        Without a solution, or with several.
    allow : callable
        Says whether a change of some rules can be a repair.
    budget : SearchBudget
        Pays for the proofs.
    """
    for cage in puzzle.all_cages:
        for new in _other_sorts(puzzle, cage, budget) if allow([cage]) else ():
            yield from proved(puzzle, Kind.TOTAL, [SortChange(cage, new)], budget)


def _other_sorts(puzzle: Puzzle, cage: Rule, budget: SearchBudget) -> Iterator[Rule]:
    if not cage.differs:
        yield Cage(cage.cells, cage.figure)
    elif not cage.has_total:
        yield from _totals(puzzle, cage, budget) if puzzle.cages else ()
    elif puzzle.repeating_cages:
        yield cage_of_sort(cage.cells, cage.figure, repeats=True)


def _totals(puzzle: Puzzle, cage: Rule, budget: SearchBudget) -> Iterator[Cage]:
    """Yield the cage with each total that exactly one of the solutions makes there."""
    tally = budget.count(puzzle, _MOST_SOLUTIONS)
    if tally.complete:
        read = Cage(cage.cells, 0)
        often = Counter(fitted(read, filling) for filling in tally.solutions)
        once = sorted(total.figure for total, times in often.items() if total and times == 1)
        yield from (replace(read, total=total) for total in once)

"""A puzzle with several solutions: how many, where they differ, and what leaves one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice

from verifier.diagnosis import wording
from verifier.diagnosis.changes import GivenChange
from verifier.diagnosis.extra_givens import Extra, fewest_for_all, fewest_for_one
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.mends import Kind, Mend, proved
from verifier.diagnosis.no_solution import in_order
from verifier.diagnosis.parts import Given, parts_of
from verifier.diagnosis.purse import OutOfBudgetError, Purse
from verifier.diagnosis.recuts import added, joined, split
from verifier.diagnosis.slips import claimed, exchanges, moves, values
from verifier.diagnosis.swings import SwingGroup, groups_of, most_different, swing_cells
from verifier.puzzle.parts import Cage
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules import solves
from verifier.puzzle.tally import Tally

__all__ = ["Repairs", "swing_findings"]

_MOST_EXTRAS = 3
_MOST_RECUTS = 3
"""Repairs of each of these kinds that are offered; there are often dozens as good."""
_FEW_SLIPS = 2
"""So few slips that leave one solution are no accident: one of them may be what went wrong."""
_MOST_SLIPS = 5


def swing_findings(puzzle: Puzzle, tally: Tally) -> Iterator[Finding]:
    """Yield how many solutions there are, two that differ most, and the groups of swing cells."""
    grid, solutions = puzzle.grid, tally.solutions
    swing = swing_cells(solutions)
    says = wording.several(grid, tally.count, swing, complete=tally.complete)
    facts = {
        "count": tally.count,
        "complete": tally.complete,
        "swing_cells": [grid.cell_name(c) for c in swing],
    }
    yield Finding("several-solutions", says, facts)
    pair = most_different(solutions, grid.digits)
    differing = sum(one != other for one, other in zip(*pair, strict=True))
    grids = [[list(row) for row in grid.rows_of(filling)] for filling in pair]
    yield Finding("examples", wording.examples(differing, complete=tally.complete), {"grids": grids})
    if tally.complete:
        yield from _group_findings(puzzle, groups_of(puzzle, solutions), tally.count)


def _group_findings(puzzle: Puzzle, groups: Sequence[SwingGroup], count: int) -> Iterator[Finding]:
    grid = puzzle.grid
    if len(groups) > 1:
        yield Finding("independent-groups", wording.independent(groups, count))
    for group in groups:
        facts = {
            "cells": [grid.cell_name(cell) for cell in group.cells],
            "figure": group.figure.value,
            "ways": len(group.fillings),
        }
        yield Finding("group", wording.group(grid, group), facts)


class Repairs:
    """The repairs of a puzzle with several solutions, gathered kind by kind as far as the budget goes.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    tally : Tally
        Its solutions, all of them or as many as were counted.
    purse : Purse
        Pays for the proofs.

    Attributes
    ----------
    findings : list of Finding
        How many extra givens are needed at least, where that is proved.
    cut_short : bool
        Whether the budget ended the search.
    """

    def __init__(self, puzzle: Puzzle, tally: Tally, purse: Purse) -> None:
        self._puzzle, self._tally, self._purse = puzzle, tally, purse
        self.findings: list[Finding] = []
        self.cut_short = False
        self._extras: list[Mend] = []
        self._slips: list[Mend] = []
        self._recuts: list[Mend] = []
        try:
            self._extras += self._with_givens()
            for kind in (split, added, joined):
                self._recuts += islice(kind(puzzle, tally.solutions, purse), _MOST_RECUTS)
            for mend in self._of_slips():
                self._slips.append(mend)
        except OutOfBudgetError:
            self.cut_short = True

    def ranked(self) -> tuple[Mend, ...]:
        """Return the repairs, the best first.

        The fewest extra givens come first. A slip that leaves one solution comes next where there are few
        such slips; where there are many, they are accidents and come last. Whatever keeps the solution in
        the file comes before all others.
        """
        slips = in_order(self._slips)
        few = len(slips) <= _FEW_SLIPS
        mends = [
            *self._extras[:1],
            *(slips if few else ()),
            *self._recuts,
            *self._extras[1:],
            *(() if few else slips[:_MOST_SLIPS]),
        ]
        if self._puzzle.solution is None:
            return tuple(mends)
        return tuple(sorted(mends, key=lambda mend: not mend.keeps_claim))

    def _with_givens(self) -> Iterator[Mend]:
        sets, exact = self._fewest()
        number = len(sets[0])
        says = wording.fewest(number) if exact or number == 1 else wording.enough(number)
        code = "fewest-givens" if exact or number == 1 else "enough-givens"
        self.findings.append(Finding(code, says, {"givens": number}))
        for extra in sets:
            changes = [GivenChange(cell, None, digit) for cell, digit in extra]
            yield from proved(self._puzzle, Kind.EXTRA, changes, self._purse)

    def _fewest(self) -> tuple[list[Extra], bool]:
        """Return smallest sets of givens; for the solution in the file if that is one of several."""
        solutions, claim = self._tally.solutions, self._puzzle.solution
        meant = claim if claim is not None and solves(self._puzzle, claim) else None
        if meant is None and self._tally.complete:
            return fewest_for_all(solutions, _MOST_EXTRAS)
        target = meant or solutions[0]
        extra, exact = fewest_for_one(self._puzzle, target, solutions[:_KNOWN_TO_START], self._purse)
        return [extra], exact and meant is not None

    def _of_slips(self) -> Iterator[Mend]:
        puzzle, purse = self._puzzle, self._purse
        soft = [part for part in parts_of(puzzle) if isinstance(part, Cage | Given)]
        yield from claimed(puzzle, purse)
        yield from exchanges(puzzle, _anything, purse)
        yield from moves(puzzle, _anything, purse)
        yield from chain.from_iterable(values(puzzle, part, purse) for part in soft)


_KNOWN_TO_START = 50
"""Solutions to begin with; of those that are left each time, the search finds its own."""


def _anything(_: object) -> bool:
    return True

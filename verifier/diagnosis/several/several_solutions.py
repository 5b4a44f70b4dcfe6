"""A puzzle with several solutions: how many, where they differ, and what leaves one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice

from verifier.diagnosis import wording
from verifier.diagnosis.clues import clues_of
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.repairs.cells import moves
from verifier.diagnosis.repairs.changes import given_change
from verifier.diagnosis.repairs.mends import Kind, Mend, proved
from verifier.diagnosis.repairs.slips import claimed, exchanges, values
from verifier.diagnosis.repairs.visible_slips import visible_slips_mended
from verifier.diagnosis.search import Stage, search_through
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.differences import SwingGroup, groups_of, most_different, swing_cells
from verifier.diagnosis.several.extra_givens import Extra, fewest_for_all, fewest_for_one
from verifier.diagnosis.several.redrawn_cages import added, joined, split
from verifier.diagnosis.without.no_solution import in_order
from verifier.puzzle.breaches import solves
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = ["Repairs", "swing_findings"]

_COMPARING = 0.000_000_05
"""Cost of comparing two swing cells, for each solution."""
_MOST_EXTRAS = 3
_MOST_REDRAWN = 3
"""Repairs of each of these kinds that are offered; there are often dozens as good."""
_FEW_SLIPS = 2
"""So few slips that leave one solution are no accident: one of them may be what went wrong."""
_MOST_SLIPS = 5


def swing_findings(puzzle: Puzzle, tally: Tally, budget: SearchBudget) -> Iterator[Finding]:
    """Yield how many solutions there are, two that differ most, and the groups of swing cells.

    The groups are left out where the budget does not suffice for them.
    """
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
    if tally.complete and budget.affords(_COMPARING * len(swing) ** 2 * tally.count):
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
    """The repairs of a puzzle with several solutions, gathered stage by stage as far as the budget goes.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    tally : Tally
        Its solutions, all of them or as many as were counted.

    Attributes
    ----------
    findings : list of Finding
        How many extra givens are needed at least, where that is proved.
    not_looked_at : tuple of Stage
        What the budget did not suffice for.
    """

    def __init__(self, puzzle: Puzzle, tally: Tally, budget: SearchBudget) -> None:
        self._puzzle, self._tally, self._budget = puzzle, tally, budget
        self.findings: list[Finding] = []
        self._visible: list[Mend] = []
        self._extras: list[Mend] = []
        self._slips: list[Mend] = []
        self._redrawn: list[Mend] = []
        self.not_looked_at = search_through(puzzle, self._stages(), self._take)

    def _stages(self) -> list[tuple[Stage, Iterator[Mend]]]:
        puzzle, budget, solutions = self._puzzle, self._budget, self._tally.solutions
        redrawn = (islice(kind(puzzle, solutions, budget), _MOST_REDRAWN) for kind in (split, added, joined))
        return [
            (Stage.SEEN, visible_slips_mended(puzzle, budget)),
            (Stage.GIVENS, self._with_givens()),
            (Stage.REDRAWN, chain.from_iterable(redrawn)),
            (Stage.CLAIM, claimed(puzzle, budget)),
            (Stage.EXCHANGES, exchanges(puzzle, _anything, budget)),
            (Stage.MOVES, moves(puzzle, _anything, budget)),
            (Stage.VALUES, chain.from_iterable(values(puzzle, clue, budget) for clue in clues_of(puzzle))),
        ]

    def _take(self, mend: Mend) -> None:
        if mend.shows:
            self._visible.append(mend)
        elif mend.kind is Kind.EXTRA:
            self._extras.append(mend)
        elif mend.kind in (Kind.SPLIT, Kind.ADD, Kind.JOIN):
            self._redrawn.append(mend)
        else:
            self._slips.append(mend)

    def ranked(self) -> tuple[Mend, ...]:
        """Return the repairs, the best first.

        What puts right a misread mark, a cage in pieces or a forgotten mark comes first, then the fewest
        extra givens. A slip that leaves one solution comes next where there are few such slips; where there
        are many, they are accidents and come last. Whatever keeps the solution in the file comes before all
        others.
        """
        slips = in_order(self._slips)
        few = len(slips) <= _FEW_SLIPS
        mends = [
            *in_order(self._visible)[:_MOST_SLIPS],
            *self._extras[:1],
            *(slips if few else ()),
            *self._redrawn,
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
            changes = [given_change(cell, None, digit) for cell, digit in extra]
            yield from proved(self._puzzle, Kind.EXTRA, changes, self._budget)

    def _fewest(self) -> tuple[list[Extra], bool]:
        """Return smallest sets of givens; for the solution in the file if that is one of several."""
        solutions, claim = self._tally.solutions, self._puzzle.solution
        meant = claim if claim is not None and solves(self._puzzle, claim) else None
        if meant is None and self._tally.complete:
            return fewest_for_all(solutions, _MOST_EXTRAS, self._budget)
        target = meant or solutions[0]
        extra, exact = fewest_for_one(self._puzzle, target, solutions[:_KNOWN_TO_START], self._budget)
        return [extra], exact and meant is not None


_KNOWN_TO_START = 50
"""Solutions to begin with; of those that are left each time, the search finds its own."""


def _anything(_: object) -> bool:
    return True

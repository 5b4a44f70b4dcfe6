"""A puzzle with several solutions: how many, where they differ, and what leaves one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, islice

from verifier.diagnosis import wording
from verifier.diagnosis.clues import clues_of
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.repairs.blocked_cells import block_changes
from verifier.diagnosis.repairs.cells import moves
from verifier.diagnosis.repairs.changes import given_change
from verifier.diagnosis.repairs.mends import Kind, Mend, in_order, proved
from verifier.diagnosis.repairs.slips import claimed, exchanges, values
from verifier.diagnosis.repairs.sorts_of_cages import sorts
from verifier.diagnosis.repairs.visible_slips import visible_slips_mended
from verifier.diagnosis.search import Stage
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.differences import SwingGroup, groups_of, most_different, swing_cells
from verifier.diagnosis.several.extra_givens import Extra, fewest_for_all, fewest_for_one
from verifier.diagnosis.several.redrawn_cages import added, joined, split
from verifier.puzzle.breaches import solves
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = ["ranked", "stages", "swing_findings"]

_COMPARING = 0.000_000_05
"""Cost of comparing two swing cells, for each solution."""
_MOST_EXTRAS = 3
_MOST_REDRAWN = 3
"""Repairs of each of these kinds that are offered; there are often dozens as good."""
_FEW_SLIPS = 2
"""So few slips that leave one solution are no accident: one of them may be what went wrong."""
_MOST_SLIPS = 5
_REDRAWN = (Kind.SPLIT, Kind.ADD, Kind.JOIN)
_KNOWN_TO_START = 50
"""Solutions to begin with; of those that are left each time, the search finds its own."""


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
    grids = [[_row(row) for row in grid.rows_of(filling)] for filling in pair]
    yield Finding("examples", wording.examples(differing, complete=tally.complete), {"grids": grids})
    if tally.complete and budget.affords(_COMPARING * len(swing) ** 2 * tally.count):
        yield from _group_findings(puzzle, groups_of(puzzle, solutions), tally.count)


def _row(digits: Sequence[int]) -> list[int | None]:
    return [digit or None for digit in digits]  # a blocked cell has 0


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


def stages(
    puzzle: Puzzle, tally: Tally, budget: SearchBudget
) -> list[tuple[Stage, Iterator[Finding | Mend]]]:
    """Return the stages of the search for repairs of a puzzle with several solutions."""
    known = tally.solutions
    redrawn = (islice(kind(puzzle, known, budget), _MOST_REDRAWN) for kind in (split, added, joined))
    return [
        (Stage.SEEN, visible_slips_mended(puzzle, budget)),
        (Stage.GIVENS, _with_givens(puzzle, tally, budget)),
        (Stage.REDRAWN, chain.from_iterable(redrawn)),
        (Stage.CLAIM, claimed(puzzle, budget)),
        (Stage.SORTS, sorts(puzzle, _anything, budget)),
        (Stage.EXCHANGES, exchanges(puzzle, _anything, budget)),
        (Stage.MOVES, moves(puzzle, _anything, budget)),
        (Stage.BLOCKED, block_changes(puzzle, _anything, budget)),
        (Stage.VALUES, chain.from_iterable(values(puzzle, clue, budget) for clue in clues_of(puzzle))),
    ]


def _anything(_: object) -> bool:
    return True


def _with_givens(puzzle: Puzzle, tally: Tally, budget: SearchBudget) -> Iterator[Finding | Mend]:
    """Yield how many extra givens are needed at least, where that is proved; then such givens."""
    sets, exact = _fewest(puzzle, tally, budget)
    number = len(sets[0])
    proved_fewest = exact or number == 1
    says = wording.fewest(number) if proved_fewest else filled(wording.ENOUGH, number=number)
    yield Finding("fewest-givens" if proved_fewest else "enough-givens", says, {"givens": number})
    for extra in sets:
        changes = [given_change(cell, None, digit) for cell, digit in extra]
        yield from proved(puzzle, Kind.EXTRA, changes, budget)


def _fewest(puzzle: Puzzle, tally: Tally, budget: SearchBudget) -> tuple[list[Extra], bool]:
    """Return smallest sets of givens; for the solution in the file if that is one of several."""
    solutions, claim = tally.solutions, puzzle.solution
    meant = claim if claim is not None and solves(puzzle, claim) else None
    if meant is None and tally.complete:
        return fewest_for_all(solutions, _MOST_EXTRAS, budget)
    extra, exact = fewest_for_one(puzzle, meant or solutions[0], solutions[:_KNOWN_TO_START], budget)
    return [extra], exact and meant is not None


def ranked(mends: Sequence[Mend]) -> tuple[Mend, ...]:
    """Return the repairs of a puzzle with several solutions, the best first.

    What puts right a misread mark, a cage in pieces or a forgotten mark comes first, then the fewest extra
    givens. A slip that leaves one solution comes next where there are few such slips; where there are many,
    they are accidents and come last. Whatever keeps the solution in the file comes before all others.
    """
    others = [mend for mend in mends if not mend.shows]
    extras = [mend for mend in others if mend.kind is Kind.EXTRA]
    redrawn = [mend for mend in others if mend.kind in _REDRAWN]
    slips = in_order([mend for mend in others if mend.kind not in (Kind.EXTRA, *_REDRAWN)])
    few = len(slips) <= _FEW_SLIPS
    in_turn = [
        *in_order([mend for mend in mends if mend.shows])[:_MOST_SLIPS],
        *extras[:1],
        *(slips if few else ()),
        *redrawn,
        *extras[1:],
        *(() if few else slips[:_MOST_SLIPS]),
    ]
    return tuple(sorted(in_turn, key=lambda mend: not mend.keeps_claim))

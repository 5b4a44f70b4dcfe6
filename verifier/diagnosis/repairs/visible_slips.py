"""Slips that show - a cage in pieces, the only cell in no cage - and what puts them right."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.diagnosis import wording
from verifier.diagnosis.clues import facts_of
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.repairs.blocked_cells import totals_put_in
from verifier.diagnosis.repairs.cells import astray
from verifier.diagnosis.repairs.mends import Mend
from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.redrawn_cages import shared_marks
from verifier.puzzle.cage_layout import cages_in_pieces, lone_bare_cell
from verifier.puzzle.checking.run_checks import run_total_checks
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import KAKURO, Puzzle

__all__ = ["visible_slips", "visible_slips_mended"]


def visible_slips(puzzle: Puzzle) -> Iterator[Finding]:
    """Yield what looks wrong with the cages; it need not be, but for a run without a total."""
    for check in run_total_checks(puzzle):
        if not check.passed:
            yield Finding(check.code, check.says)
    for cage, pieces in cages_in_pieces(puzzle).items():
        says = wording.in_pieces(puzzle.grid, cage, pieces)
        yield Finding("cage-in-pieces", says, facts_of(puzzle.grid, [cage]))
    bare = lone_bare_cell(puzzle)
    if bare is not None:
        cell = puzzle.grid.cell_name(bare)
        yield Finding("one-bare-cell", filled(wording.ONE_BARE_CELL, cell=cell), {"cells": [cell]})


def visible_slips_mended(puzzle: Puzzle, budget: SearchBudget) -> Iterator[Mend]:
    """Yield what puts it right and leaves exactly one solution.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    if puzzle.kind == KAKURO:
        yield from totals_put_in(puzzle, budget)
        return
    yield from astray(puzzle, budget)
    yield from shared_marks(puzzle, budget)

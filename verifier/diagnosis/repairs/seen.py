"""Slips that show - a cage in pieces, the only cell in no cage - and what puts them right."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.diagnosis import wording
from verifier.diagnosis.findings import Finding
from verifier.diagnosis.parts import facts_of
from verifier.diagnosis.purse import Purse
from verifier.diagnosis.repairs.cells import astray
from verifier.diagnosis.repairs.mends import Mend
from verifier.diagnosis.repairs.oddities import cages_in_pieces, lone_bare_cell
from verifier.diagnosis.several.recuts import shared_marks
from verifier.puzzle.puzzle import Puzzle

__all__ = ["seen_findings", "seen_mends"]


def seen_findings(puzzle: Puzzle) -> Iterator[Finding]:
    """Yield what looks wrong with the cages; it need not be."""
    for cage, pieces in cages_in_pieces(puzzle).items():
        says = wording.in_pieces(puzzle.grid, cage, pieces)
        yield Finding("cage-in-pieces", says, facts_of(puzzle.grid, [cage]))
    bare = lone_bare_cell(puzzle)
    if bare is not None:
        cell = puzzle.grid.cell_name(bare)
        yield Finding("one-bare-cell", wording.one_bare_cell(cell), {"cells": [cell]})


def seen_mends(puzzle: Puzzle, purse: Purse) -> Iterator[Mend]:
    """Yield what puts it right and leaves exactly one solution.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent; what was yielded before stands.
    """
    yield from astray(puzzle, purse)
    yield from shared_marks(puzzle, purse)

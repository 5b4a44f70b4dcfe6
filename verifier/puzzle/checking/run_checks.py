"""What the runs of a kakuro must pass: each has a total, and sums across and down agree.

Where the sums disagree there is no solution. A run without a total proves nothing, yet no kakuro is printed
with one.
"""

from __future__ import annotations

from collections.abc import Iterator

from verifier.puzzle.checking.checks import Check
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.run_layout import Area, parts, runs_without_total
from verifier.puzzle.wording import FAILED, PASSED

__all__ = ["RUN_TOTAL", "run_sum_checks", "run_total_checks"]


RUN_TOTAL = "run-total"
"""The code of the check that every run has a total."""


def run_total_checks(puzzle: Puzzle) -> Iterator[Check]:
    """Yield a failed check for each run without a total, or the one that passed."""
    runs = runs_without_total(puzzle)
    for run in runs:
        says = filled(FAILED[RUN_TOTAL], cells=puzzle.grid.cell_names(run.cells))
        yield Check(RUN_TOTAL, False, says)
    if puzzle.kind == KAKURO and not runs:
        yield Check(RUN_TOTAL, True, PASSED[RUN_TOTAL])


def run_sum_checks(puzzle: Puzzle) -> Iterator[Check]:
    """Yield whether the totals across and the totals down agree, wherever both are sums of the same cells.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> square = [Cage((0, 1), 3), Cage((2, 3), 4), Cage((0, 2), 3), Cage((1, 3), 5)]
    >>> check, = run_sum_checks(make_puzzle("kakuro", Grid(2, 2, 0, 0, 9), houses=(), cages=square))
    >>> print(check.says)
    The totals across add up to 7 and the totals down to 8, but both are sums of the same cells. Correct the \
total that is wrong.
    """
    if puzzle.kind != KAKURO:
        return
    code, found = "run-sum", parts(puzzle)
    closed = [part for part in found if part.across is not None and part.down is not None]
    wrong = [part for part in closed if part.across != part.down]
    for part in wrong:
        yield Check(code, False, _disagree(part, puzzle, alone=len(found) == 1))
    if closed and not wrong:
        yield Check(code, True, PASSED[code])


def _disagree(part: Area, puzzle: Puzzle, *, alone: bool) -> str:
    facts = {"across": part.across, "down": part.down, "cells": puzzle.grid.cell_names(part.cells)}
    return filled(FAILED["run-sum" if alone else "run-sum:part"], **facts)

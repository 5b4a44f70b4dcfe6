"""The solution that a file claims for its puzzle, held against the rules."""

from __future__ import annotations

from verifier.puzzle.breaches import Breach, breaches
from verifier.puzzle.checks import Check
from verifier.puzzle.grid import Filling
from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.wording import BREACHES, FAILED, PASSED

__all__ = ["solution_check"]

_MOST_BREACHES = 6
"""Broken rules that the message names; of the rest it gives the number."""


def solution_check(puzzle: Puzzle) -> Check | None:
    """Hold the solution that the file claims against the rules of its puzzle.

    Parameters
    ----------
    puzzle : Puzzle
        With or without a claimed solution.

    Returns
    -------
    Check or None
        None when the file claims none. A claim that keeps every rule may still not be the only
        solution.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> claim = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> print(solution_check(make_puzzle("classic", Grid.square(4), solution=claim)).says)
    The solution in the file keeps every rule.
    """
    filling = puzzle.solution
    if filling is None:
        return None
    broken = [_name(breach, puzzle, filling) for breach in breaches(puzzle, filling)]
    if not broken:
        return Check("solution", True, PASSED["solution"])
    more = [f"{len(broken) - _MOST_BREACHES} more"] if len(broken) > _MOST_BREACHES else []
    return Check(
        "solution", False, FAILED["solution"].format(broken="; ".join(broken[:_MOST_BREACHES] + more))
    )


def _name(breach: Breach, puzzle: Puzzle, filling: Filling) -> str:
    grid, rule = puzzle.grid, breach.rule
    if not breach.cells:
        return BREACHES["length"].format(length=len(filling), wanted=grid.cell_count)
    facts: dict[str, object] = {
        "cells": grid.cell_names(breach.cells),
        "digits": listed(str(digit) for digit in sorted({filling[cell] for cell in breach.cells})),
    }
    if isinstance(rule, House):
        return BREACHES["house"].format(house=rule.name, **facts)
    if isinstance(rule, Cage):
        made = sum(filling[cell] for cell in rule.cells)
        what = "cage-repeats" if made == rule.total else "cage-total"
        facts["cage"] = grid.cell_names(rule.cells)
        return BREACHES[what].format(made=made, total=rule.total, **facts)
    given = dict(puzzle.givens).get(breach.cells[0])
    stranger = not 1 <= filling[breach.cells[0]] <= grid.digits
    return BREACHES["stranger" if stranger else "given"].format(given=given, **facts)

"""The solution that a file claims for its puzzle, held against the rules."""

from __future__ import annotations

from functools import singledispatch

from verifier.puzzle.breaches import Breach, breaches
from verifier.puzzle.checking.broken_clues import BROKEN
from verifier.puzzle.checking.checks import Check
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.wording import BREACHES, FAILED, PASSED

__all__ = ["solution_check"]

_MOST_BREACHES = 6
"""Broken rules that the message names; of the rest it gives the number."""


def solution_check(puzzle: Puzzle) -> Check | None:
    """Hold the solution that the file claims against the rules of its puzzle.

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
    grid, rule, cells = puzzle.grid, breach.rule, breach.cells
    if not cells:
        return BREACHES["length"].format(length=len(filling), wanted=grid.cell_count)
    if rule is None:
        return BREACHES["stranger"].format(cells=grid.cell_names(cells), digits=_digits(cells, filling))
    return _broken(rule, grid, filling, cells=grid.cell_names(cells), digits=_digits(cells, filling))


def _digits(cells: tuple[int, ...], filling: Filling) -> str:
    return listed(str(digit) for digit in sorted({filling[cell] for cell in cells}))


@singledispatch
def _broken(rule: Rule, grid: Grid, filling: Filling, **facts: str) -> str:
    """Say how a filling breaks a rule: in `cells`, with `digits`."""
    said = BROKEN.get(type(rule))
    return said(rule, grid, filling) if said else BREACHES["rule"].format(rule=rule.called(grid), **facts)


@_broken.register
def _(rule: House, grid: Grid, filling: Filling, **facts: str) -> str:  # noqa: ARG001
    return BREACHES["house"].format(house=rule.name, **facts)


@_broken.register
def _(rule: Different, grid: Grid, filling: Filling, **facts: str) -> str:  # noqa: ARG001
    return BREACHES["cage-repeats"].format(cage=grid.cell_names(rule.cells), **facts)


@_broken.register
def _(rule: LinearSum, grid: Grid, filling: Filling, **facts: str) -> str:
    made = sum(weight * filling[cell] for cell, weight in rule.weights)
    return BREACHES["cage-total"].format(
        cage=grid.cell_names(rule.cells), made=made, total=rule.total, **facts
    )


@_broken.register
def _(rule: Cage, grid: Grid, filling: Filling, **facts: str) -> str:
    made = sum(filling[cell] for cell in rule.cells)
    what = "cage-repeats" if made == rule.total else "cage-total"
    return BREACHES[what].format(cage=grid.cell_names(rule.cells), made=made, total=rule.total, **facts)


@_broken.register
def _(rule: Given, grid: Grid, filling: Filling, **facts: str) -> str:  # noqa: ARG001
    return BREACHES["given"].format(given=rule.digit, **facts)

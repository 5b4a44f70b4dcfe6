"""The fewest extra givens that leave one solution: a hitting set of the differences between solutions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, starmap

from ortools.sat.python import cp_model

from verifier.diagnosis.search_budget import SearchBudget
from verifier.diagnosis.several.differences import swing_cells
from verifier.diagnosis.several.hitting_sets import fewest, greedy_hitting_set, smallest_hitting_set
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.given import Given

__all__ = ["Extra", "fewest_for_all", "fewest_for_one"]

Extra = tuple[tuple[int, int], ...]
"""Pairs of cell and digit to be given, in reading order."""

_FRESH = 50
"""Further solutions that are looked for at a time."""
_STATING = 0.000_000_5
"""Cost of stating which solution lacks which digit, for each of both."""
_COMBINING = 0.000_000_3
"""Cost of looking at all sets of two, for each pair of them."""


def fewest_for_all(solutions: Sequence[Filling], most: int, budget: SearchBudget) -> tuple[list[Extra], bool]:
    """Return smallest sets of givens that leave exactly one of several solutions.

    Parameters
    ----------
    solutions : sequence of Filling
        All solutions of the puzzle, at least two.
    most : int
        Return no more sets than this; sets that leave different solutions come first.

    Returns
    -------
    sets : list of Extra
        All of the same size, which no set undercuts where `proved`.
    proved : bool
        Whether the search for a smaller one was finished.

    Examples
    --------
    >>> fewest_for_all([(1, 2, 3), (1, 3, 2), (2, 3, 1)], 2, SearchBudget())
    ([((0, 2),), ((1, 2),)], True)
    """
    ordered = sorted(solutions)
    who_has = _who_has(ordered)
    for size in (1, 2):
        if size == 2 and not budget.affords(_COMBINING * len(who_has) ** 2):
            break
        found = list(_that_leave_one(who_has, size))
        if found:
            return _spread(found, most), True
    chosen, proved = _smallest(ordered, who_has, budget)
    return [chosen], proved


def _who_has(solutions: Sequence[Filling]) -> dict[tuple[int, int], int]:
    """Return for each digit of each swing cell the solutions that have it, as bits."""
    who: dict[tuple[int, int], int] = {}
    swing = swing_cells(solutions)
    for number, filling in enumerate(solutions):
        for cell in swing:
            key = cell, filling[cell]
            who[key] = who.get(key, 0) | 1 << number
    return who


def _that_leave_one(who_has: dict[tuple[int, int], int], size: int) -> Iterator[tuple[Extra, int]]:
    """Yield the sets of a size that leave one solution, with the solution as a bit."""
    for pairs in combinations(sorted(who_has), size):
        left = who_has[pairs[0]]
        for pair in pairs[1:]:
            left &= who_has[pair]
        if left and not left & (left - 1):
            yield pairs, left


def _spread(found: list[tuple[Extra, int]], most: int) -> list[Extra]:
    """Return at most so many of the sets, those for different solutions first."""
    seen: dict[int, int] = {}
    turns = []
    for place, (extra, left) in enumerate(found):
        seen[left] = seen.get(left, 0) + 1
        turns.append((seen[left], place, extra))
    return [extra for _, _, extra in sorted(turns)[:most]]


def _smallest(
    solutions: Sequence[Filling], who_has: dict[tuple[int, int], int], budget: SearchBudget
) -> tuple[Extra, bool]:
    """Return a smallest set of givens, found by a solver."""
    model = cp_model.CpModel()
    kept = [model.new_bool_var(f"keep {number}") for number in range(len(solutions))]
    given = {pair: model.new_bool_var(f"r{pair[0]}={pair[1]}") for pair in sorted(who_has)}
    # One solution is kept,
    model.add_exactly_one(kept)
    for pair, holders in who_has.items():
        # a digit can be given only where the solution that is kept has it,
        model.add_bool_or([~given[pair], *(k for n, k in enumerate(kept) if holders >> n & 1)])
    for number, keep in enumerate(kept):
        # and every other solution is excluded by a given that it does not have.
        against = [given[pair] for pair, holders in who_has.items() if not holders >> number & 1]
        model.add_bool_or([keep, *against])
    budget.spend(_STATING * len(solutions) * len(who_has))
    found = fewest(model, given, budget)
    if found is None:
        cells = greedy_hitting_set([_differing(solutions[0], other) for other in solutions[1:]])
        return tuple((cell, solutions[0][cell]) for cell in sorted(cells)), False
    chosen, proved = found
    return tuple(sorted(chosen)), proved


def fewest_for_one(
    puzzle: Puzzle, target: Filling, known: Sequence[Filling], budget: SearchBudget
) -> tuple[Extra, bool]:
    """Return a smallest set of givens that leaves exactly one solution, for a solution that is settled.

    Parameters
    ----------
    puzzle : Puzzle
        With more solutions than can be listed, or with one that is meant.
    target : Filling
        The solution to be left.
    known : sequence of Filling
        Other solutions to begin with.

    Returns
    -------
    givens : Extra
        They leave `target` alone.
    proved : bool
        Whether no smaller set does.

    Raises
    ------
    OutOfBudgetError
        If the budget is spent before the givens leave one solution.

    Notes
    -----
    An implicit hitting set: a smallest set of cells that tells `target` from the solutions known so far is
    given; a solution that it still leaves is one more to be told apart. When none is left, the set is a
    smallest one for all solutions, since it is for a part of them.
    """
    apart = fresh = [_differing(target, filling) for filling in known if filling != target]
    enough = budget.left / 2
    proved = True
    cells: set[int] = set()
    while True:
        if budget.left > enough:
            cells, exact = smallest_hitting_set(apart, budget)
        else:
            cells, exact = cells | greedy_hitting_set(fresh), False
        proved = proved and exact
        extra = tuple((cell, target[cell]) for cell in sorted(cells))
        left = budget.count(puzzle.changed(come=starmap(Given, extra)), _FRESH)
        fresh = [_differing(target, filling) for filling in left.solutions if filling != target]
        if not fresh:
            return extra, proved and left.complete
        apart = apart + fresh


def _differing(one: Filling, other: Filling) -> set[int]:
    """Return the cells in which two fillings differ."""
    return {cell for cell, (a, b) in enumerate(zip(one, other, strict=True)) if a != b}

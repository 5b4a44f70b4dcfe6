"""Smallest hitting sets: the fewest things so that each of several sets has one of them."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import TypeVar

from ortools.sat.python import cp_model

from verifier.diagnosis.search_budget import SearchBudget

__all__ = ["fewest", "greedy_hitting_set", "smallest_hitting_set"]

_Key = TypeVar("_Key")

_WORK = 5.0
"""Most work for one smallest set, in the solver's deterministic units."""


def smallest_hitting_set(sets: Sequence[Collection[int]], budget: SearchBudget) -> tuple[set[int], bool]:
    """Return the fewest numbers such that each of the sets has one of them.

    Parameters
    ----------
    sets : sequence of collection of int
        None of them empty.

    Returns
    -------
    hitting : set of int
        It hits every set.
    proved : bool
        Whether no smaller one does; else it is put together greedily.

    Examples
    --------
    >>> smallest_hitting_set([{1, 2}, {2, 3}, {3, 4}, {2, 4}], SearchBudget())[1]
    True
    >>> sorted(smallest_hitting_set([{1, 2}, {2, 3}, {2, 4}], SearchBudget())[0])
    [2]
    """
    model = cp_model.CpModel()
    chosen = {number: model.new_bool_var(f"{number}") for number in sorted(set().union(*sets))}
    for one in sets:
        model.add_bool_or([chosen[number] for number in one])
    return fewest(model, chosen, budget) or (greedy_hitting_set(sets), False)


def greedy_hitting_set(sets: Sequence[Collection[int]]) -> set[int]:
    """Return numbers that hit every set, each the one that hits most of those left.

    Examples
    --------
    >>> sorted(greedy_hitting_set([{1, 2}, {2, 3}, {3}]))
    [2, 3]
    """
    left, chosen = list(sets), set()
    while left:
        number = max(sorted(set().union(*left)), key=lambda n: sum(n in one for one in left))
        chosen.add(number)
        left = [one for one in left if number not in one]
    return chosen


def fewest(
    model: cp_model.CpModel, chosen: Mapping[_Key, cp_model.IntVar], budget: SearchBudget
) -> tuple[set[_Key], bool] | None:
    """Return the fewest choices that a model allows, and whether that is proved; None if none were found.

    The same on every machine, unless the clock runs out.
    """
    model.minimize(sum(chosen.values()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = min(_WORK, budget.work)
    solver.parameters.max_time_in_seconds = budget.seconds
    solver.parameters.catch_sigint_signal = False
    status = solver.solve(model)
    budget.spend_work(solver.deterministic_time)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return {key for key, variable in chosen.items() if solver.value(variable)}, status == cp_model.OPTIMAL

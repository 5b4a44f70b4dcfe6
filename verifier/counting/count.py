"""Count the solutions of a puzzle with CP-SAT, up to a limit."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from ortools.sat.python import cp_model

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules import solves
from verifier.puzzle.tally import Stop, Tally

__all__ = ["WITNESS", "Budget", "count_solutions"]

WITNESS = "cp-sat"
"""The name of this witness in a verdict."""


@dataclass(frozen=True, slots=True)
class Budget:
    """How much work a count may take.

    Parameters
    ----------
    work : float
        In the solver's deterministic units (about a second each on a fast machine): the same limit on
        every machine.
    seconds : float
        Guard on the wall clock; a count that it ends says so with `Stop.CLOCK`.
    """

    work: float = 60.0
    seconds: float = 120.0


class _Finder(cp_model.CpSolverSolutionCallback):
    def __init__(self, cells: list[list[cp_model.IntVar]], limit: int) -> None:
        super().__init__()
        self._cells, self._limit = cells, limit
        self.found: set[Filling] = set()

    def on_solution_callback(self) -> None:
        self.found.add(
            tuple(next(d for d, x in enumerate(xs, 1) if self.boolean_value(x)) for xs in self._cells)
        )
        if len(self.found) >= self._limit:
            self.stop_search()


def count_solutions(puzzle: Puzzle, limit: int = 2, budget: Budget = Budget()) -> Tally:
    """Count the solutions of `puzzle`, at most `limit` of them."""
    model = cp_model.CpModel()
    cells = [[model.new_bool_var("") for _ in puzzle.grid.all_digits] for _ in range(puzzle.grid.cell_count)]
    for xs in cells:
        model.add_exactly_one(xs)
    for house in puzzle.houses:
        for d in range(puzzle.grid.digits):
            model.add_exactly_one(cells[c][d] for c in house.cells)
    for cage in puzzle.cages:
        sets = [s for s in combinations(puzzle.grid.all_digits, len(cage.cells)) if sum(s) == cage.total]
        chosen = [model.new_bool_var("") for _ in sets]
        model.add_exactly_one(chosen)
        for d in puzzle.grid.all_digits:
            lacking = [x for x, s in zip(chosen, sets, strict=True) if d not in s]
            model.add_exactly_one([cells[c][d - 1] for c in cage.cells] + lacking)
    for cell, digit in puzzle.givens:
        model.add_bool_and(cells[cell][digit - 1])
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_presolve = False
    solver.parameters.max_deterministic_time = budget.work
    solver.parameters.max_time_in_seconds = budget.seconds
    finder = _Finder(cells, limit)
    status = solver.solve(model, finder)
    found = tuple(sorted(f for f in finder.found if solves(puzzle, f)))
    if len(found) >= limit:
        stop = Stop.ASKED
    elif status in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
        stop = Stop.FINISHED
    else:
        stop = Stop.CLOCK if solver.deterministic_time < budget.work else Stop.BUDGET
    return Tally(WITNESS, found, stop)

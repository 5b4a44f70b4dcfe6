"""The yardstick: the count as a textbook writes it for CP-SAT.

Integer cells, all-different, linear sums, one plain constraint a clue, two solutions at most, one worker, all
else as the solver comes. The ratios of the benchmark are to the time this takes, model included.
"""

from __future__ import annotations

from collections.abc import Mapping

from ortools.sat.python import cp_model

from scripts.timing.textbook_rules import TEXTBOOK_RULES, Book
from verifier.puzzle.puzzle import Puzzle

__all__ = ["count_up_to_two", "textbook_count", "textbook_model"]


def textbook_model(puzzle: Puzzle) -> cp_model.CpModel:
    """Return the model with an integer for each cell."""
    model = cp_model.CpModel()
    digits = puzzle.grid.digits
    cells = [model.new_int_var(1, digits, "") for _ in range(puzzle.grid.cell_count)]
    book = Book(model, cells, digits)
    for rule in puzzle.rules:
        TEXTBOOK_RULES[type(rule)](book, rule)
    return model


def textbook_count(puzzle: Puzzle) -> int:
    """Count the solutions, two at most."""
    return count_up_to_two(textbook_model(puzzle))


def count_up_to_two(
    model: cp_model.CpModel, parameters: Mapping[str, object] | None = None, seconds: float | None = None
) -> int:
    """Count the solutions of a model, two at most, with one worker; -1 when the seconds run out."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.enumerate_all_solutions = True
    if seconds is not None:
        solver.parameters.max_time_in_seconds = seconds
    for name, value in (parameters or {}).items():
        setattr(solver.parameters, name, value)
    two = _Two()
    status = solver.solve(model, two)
    finished = status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    return two.found if finished or two.found == 2 else -1


class _Two(cp_model.CpSolverSolutionCallback):
    def __init__(self) -> None:
        super().__init__()
        self.found = 0

    def on_solution_callback(self) -> None:
        self.found += 1
        if self.found == 2:
            self.stop_search()

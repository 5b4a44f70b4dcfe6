"""Count the solutions of a puzzle with CP-SAT, up to a limit.

Only a finished search says how many solutions there are. Released versions of the solver have reported
solutions twice and solutions that are none, so every one is held against the rules in plain Python and
counted as a distinct filling.

The solver is spoken to through `cp_model_helper`, the layer below `cp_model`: that one brings numpy and
pandas along, which take several times as long to import as the solver, and are not needed here.
"""

from __future__ import annotations

from dataclasses import dataclass

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.model import build_model, filling_of
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

__all__ = ["WITNESS", "Budget", "count_solutions", "measured_count"]

WITNESS = "cp-sat"
"""The name of this witness in a verdict."""


@dataclass(frozen=True, slots=True)
class Budget:
    """How much work a count may take.

    Parameters
    ----------
    work : float
        In the solver's deterministic units, roughly a third of a second each: the same limit on every
        machine, however busy it is.
    seconds : float
        Guard on the wall clock, wide enough not to end a count before `work` does.
    """

    work: float = 60.0
    seconds: float = 120.0


def count_solutions(puzzle: Puzzle, limit: int = 2, budget: Budget = Budget()) -> Tally:
    """Count the solutions of a puzzle exactly, or find `limit` of them.

    Parameters
    ----------
    puzzle : Puzzle
        Any houses, cages and givens; those that no digits can meet are counted as 0.
    limit : int
        Stop at so many solutions: 2 are enough to prove that there are several.
    budget : Budget
        When it runs out, the tally is not complete.

    Returns
    -------
    Tally
        Of the witness ``cp-sat``; the same for the same arguments, unless `Stop.CLOCK` ended it.

    Raises
    ------
    ValueError
        If `limit` is less than 1.
    RuntimeError
        If the solver finds fault with the model: a defect of this program.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> count_solutions(make_puzzle("classic", grid), limit=1000).count
    288
    >>> cages = [Cage((0, 1), 3), Cage((3, 7), 6), Cage((9, 13), 4), Cage((14, 15), 3)]
    >>> tally = count_solutions(make_puzzle("killer", grid, cages=cages))
    >>> tally.count, tally.complete, tally.solutions[0][:4]
    (1, True, (1, 2, 3, 4))
    >>> tally = count_solutions(make_puzzle("killer", grid, cages=cages[:3]))
    >>> tally.count, tally.complete, [grid.cell_name(cell) for cell in tally.swing_cells][:3]
    (2, False, ['r3c2', 'r3c4', 'r4c2'])
    """
    return measured_count(puzzle, limit, budget)[0]


def measured_count(puzzle: Puzzle, limit: int = 2, budget: Budget = Budget()) -> tuple[Tally, float]:
    """Count as `count_solutions` does, and return the work it took in the units of `Budget.work`.

    Whoever counts many puzzles within one budget adds the work up: the sum is the same on every machine.
    """
    if limit < 1:
        raise ValueError(f"limit: found {limit}; at least 1 solution has to be asked for")
    finder = _Finder(puzzle, limit)
    search = cp_sat.SolveWrapper()
    search.set_parameters(_parameters(budget))
    search.add_solution_callback(finder)
    response = search.solve(build_model(puzzle))  # type: ignore[no-untyped-call]
    search.clear_solution_callback(finder)
    if response.status == cp_sat.MODEL_INVALID:
        raise RuntimeError(f"CP-SAT finds fault with the model of puzzle {puzzle.credits.id!r}")
    work: float = response.deterministic_time
    stop = finder.stop or _stop(response.status, work, budget)
    return Tally(WITNESS, tuple(sorted(finder.found)), stop, finder.refused), work


class _Finder(cp_sat.SolutionCallback):
    """Takes down each solution, and ends the search when it has seen enough."""

    def __init__(self, puzzle: Puzzle, limit: int) -> None:
        super().__init__()
        self._puzzle, self._limit = puzzle, limit
        self.found: set[Filling] = set()
        self.refused: Filling | None = None
        self.stop: Stop | None = None

    def OnSolutionCallback(self) -> None:  # noqa: N802 - the name is the solver's
        """Take down one solution; the solver calls this."""
        if self.stop is not None:
            return  # the solver may report more before it heeds the call to stop
        shown = self.Response()  # type: ignore[no-untyped-call]
        filling = filling_of(list(shown.solution), self._puzzle.grid)
        if solves(self._puzzle, filling):
            self.found.add(filling)
            if len(self.found) == self._limit:
                self._end(Stop.ASKED)
        else:
            self.refused = filling
            self._end(Stop.REFUSED)

    def _end(self, stop: Stop) -> None:
        self.stop = stop
        self.StopSearch()


def _parameters(budget: Budget) -> cp_sat.SatParameters:
    parameters = cp_sat.SatParameters()
    parameters.enumerate_all_solutions = True
    # With more workers OR-tools 9.15 loses solutions and still says that the search was finished.
    parameters.num_workers = 1
    parameters.random_seed = 1
    # In Booleans alone, linear relaxation, presolve and the search for symmetries cost more than they save.
    parameters.linearization_level = 0
    parameters.cp_model_presolve = False
    parameters.symmetry_level = 0
    parameters.max_deterministic_time = budget.work
    parameters.max_time_in_seconds = budget.seconds
    # The solver's own handler for an interrupt would stay behind in place of Python's.
    parameters.catch_sigint_signal = False
    return parameters


def _stop(status: cp_sat.CpSolverStatus, work: float, budget: Budget) -> Stop:
    """Return why a search ended that was not told to."""
    if status in (cp_sat.OPTIMAL, cp_sat.INFEASIBLE):
        return Stop.FINISHED
    return Stop.BUDGET if work >= budget.work else Stop.CLOCK

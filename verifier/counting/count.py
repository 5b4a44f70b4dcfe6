"""Count the solutions of a puzzle with CP-SAT, up to a limit.

Only a finished search says how many solutions there are. Released versions of the solver have reported
solutions twice and solutions that are none, so every one is held against the rules in plain Python and
counted as a distinct filling.

The solver is spoken to through `cp_model_helper`, the layer below `cp_model`: that one brings numpy and
pandas along, which take several times as long to import as the solver, and are not needed here.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Thread

from ortools.sat.python import cp_model_helper as cp_sat

from verifier.counting.model import build_model, filling_of
from verifier.puzzle.allowance import USUAL_ALLOWANCE, WorkAllowance
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

__all__ = ["WITNESS", "count_solutions"]

WITNESS = "cp-sat"
"""The name of this witness in a verdict."""


_PATIENCE = 0.05  # seconds between two looks at whether whoever asked has ended the count


def count_solutions(puzzle: Puzzle, limit: int = 2, allowance: WorkAllowance = USUAL_ALLOWANCE) -> Tally:
    """Count the solutions of a puzzle exactly, or find `limit` of them.

    Parameters
    ----------
    puzzle : Puzzle
        Any houses, cages and givens; those that no digits can meet are counted as 0.
    limit : int
        Stop at so many solutions: 2 are enough to prove that there are several.
    allowance : WorkAllowance
        Its `work` and `seconds`; when they run out, the tally is not complete.

    Returns
    -------
    Tally
        Of the witness ``cp-sat``; the same for the same arguments, unless clock or caller ended it.

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
    if limit < 1:
        raise ValueError(f"limit: found {limit}; at least 1 solution has to be asked for")
    finder = _Finder(puzzle, limit)
    search = cp_sat.SolveWrapper()
    search.set_parameters(_parameters(allowance))
    search.add_solution_callback(finder)
    with _ended_when_told(search, allowance):
        response = search.solve(build_model(puzzle))  # type: ignore[no-untyped-call]
    search.clear_solution_callback(finder)
    if response.status == cp_sat.MODEL_INVALID:
        raise RuntimeError(f"CP-SAT finds fault with the model of puzzle {puzzle.credits.id!r}")
    work: float = response.deterministic_time
    stop = finder.stop or _stop(response.status, work, allowance)
    return Tally(WITNESS, tuple(sorted(finder.found)), stop, finder.refused, work)


@contextmanager
def _ended_when_told(search: cp_sat.SolveWrapper, allowance: WorkAllowance) -> Iterator[None]:
    """Stop the search once the caller has ended it: a thread looks, since the solver itself does not."""
    if allowance.ended is None:
        yield
        return
    over = Event()

    def look() -> None:
        while not over.wait(_PATIENCE):
            if allowance.is_ended:
                search.stop_search()

    watch = Thread(target=look, daemon=True)
    watch.start()
    try:
        yield
    finally:
        over.set()
        watch.join()


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
        # All values at once, as text: to ask for one after the other takes twenty times as long.
        values = str(shown.solution)[1:-1].replace(", ", "")
        filling = filling_of(values, self._puzzle.grid)
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


def _parameters(allowance: WorkAllowance) -> cp_sat.SatParameters:
    parameters = cp_sat.SatParameters()
    parameters.enumerate_all_solutions = True
    # With more workers OR-tools 9.15 loses solutions and still says that the search was finished.
    parameters.num_workers = 1
    parameters.random_seed = 1
    # In Booleans alone, whatever prepares the search or tidies up in it costs more than it saves.
    parameters.linearization_level = 0
    parameters.cp_model_presolve = False
    parameters.symmetry_level = 0
    parameters.cp_model_probing_level = 0
    parameters.use_sat_inprocessing = False
    parameters.auto_detect_greater_than_at_least_one_of = False
    parameters.max_deterministic_time = allowance.work
    parameters.max_time_in_seconds = allowance.seconds
    # The solver's own handler for an interrupt would stay behind in place of Python's.
    parameters.catch_sigint_signal = False
    return parameters


def _stop(status: cp_sat.CpSolverStatus, work: float, allowance: WorkAllowance) -> Stop:
    """Return why a search ended that had not seen enough."""
    if allowance.is_ended:  # whatever the solver says of a search that was stopped: it vouches for nothing
        return Stop.ENDED
    if status in (cp_sat.OPTIMAL, cp_sat.INFEASIBLE):
        return Stop.FINISHED
    return Stop.BUDGET if work >= allowance.work else Stop.CLOCK

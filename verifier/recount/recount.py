"""Count the solutions of a puzzle a second time, with clingo (answer set programming).

The second count shares nothing with the first: another kind of solver, on statements of its own
(`verifier.recount.statements`), which state a total as a sum and list no combinations. A fault of either is
unlikely to be one of both.
"""

from __future__ import annotations

from functools import lru_cache
from time import monotonic

import clingo

from verifier.puzzle.allowance import USUAL_ALLOWANCE, WorkAllowance
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally
from verifier.recount.statements import program_of

__all__ = ["WITNESS", "recount_solutions"]

WITNESS = "clingo"
"""The name of this witness in a verdict."""

_PATIENCE = 0.2  # seconds between two looks at the clock, at the keyboard and at the caller's word


def recount_solutions(puzzle: Puzzle, limit: int = 2, allowance: WorkAllowance = USUAL_ALLOWANCE) -> Tally:
    """Count the solutions of a puzzle exactly, or find `limit` of them.

    Parameters
    ----------
    puzzle : Puzzle
        Any houses, cages and givens; those that no digits can meet are counted as 0.
    limit : int
        Stop at so many solutions: 2 are enough to prove that there are several.
    allowance : WorkAllowance
        Its `conflicts` and `seconds`; when they run out, the tally is not complete.

    Returns
    -------
    Tally
        Of the witness ``clingo``; the same for the same arguments, unless clock or caller ended it.

    Raises
    ------
    ValueError
        If `limit` is less than 1.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.rules.cage import Cage
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> recount_solutions(make_puzzle("classic", grid), limit=1000).count
    288
    >>> cages = [Cage((0, 1), 3), Cage((3, 7), 6), Cage((9, 13), 4), Cage((14, 15), 3)]
    >>> tally = recount_solutions(make_puzzle("killer", grid, cages=cages))
    >>> tally.count, tally.complete, tally.solutions[0][:4]
    (1, True, (1, 2, 3, 4))
    """
    if limit < 1:
        raise ValueError(f"limit: found {limit}; at least 1 solution has to be asked for")
    deadline = monotonic() + allowance.seconds
    control = clingo.Control(["--models=0", f"--solve-limit={allowance.conflicts}", "--warn=none"])
    control.add("base", [], program_of(puzzle))
    control.ground([("base", [])])
    found: set[Filling] = set()
    refused = None
    with control.solve(yield_=True, async_=True) as handle:  # leaving the block ends the search
        while (stop := _waited(handle, deadline, allowance)) is None:
            model = handle.model()
            if model is None:
                stop = Stop.FINISHED if handle.get().exhausted else Stop.BUDGET
                break
            digits = dict(map(_place, model.symbols(shown=True)))
            filling = tuple(digits.get(cell, 0) for cell in range(puzzle.grid.cell_count))
            if not solves(puzzle, filling):
                stop, refused = Stop.REFUSED, filling
                break
            found.add(filling)
            if len(found) == limit:
                stop = Stop.ASKED
                break
            handle.resume()
    spent: float = control.statistics["solving"]["solvers"]["conflicts"]
    return Tally(WITNESS, tuple(sorted(found)), stop, refused, spent)


def _waited(handle: clingo.SolveHandle, deadline: float, allowance: WorkAllowance) -> Stop | None:
    """Wait for the next solution or the end of the search; return what came before either, if anything."""
    while (left := deadline - monotonic()) > 0:
        if allowance.is_ended:
            return Stop.ENDED
        if handle.wait(min(left, _PATIENCE)):
            return None
    return Stop.CLOCK


@lru_cache(maxsize=1 << 15)  # more than the cells of the largest grid have digits
def _place(holds: clingo.Symbol) -> tuple[int, int]:
    """Return the cell and the digit of an atom ``holds(cell, digit)``."""
    cell, digit = holds.arguments
    return cell.number, digit.number

"""Count the solutions of a puzzle a second time, with clingo (answer set programming).

The second count shares nothing with the first: another kind of solver, on statements of its own
(`verifier.recount.statements`), which state a total as a sum and list no combinations. A fault of either is
unlikely to be one of both.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from time import monotonic

import clingo

from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally
from verifier.recount.statements import program_of

__all__ = ["WITNESS", "Budget", "recount_solutions"]

WITNESS = "clingo"
"""The name of this witness in a verdict."""

_PATIENCE = 0.2  # seconds between two looks at the clock, and at the keyboard


@dataclass(frozen=True, slots=True)
class Budget:
    """How much work a recount may take.

    Parameters
    ----------
    conflicts : int
        Dead ends of the search, at least 1: the same limit on every machine, however busy it is.
        Roughly 50,000 a second.
    seconds : float
        Guard on the wall clock, wide enough not to end a recount before `conflicts` does.
    """

    conflicts: int = 1_000_000
    seconds: float = 120.0


def recount_solutions(puzzle: Puzzle, limit: int = 2, budget: Budget = Budget()) -> Tally:
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
        Of the witness ``clingo``; the same for the same arguments, unless `Stop.CLOCK` ended it.

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
    deadline = monotonic() + budget.seconds
    control = clingo.Control(["--models=0", f"--solve-limit={budget.conflicts}", "--warn=none"])
    control.add("base", [], program_of(puzzle))
    control.ground([("base", [])])
    return _searched(control, puzzle, limit, deadline)


def _searched(control: clingo.Control, puzzle: Puzzle, limit: int, deadline: float) -> Tally:
    """Take down one solution after the other until there is a reason to stop."""
    found: set[Filling] = set()
    with control.solve(yield_=True, async_=True) as handle:  # leaving the block ends the search
        while _waited(handle, deadline):
            model = handle.model()
            if model is None:
                stop = Stop.FINISHED if handle.get().exhausted else Stop.BUDGET
                return Tally(WITNESS, tuple(sorted(found)), stop)
            filling = tuple(digit for _, digit in sorted(map(_place, model.symbols(shown=True))))
            if not solves(puzzle, filling):
                return Tally(WITNESS, tuple(sorted(found)), Stop.REFUSED, filling)
            found.add(filling)
            if len(found) == limit:
                return Tally(WITNESS, tuple(sorted(found)), Stop.ASKED)
            handle.resume()
    return Tally(WITNESS, tuple(sorted(found)), Stop.CLOCK)


def _waited(handle: clingo.SolveHandle, deadline: float) -> bool:
    """Wait for the next solution or the end of the search; say whether it came before the deadline."""
    while (left := deadline - monotonic()) > 0:
        if handle.wait(min(left, _PATIENCE)):
            return True
    return False


@lru_cache(maxsize=1 << 15)  # more than the cells of the largest grid have digits
def _place(holds: clingo.Symbol) -> tuple[int, int]:
    """Return the cell and the digit of an atom ``holds(cell, digit)``."""
    cell, digit = holds.arguments
    return cell.number, digit.number

"""The budget of a diagnosis: what every count and proof costs, and when there is nothing left.

The costs are taken from deterministic figures - the solver's units of work, the size of the grid, the rounds
of a replay - and scaled to be roughly seconds. So a diagnosis ends at the same place on every machine. A
wall clock stands behind it as a guard: wide, for a machine that is overloaded, unless the caller promised
somebody an answer in so many seconds.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from verifier.evidence.establish import ask_witnesses, count
from verifier.evidence.statements import COUNT, REPLAY, Statement
from verifier.puzzle.allowance import USUAL_ALLOWANCE, WorkAllowance
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = ["COST_OF_ROUND", "DEFAULT_SECONDS", "OutOfBudgetError", "SearchBudget"]

DEFAULT_SECONDS = 20.0

COST_OF_ROUND = 0.002
"""Cost of a round of a replay."""
_BUILDING = 0.000_008
"""Cost of building the model of a count, for each digit of each cell."""
_SOLVING = 0.35
"""Cost of one unit of the solver's work."""
_SHOWING = 0.000_001
"""Cost of taking down one solution, for each digit of each cell."""
_LEAST_WORK = 0.01
_MOMENT = 0.1
_CLOCK_FACTOR = 4.0
"""A machine must be so much slower than ours before the clock ends a diagnosis."""


class OutOfBudgetError(Exception):
    """The budget is spent: what has been found so far is all there will be."""


class SearchBudget:
    """What is left of the budget. Working memory: it changes as the diagnosis goes on.

    Parameters
    ----------
    seconds : float, optional
        The budget, in deterministic units that are roughly seconds.
    clock : float, optional
        Seconds of the wall clock after which nothing more is begun, whatever is left; four times the
        budget when absent.

    Attributes
    ----------
    left : float
        What has not been spent.
    deadline : float
        The guard, on the clock of `time.monotonic`.
    """

    def __init__(self, seconds: float = DEFAULT_SECONDS, clock: float | None = None) -> None:
        self.left = seconds
        self.deadline = time.monotonic() + (_CLOCK_FACTOR * seconds if clock is None else clock)

    @property
    def seconds(self) -> float:
        """What the wall clock leaves for one thing more, at least a moment."""
        return max(self.deadline - time.monotonic(), _MOMENT)

    def count(self, puzzle: Puzzle, limit: int = 2, most: float = 1.0) -> Tally:
        """Count solutions and spend what that costs.

        Parameters
        ----------
        puzzle : Puzzle
            What to count.
        limit : int, optional
            Stop at so many solutions, or at fewer where taking them down costs more than `most`.
        most : float, optional
            Spend no more than this on it; the tally is not complete then.

        Raises
        ------
        OutOfBudgetError
            If nothing is left to begin with.
        """
        limit, allowance = self._for_a_count(puzzle, limit, most)
        tally = count(puzzle, limit, allowance)
        self._spend_on_count(puzzle, tally)
        return tally

    def ask_witnesses(
        self,
        puzzle: Puzzle,
        limit: int = 2,
        most: float = 1.0,
        *,
        conflicts: int = USUAL_ALLOWANCE.conflicts,
        cost_of_recount: float = 0.0,
    ) -> Iterator[Statement]:
        """Yield what the witnesses of the number of solutions say, and spend what each of them costs.

        The replay goes without trial. The first three arguments are those of `count`, which is asked first.

        Parameters
        ----------
        conflicts : int, optional
            What the recount may take.
        cost_of_recount : float, optional
            What is spent on it before it is asked, if anything.

        Raises
        ------
        OutOfBudgetError
            If nothing is left when a witness is to be asked, or after a replay.
        """
        limit, allowance = self._for_a_count(puzzle, limit, most)
        allowance = replace(allowance, conflicts=conflicts, trial=False)
        for said in ask_witnesses(puzzle, limit, allowance):
            if said.witness == COUNT:
                self._spend_on_count(puzzle, said)
            elif said.witness == REPLAY:
                self.spend(COST_OF_ROUND * said.spent)
                if cost_of_recount and not said.proves:  # the recount comes next
                    self.spend(cost_of_recount)
            yield said

    def _for_a_count(self, puzzle: Puzzle, limit: int, most: float) -> tuple[int, WorkAllowance]:
        """Spend what the model costs; return how many solutions a count may find, and what it may take."""
        size = puzzle.grid.cell_count * puzzle.grid.digits
        self.spend(_BUILDING * size)
        most = min(most, self.left)
        affordable = max(int(most / (_SHOWING * size)), 2)
        work = max(most / _SOLVING, _LEAST_WORK)
        return min(limit, affordable), WorkAllowance(work=work, seconds=self.seconds)

    def _spend_on_count(self, puzzle: Puzzle, tally: Tally) -> None:
        self.spend_work(tally.spent)
        self.left -= _SHOWING * (puzzle.grid.cell_count * puzzle.grid.digits) * tally.count

    @property
    def work(self) -> float:
        """What is left, in the deterministic units of the solver."""
        return max(self.left / _SOLVING, _LEAST_WORK)

    def spend_work(self, work: float) -> None:
        """Spend what work of the solver has cost, in its deterministic units."""
        self.left -= _SOLVING * work

    def affords(self, cost: float) -> bool:
        """Spend on something that can be left out, if there is enough left for it."""
        enough = cost <= self.left and cost <= self.seconds
        self.left -= cost if enough else 0
        return enough

    @contextmanager
    def share(self, part: float) -> Iterator[SearchBudget]:
        """Lend a part of what is left for one purpose; what is not spent of it comes back."""
        lent = SearchBudget(part * self.left)
        lent.deadline = self.deadline
        before = lent.left
        try:
            yield lent
        finally:
            self.left -= before - lent.left

    def spend(self, cost: float) -> None:
        """Spend on something before it is done.

        Raises
        ------
        OutOfBudgetError
            If nothing is left, or the clock has run out.
        """
        if self.left <= 0 or time.monotonic() > self.deadline:
            raise OutOfBudgetError
        self.left -= cost

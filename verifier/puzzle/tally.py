"""What a counting witness reports: the solutions it found, and why it stopped looking."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from verifier.puzzle.grid import Filling

__all__ = ["Stop", "Tally"]


class Stop(Enum):
    """Why a witness stopped looking for solutions."""

    FINISHED = "finished"
    """It has searched everything: there are no other solutions."""
    ASKED = "asked"
    """It has found as many as it was asked for; there may be more."""
    BUDGET = "budget"
    """Its budget of work ran out: the same on every machine."""
    CLOCK = "clock"
    """The wall clock or a memory limit ended it: another run may get further."""
    ENDED = "ended"
    """Whoever asked has ended it: what it would have said is unknown."""
    REFUSED = "refused"
    """It reported a filling that breaks a rule. That is a defect of the witness: nothing it says about
    having searched everything can be trusted, so a verdict is `undecided` (`witnesses-disagree`)."""


@dataclass(frozen=True, slots=True)
class Tally:
    """The solutions one witness found.

    Parameters
    ----------
    witness : str
        Its name as the verdict prints it, such as ``cp-sat``.
    solutions : tuple of Filling
        Distinct, smallest first.
    stop : Stop
        Why it stopped.
    refused : Filling or None
        The filling that broke a rule and was not counted, when `stop` is `Stop.REFUSED`.
    spent : float
        The work it took, in the units of the witness: deterministic units of CP-SAT, dead ends of clingo,
        rounds of a replay.

    Examples
    --------
    >>> tally = Tally("cp-sat", ((1, 2, 2, 1), (2, 1, 2, 1)), Stop.ASKED)
    >>> tally.count, tally.complete, tally.only_solution, tally.swing_cells
    (2, False, None, (0, 1))
    """

    witness: str
    solutions: tuple[Filling, ...]
    stop: Stop
    refused: Filling | None = None
    spent: float = 0.0

    @property
    def count(self) -> int:
        """How many solutions were found: all there are when `complete`, else at least so many."""
        return len(self.solutions)

    @property
    def complete(self) -> bool:
        """Whether the search was finished, so that `count` is the exact number."""
        return self.stop is Stop.FINISHED

    @property
    def only_solution(self) -> Filling | None:
        """The solution, where the search was finished and found one; else None."""
        return self.solutions[0] if self.complete and self.count == 1 else None

    @property
    def swing_cells(self) -> tuple[int, ...]:
        """The cells that differ between the solutions found, in reading order."""
        return tuple(c for c, digits in enumerate(zip(*self.solutions, strict=True)) if len(set(digits)) > 1)

"""What each witness says, heard with care: a grid that breaks a rule, or a claim without one, is trouble."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.evidence import wording
from verifier.evidence.witnesses import Count, Replayer, WitnessFailedError
from verifier.puzzle.breaches import breaches, solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop

if TYPE_CHECKING:
    from grader.grading.replay import Replay

__all__ = [
    "ARITHMETIC",
    "COUNT",
    "RECHECK",
    "RECOUNT",
    "REPLAY",
    "Statement",
    "WitnessSays",
    "hear_count",
    "hear_file",
    "hear_replay",
]

ARITHMETIC, COUNT, RECOUNT, REPLAY, RECHECK = "arithmetic", "cp-sat", "clingo", "replay", "re-check"
"""The names of the witnesses, as a verdict prints them."""

_FILE = "the solution in the file"

_LEAST_SECONDS = 0.1  # a witness that is heard late still gets to say something


@dataclass(frozen=True, slots=True)
class WitnessSays:
    """What one witness says the number of solutions is.

    Parameters
    ----------
    name : str
        Such as ``cp-sat``, ``replay``, ``clingo``, ``arithmetic``, or ``re-check``: the grids found, held
        against the rules in plain Python.
    says : int or None
        The number of solutions it vouches for; None where it failed or came to no end.
    """

    name: str
    says: int | None


@dataclass(frozen=True, slots=True)
class Statement:
    """What one witness said, after its grids were held against the rules.

    Parameters
    ----------
    witness : str
        Its name.
    solutions : tuple of Filling
        The distinct grids it showed; each obeys every rule, or there is `trouble`.
    stop : Stop
        Why it stopped; `Stop.FINISHED` claims that there are no others.
    trouble : str
        Why nothing it says can be trusted, in words; empty if it can.
    vouches : bool
        Whether it counts as a witness. A replay that needed trial, and the file's own solution, do not:
        they can only contradict.
    """

    witness: str
    solutions: tuple[Filling, ...]
    stop: Stop
    trouble: str = ""
    vouches: bool = True

    @property
    def finished(self) -> bool:
        """Whether it claims to have searched everything, and can be believed."""
        return self.stop is Stop.FINISHED and not self.trouble

    @property
    def cut(self) -> bool:
        """Whether the clock or the memory ended it: another run may hear more."""
        return self.stop is Stop.CLOCK

    @property
    def for_verdict(self) -> WitnessSays:
        """What the verdict prints of it."""
        return WitnessSays(self.witness, len(self.solutions) if self.finished else None)

    @property
    def told(self) -> str:
        """What it found, as part of a sentence about a disagreement."""
        if self.trouble:
            return self.trouble
        if self.witness == _FILE:
            return wording.file_obeys()
        by_trial = self.finished and not self.vouches
        return wording.finding(self.witness, len(self.solutions), complete=self.finished, by_trial=by_trial)


def hear_file(puzzle: Puzzle) -> Statement | None:
    """Return what the file's own solution says: that it is one, if it obeys every rule; else None."""
    if puzzle.solution is None or not solves(puzzle, puzzle.solution):
        return None
    return Statement(_FILE, (puzzle.solution,), Stop.ASKED, vouches=False)


def hear_count(name: str, puzzle: Puzzle, limit: int, count: Count, deadline: float) -> Statement:
    """Return what a counting witness says, its grids counted as distinct ones that obey every rule.

    Parameters
    ----------
    name : str
        The name it goes by in the verdict.
    puzzle : Puzzle
        The puzzle.
    limit : int
        How many solutions it is asked for.
    count : callable
        The witness.
    deadline : float
        Guard, on the clock of `time.monotonic`.
    """
    try:
        tally = count(puzzle, limit, _left(deadline))
    except WitnessFailedError as error:
        return _failed(name, error)
    except MemoryError:
        return Statement(name, (), Stop.CLOCK)
    distinct = tuple(sorted(set(tally.solutions)))
    wrong = next((filling for filling in distinct if not solves(puzzle, filling)), tally.refused)
    if wrong is not None or tally.stop is Stop.REFUSED:
        return _wrong(name, puzzle, wrong)
    if tally.stop is Stop.ASKED and len(distinct) < limit:
        return Statement(name, distinct, Stop.REFUSED, wording.false_claim(name))
    return Statement(name, distinct, tally.stop)


def hear_replay(
    puzzle: Puzzle, trial: bool, replayer: Replayer, deadline: float
) -> tuple[Replay | None, Statement]:
    """Return the replay, and what it says about the number of solutions.

    Only a replay that came to its end by logic counts as a witness.
    """
    from grader.grading.replay import Outcome

    try:
        played = replayer(puzzle, trial, _left(deadline))
    except WitnessFailedError as error:
        return None, _failed(REPLAY, error)
    except MemoryError:
        return None, Statement(REPLAY, (), Stop.CLOCK, vouches=False)
    if played.outcome is Outcome.STUCK:
        return played, Statement(REPLAY, (), Stop.BUDGET, vouches=False)
    if played.outcome is Outcome.CLOCK:
        return played, Statement(REPLAY, (), Stop.CLOCK, vouches=False)
    if played.outcome is Outcome.CONTRADICTION:
        return played, Statement(REPLAY, (), Stop.FINISHED, vouches=played.by_logic)
    if played.filling is None or not solves(puzzle, played.filling):
        return played, _wrong(REPLAY, puzzle, played.filling)
    return played, Statement(REPLAY, (played.filling,), Stop.FINISHED, vouches=played.by_logic)


def _failed(name: str, error: WitnessFailedError) -> Statement:
    return Statement(name, (), Stop.REFUSED, wording.failed(name, str(error)))


def _wrong(name: str, puzzle: Puzzle, filling: Filling | None) -> Statement:
    breach = next(breaches(puzzle, filling), None) if filling is not None else None
    return Statement(name, (), Stop.REFUSED, wording.wrong_grid(name, puzzle.grid, breach))


def _left(deadline: float) -> float:
    return max(deadline - time.monotonic(), _LEAST_SECONDS)

"""What each witness says when it is asked: a grid that breaks a rule, or a claim without one, is trouble."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.evidence import wording
from verifier.evidence.witnesses import Count, Replayer, WitnessFailedError
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.breaches import breaches, solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

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
    "ask_count",
    "ask_file",
    "ask_replay",
]

ARITHMETIC, COUNT, RECOUNT, REPLAY, RECHECK = "arithmetic", "cp-sat", "clingo", "replay", "re-check"
"""The names of the witnesses, as a verdict prints them."""

_FILE = "the solution in the file"


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
class Statement(Tally):
    """What one witness said, after its grids were held against the rules.

    Its `solutions` obey every rule, or there is `trouble`; where there is, `stop` is `Stop.REFUSED`.

    Parameters
    ----------
    trouble : str
        Why nothing it says can be trusted, in words; empty if it can.
    vouches : bool
        Whether it counts as a witness. A replay that needed trial, and the file's own solution, do not:
        they can only contradict.
    replay : Replay or None
        The replay that says so: whoever waits for the grade has it here.
    """

    trouble: str = ""
    vouches: bool = True
    replay: Replay | None = None

    @property
    def proves(self) -> bool:
        """Whether it vouches that it has searched everything."""
        return self.vouches and self.complete

    @property
    def cut(self) -> bool:
        """Whether the clock, the memory or the caller ended it: another run may find more."""
        return self.stop in (Stop.CLOCK, Stop.ENDED)

    @property
    def for_verdict(self) -> WitnessSays:
        """What the verdict prints of it."""
        return WitnessSays(self.witness, self.count if self.complete else None)

    @property
    def told(self) -> str:
        """What it found, as part of a sentence about a disagreement."""
        if self.trouble:
            return self.trouble
        if self.witness == _FILE:
            return wording.FILE_OBEYS
        by_trial = self.complete and not self.vouches
        return wording.found_by(self.witness, self.count, complete=self.complete, by_trial=by_trial)


def ask_file(puzzle: Puzzle) -> Statement | None:
    """Return what the file's own solution says: that it is one, if it obeys every rule; else None."""
    if puzzle.solution is None or not solves(puzzle, puzzle.solution):
        return None
    return Statement(_FILE, (puzzle.solution,), Stop.ASKED, vouches=False)


def ask_count(name: str, count: Count, puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Statement:
    """Return what a counting witness says, its grids counted as distinct ones that obey every rule.

    Parameters
    ----------
    name : str
        The name it goes by in the verdict.
    count : callable
        The witness.
    puzzle : Puzzle
        The puzzle.
    limit : int
        How many solutions it is asked for.
    allowance : WorkAllowance
        What it may take.
    """
    if allowance.is_ended:
        return Statement(name, (), Stop.ENDED)
    try:
        tally = count(puzzle, limit, allowance)
    except WitnessFailedError as error:
        return _failed(name, error)
    except MemoryError:
        return Statement(name, (), Stop.CLOCK)
    distinct = tuple(sorted(set(tally.solutions)))
    wrong = next((filling for filling in distinct if not solves(puzzle, filling)), tally.refused)
    if wrong is not None or tally.stop is Stop.REFUSED:
        return _wrong(name, puzzle, wrong, tally.spent)
    if tally.stop is Stop.ASKED and len(distinct) < limit:
        return Statement(name, distinct, Stop.REFUSED, spent=tally.spent, trouble=wording.false_claim(name))
    return Statement(name, distinct, tally.stop, spent=tally.spent)


def ask_replay(replayer: Replayer, puzzle: Puzzle, trial: bool, allowance: WorkAllowance) -> Statement:
    """Return what the replay says; only one that came to its end by logic counts as a witness."""
    from grader.grading.replay import Outcome

    if allowance.is_ended:
        return Statement(REPLAY, (), Stop.ENDED, vouches=False)
    try:
        played = replayer(puzzle, trial, allowance)
    except WitnessFailedError as error:
        return _failed(REPLAY, error)
    except MemoryError:
        return Statement(REPLAY, (), Stop.CLOCK, vouches=False)
    spent = float(len(played.rounds))
    if played.outcome is Outcome.SOLVED and (played.filling is None or not solves(puzzle, played.filling)):
        return _wrong(REPLAY, puzzle, played.filling, spent)
    solutions = (played.filling,) if played.outcome is Outcome.SOLVED and played.filling else ()
    stop = {
        Outcome.SOLVED: Stop.FINISHED,
        Outcome.CONTRADICTION: Stop.FINISHED,
        Outcome.STUCK: Stop.BUDGET,
        Outcome.CLOCK: Stop.ENDED if allowance.is_ended else Stop.CLOCK,
    }[played.outcome]
    vouches = stop is Stop.FINISHED and played.by_logic
    return Statement(REPLAY, solutions, stop, spent=spent, vouches=vouches, replay=played)


def _failed(name: str, error: WitnessFailedError) -> Statement:
    return Statement(name, (), Stop.REFUSED, trouble=wording.failed(name, str(error)))


def _wrong(name: str, puzzle: Puzzle, filling: Filling | None, spent: float) -> Statement:
    breach = next(breaches(puzzle, filling), None) if filling is not None else None
    trouble = wording.wrong_grid(name, puzzle.grid, breach)
    return Statement(name, (), Stop.REFUSED, spent=spent, trouble=trouble)

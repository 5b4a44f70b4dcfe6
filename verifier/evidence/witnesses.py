"""The witnesses, as functions that can be replaced one by one.

The real ones are imported when they are first asked: a module that is merely read in costs no solver. Tests
put lying witnesses in their place.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

if TYPE_CHECKING:
    from grader.grading.replay import Replay

__all__ = ["Count", "Replayer", "WitnessFailedError", "Witnesses", "load_solvers"]

Count = Callable[[Puzzle, int, WorkAllowance], Tally]
"""Counts the solutions of a puzzle, up to a limit, within what it is allowed."""

Replayer = Callable[[Puzzle, bool, WorkAllowance], "Replay"]
"""Works a puzzle through, with or without trial, within what it is allowed."""


class WitnessFailedError(Exception):
    """A witness could not do its work: its solver gave an error. What it would have said is unknown."""


@dataclass(frozen=True, slots=True)
class Witnesses:
    """Who is asked about a puzzle.

    Parameters
    ----------
    count : callable
        ``count(puzzle, limit, allowance)`` returns a `Tally`; asked first.
    replay : callable
        ``replay(puzzle, trial, allowance)`` returns a `Replay`; the second witness where it ends by logic.
    recount : callable
        ``recount(puzzle, limit, allowance)`` returns a `Tally`; the second witness elsewhere.

    Notes
    -----
    Each may raise `WitnessFailedError`, which leaves the puzzle undecided. Any other exception is a
    bug and is not caught.
    """

    count: Count
    replay: Replayer
    recount: Count

    @classmethod
    def real(cls) -> Witnesses:
        """Return the witnesses that the program ships with."""
        return cls(_count, _replay, _recount)


def load_solvers() -> None:
    """Import the solvers now, for whoever does not want the first puzzle to wait for it."""
    import verifier.counting.count
    import verifier.recount.recount  # noqa: F401


def _count(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
    from verifier.counting.count import count_solutions

    with _solver_errors_told():
        return count_solutions(puzzle, limit, allowance)


def _replay(puzzle: Puzzle, trial: bool, allowance: WorkAllowance) -> Replay:
    from grader.grading.replay import replay
    from grader.ladder import LADDER

    only = allowance.techniques
    return replay(
        puzzle,
        trial=trial,
        deadline=time.monotonic() + allowance.seconds,
        ended=allowance.ended,
        ladder=LADDER if only is None else [technique for technique in LADDER if technique.id in only],
    )


def _recount(puzzle: Puzzle, limit: int, allowance: WorkAllowance) -> Tally:
    from verifier.recount.recount import recount_solutions

    with _solver_errors_told():
        return recount_solutions(puzzle, limit, allowance)


@contextmanager
def _solver_errors_told() -> Iterator[None]:
    """Turn the error of a solver into the failure of its witness."""
    try:
        yield
    except (RecursionError, NotImplementedError):  # of the same class, and bugs of ours
        raise
    except RuntimeError as error:
        raise WitnessFailedError(str(error)) from error

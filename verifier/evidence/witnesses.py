"""The witnesses of a verdict, as functions that can be replaced one by one.

The real ones are imported when they are first called: a verdict module that is merely read in costs no
solver. Tests put lying witnesses in their place.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

if TYPE_CHECKING:
    from grader.grading.replay import Replay

__all__ = ["Count", "Replayer", "WitnessFailedError", "Witnesses"]

Count = Callable[[Puzzle, int, float], Tally]
"""Counts the solutions of a puzzle, up to a limit, within so many seconds."""

Replayer = Callable[[Puzzle, bool, float], "Replay"]
"""Works a puzzle through, with or without trial, within so many seconds."""


class WitnessFailedError(Exception):
    """A witness could not do its work: its solver gave an error. What it would have said is unknown."""


@dataclass(frozen=True, slots=True)
class Witnesses:
    """Who is heard about a puzzle.

    Parameters
    ----------
    count : callable
        ``count(puzzle, limit, seconds)`` returns a `Tally`; heard first.
    replay : callable
        ``replay(puzzle, trial, seconds)`` returns a `Replay`; the second witness where it ends by logic.
    recount : callable
        ``recount(puzzle, limit, seconds)`` returns a `Tally`; the second witness elsewhere.

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


def _count(puzzle: Puzzle, limit: int, seconds: float) -> Tally:
    from verifier.counting.count import Budget, count_solutions

    with _solver_errors_told():
        return count_solutions(puzzle, limit, Budget(seconds=seconds))


def _replay(puzzle: Puzzle, trial: bool, seconds: float) -> Replay:
    from grader.grading.replay import replay

    return replay(puzzle, trial=trial, deadline=time.monotonic() + seconds)


def _recount(puzzle: Puzzle, limit: int, seconds: float) -> Tally:
    from verifier.recount.recount import Budget, recount_solutions

    with _solver_errors_told():
        return recount_solutions(puzzle, limit, Budget(seconds=seconds))


@contextmanager
def _solver_errors_told() -> Iterator[None]:
    """Turn the error of a solver into the failure of its witness."""
    try:
        yield
    except (RecursionError, NotImplementedError):  # of the same class, and bugs of ours
        raise
    except RuntimeError as error:
        raise WitnessFailedError(str(error)) from error

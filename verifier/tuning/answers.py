"""What comes of a wish: puzzles with the verdicts on them, and how the search went."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import Enum

from verifier.diagnosis.repairs.changes import Change
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.wish import Gap, Wish, gaps
from verifier.verdict.judge import Settings, judge
from verifier.verdict.verdict import Verdict, VerdictState
from verifier.walkthrough.work import work_through

__all__ = ["Ending", "JudgingTask", "Tuning", "TuningAnswer", "answer_to", "walked"]


@dataclass(frozen=True, slots=True)
class TuningAnswer:
    """A puzzle some changes away, and what it is like.

    Parameters
    ----------
    changes : tuple of Change
        To be made in order; none for the puzzle as it was set.
    puzzle : Puzzle
        What they leave.
    verdict : Verdict
        The ordinary verdict on it.
    gaps : tuple of Gap
        The parts of the wish that it does not meet.
    narrow : mapping of int to str
        The steps of its walk at which people get stuck, and what is said there.
    """

    changes: tuple[Change, ...]
    puzzle: Puzzle
    verdict: Verdict
    gaps: tuple[Gap, ...]
    narrow: Mapping[int, str] = field(default_factory=dict)

    @property
    def fits(self) -> bool:
        """Whether it is accepted, and is all that was wished for."""
        return self.verdict.state is VerdictState.ACCEPTED and not self.gaps


class Ending(Enum):
    """Why a search ended."""

    ALREADY = "already"
    """The puzzle is all that was wished for as it stands."""
    ENOUGH = "enough"
    """It found as many puzzles as are offered, or all that few changes make."""
    ALL_TRIED = "all-tried"
    """There was no more to try within its limits."""
    TIME = "time"
    """The time was up; another run may find more."""
    STOPPED = "stopped"
    """Ctrl-C."""


@dataclass(frozen=True, slots=True)
class Tuning:
    """What a search towards a wish came to.

    Parameters
    ----------
    wish : Wish
        What was wished for.
    before : TuningAnswer
        The puzzle as it was set.
    answers : tuple of TuningAnswer
        Those that meet the wish, the best first.
    nearest : tuple of TuningAnswer
        Where there are none: those that come nearest.
    tried, kept : int
        Candidates that were looked at, and those of them that still had one solution.
    ending : Ending
        Why the search ended.
    """

    wish: Wish
    before: TuningAnswer
    answers: tuple[TuningAnswer, ...]
    nearest: tuple[TuningAnswer, ...]
    tried: int
    kept: int
    ending: Ending


@dataclass(frozen=True, slots=True)
class JudgingTask:
    """What it takes to judge one puzzle, in whatever process.

    Parameters
    ----------
    changes, puzzle
        As in `TuningAnswer`.
    wish : Wish
        What it is held against; its house style is that of the verdict.
    until : float
        When the time is up, on the clock of `time.time`.
    """

    changes: tuple[Change, ...]
    puzzle: Puzzle
    wish: Wish
    until: float


_LEAST_SECONDS, _SECONDS_FOR_A_WALK = 0.1, 30.0


def answer_to(task: JudgingTask) -> TuningAnswer:
    """Judge a puzzle; how it is walked through is another question (`walked`)."""
    verdict = judge(
        task.puzzle, task.wish.style, Settings(seconds=max(task.until - time.time(), _LEAST_SECONDS))
    )
    return TuningAnswer(task.changes, task.puzzle, verdict, gaps(task.wish, task.puzzle, verdict.difficulty))


def walked(answer: TuningAnswer) -> TuningAnswer:
    """Return an answer with the narrow places of its walk, where it is sound."""
    if answer.verdict.difficulty is None:
        return answer
    return replace(answer, narrow=work_through(answer.puzzle, seconds=_SECONDS_FOR_A_WALK).narrow)

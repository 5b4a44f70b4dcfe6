"""The parts of a verdict, each timed by itself on one puzzle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grader.grading.grade import grade
from grader.grading.replay import Outcome, replay
from scripts.timing.series import Stopwatch
from scripts.timing.textbook import textbook_count
from verifier.counting.count import count_solutions
from verifier.counting.model import build_model
from verifier.files.reading import read_text
from verifier.puzzle.breaches import solves
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given
from verifier.recount.recount import recount_solutions
from verifier.verdict.judge import judge
from verifier.verdict.report import write_verdict

__all__ = [
    "PARTS",
    "TEXTBOOK",
    "_GOALS_OF_RULES",
    "Case",
    "DifferentCountError",
    "goals_for",
    "seconds_by_part",
]

TEXTBOOK = "textbook count"
COUNT, BUILD, SEARCH = "count", "  build the model", "  search and re-check"
REPLAY_AND_GRADE, REPLAY, GRADE = "replay and grade", "  replay", "  grade"
REST, READING, CHECKS = "all else", "  reading", "  arithmetic, re-check"
SECOND, WRITING = "  recount, where the replay is no witness", "  writing"
WHOLE, RECOUNT = "whole: read, judge, write", "recount, of every puzzle"

PARTS = (
    TEXTBOOK,
    *(COUNT, BUILD, SEARCH),
    *(REPLAY_AND_GRADE, REPLAY, GRADE),
    *(REST, READING, CHECKS, SECOND, WRITING),
    *(WHOLE, RECOUNT),
)
"""In the order of the table; those that begin with a space are part of the last one that does not."""

_GOALS = {COUNT: 0.35, REPLAY_AND_GRADE: 0.35, REST: 0.15, WHOLE: 0.85}
"""What the mean may be of the mean textbook count, over killers with one solution."""

_GOALS_OF_RULES = {WHOLE: 1.0}
"""The same, over puzzles that have rules beyond house and cage."""


class DifferentCountError(Exception):
    """The count is not what the textbook count says."""


@dataclass(frozen=True)
class Case:
    """A puzzle, and the file that it is read from."""

    puzzle: Puzzle
    file: bytes


def goals_for(puzzles: Sequence[Puzzle]) -> Mapping[str, float]:
    """Return the goals that were set for puzzles of their kind; none for classics."""
    if any(set(puzzle.kinds_of_rules) - {Cage.word, Given.word} for puzzle in puzzles):
        return _GOALS_OF_RULES
    return _GOALS if puzzles[0].cages else {}


def seconds_by_part(case: Case) -> dict[str, float]:
    """Return the seconds that each part takes; a part that a verdict would leave out is left out.

    Raises
    ------
    DifferentCountError
        If the count and the yardstick disagree: then no figure is worth anything.
    """
    watch, puzzle = Stopwatch(), case.puzzle
    expected = watch.take(TEXTBOOK, lambda: textbook_count(puzzle))
    watch.take(BUILD, lambda: build_model(puzzle))
    tally = watch.take(COUNT, lambda: count_solutions(puzzle))
    if tally.count != expected:
        message = f"{puzzle.credits.id}: counted {tally.count}, the textbook count says {expected}"
        raise DifferentCountError(message)
    watch.seconds[SEARCH] = watch.seconds[COUNT] - watch.seconds[BUILD]
    watch.take(RECOUNT, lambda: recount_solutions(puzzle))
    if tally.count < 2 and not _replayed(watch, puzzle, trial=tally.count == 1):
        watch.seconds[SECOND] = watch.seconds[RECOUNT]
    watch.take(READING, lambda: list(read_text(case.file, "case.yaml")))
    watch.take(CHECKS, lambda: (arithmetic_checks(puzzle), [solves(puzzle, s) for s in tally.solutions]))
    verdict = judge(puzzle)
    watch.take(WRITING, lambda: write_verdict(verdict))
    watch.take(WHOLE, lambda: _whole(case))
    watch.add_up(REPLAY_AND_GRADE, REPLAY, GRADE)
    watch.add_up(REST, READING, CHECKS, SECOND, WRITING)
    return watch.seconds


def _replayed(watch: Stopwatch, puzzle: Puzzle, *, trial: bool) -> bool:
    """Replay and grade as a verdict does; say whether the replay is a witness."""
    played = watch.take(REPLAY, lambda: replay(puzzle, trial=trial))
    if played.outcome is Outcome.SOLVED:
        watch.take(GRADE, lambda: grade(played))
    return played.by_logic and played.outcome in (Outcome.SOLVED, Outcome.CONTRADICTION)


def _whole(case: Case) -> list[str]:
    return [write_verdict(judge(entry.puzzle)) for entry in read_text(case.file, "case.yaml") if entry.puzzle]

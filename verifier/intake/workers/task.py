"""What is done with one puzzle, wherever it is done: read, judge, find what it looks like."""

from __future__ import annotations

import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, TypeAlias

from verifier.files.faults import Fault
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.reading import ReadEntry, read_submission
from verifier.files.submissions import Submission
from verifier.intake.workers.shortage import shortage_in
from verifier.likeness.guises import Likeness
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.judge import DEFAULT_SETTINGS, Settings, identity_of, judge
from verifier.verdict.report import write_verdict
from verifier.verdict.style.style import PLAIN, HouseStyle
from verifier.verdict.verdict import Identity, Verdict

if TYPE_CHECKING:
    from verifier.diagnosis.repairs.mends import Mend

__all__ = ["REPAIR_SECONDS", "Judged", "RunSettings", "Said", "Task", "judge_entry", "work"]

REPAIR_SECONDS = 6.0
"""What the search for repairs of one puzzle may take, in the units of `diagnose`: roughly seconds."""

_MOST_REPAIRS = 3


@dataclass(frozen=True, slots=True)
class RunSettings:
    """How all puzzles of a run are judged.

    Parameters
    ----------
    style, judging
        See `verifier.verdict.judge.judge`. Other witnesses than the real ones must be functions that
        another process can import.
    limits : Limits
        How much of a file to take.
    """

    style: HouseStyle = PLAIN
    judging: Settings = DEFAULT_SETTINGS
    limits: Limits = DEFAULT_LIMITS


@dataclass(frozen=True, slots=True)
class Task:
    """One puzzle, and what is wanted.

    Parameters
    ----------
    sent : Submission or ReadEntry
        The puzzle, read already or not.
    verdict : bool
        Whether the verdict is wanted.
    likeness : bool
        Whether to find what the puzzle looks like, for the search for duplicates.
    repairs : bool
        Whether to look for what puts a broken puzzle right.
    """

    sent: Submission | ReadEntry
    verdict: bool = True
    likeness: bool = False
    repairs: bool = False


@dataclass(frozen=True, slots=True)
class Judged:
    """What became of one puzzle: faults, or a verdict, or a bug of ours.

    Parameters
    ----------
    address : str
        Its address.
    faults : tuple of Fault
        Why it could not be read.
    verdict : Verdict or None
        The verdict, if it could be read.
    text : str
        The verdict as YAML.
    trace : str
        What Python says about a bug of ours; there is no verdict then.
    puzzle : Identity or None
        Which puzzle it is, where it could be read.
    likeness : Likeness or None
        What it looks like, where that was wanted and found.
    repairs : tuple of str or None
        What puts it right, in words, the likeliest first; None where that was not looked for to the end.
    seconds : float
        How long the judging took; not part of what became of it.
    tries : int
        How many processes were at it; more than one where one was ended or died.
    """

    address: str
    faults: tuple[Fault, ...] = ()
    verdict: Verdict | None = None
    text: str = ""
    trace: str = ""
    puzzle: Identity | None = field(default=None, compare=False)
    likeness: Likeness | None = None
    repairs: tuple[str, ...] | None = None
    seconds: float = field(default=0.0, compare=False)
    tries: int = field(default=1, compare=False)


Said: TypeAlias = Identity | Judged | Likeness
"""What a worker says of a task, one after the other, as far as it comes."""


def work(task: Task, settings: RunSettings) -> Iterator[Said]:
    """Do a task, and say at each stage what is known.

    Yields
    ------
    Identity, then Judged, then Likeness twice
        Which puzzle it is, as soon as it is read: should the judging end the process, that is known. Then
        what became of it, or the repairs that were found; the last word where no likeness is wanted, or there
        is no puzzle. Then what the puzzle looks like: at once what is found at once, then all.
    """
    try:
        sent = task.sent
        entry = sent if isinstance(sent, ReadEntry) else read_submission(sent, settings.limits)
    except Exception as error:
        yield Judged(task.sent.address, trace=_trace_of(error))
        return
    if entry.puzzle is None:
        yield Judged(entry.address, entry.faults)
        return
    yield identity_of(entry.puzzle)
    if task.verdict:
        judged = judge_entry(entry, settings.style, settings.judging)
    else:
        judged = Judged(
            entry.address, repairs=_repairs(entry.puzzle, settings.style) if task.repairs else None
        )
    yield judged
    if task.likeness:
        yield from _likeness(entry.puzzle, judged.verdict)


def judge_entry(entry: ReadEntry, style: HouseStyle = PLAIN, settings: Settings = DEFAULT_SETTINGS) -> Judged:
    """Judge one entry in this process. A bug of ours is told in `Judged.trace`, so that others go on."""
    if entry.puzzle is None:
        return Judged(entry.address, entry.faults)
    started = time.monotonic()
    try:
        verdict = judge(entry.puzzle, style, settings)
        text = write_verdict(verdict)
    except Exception as error:
        return Judged(entry.address, trace=_trace_of(error), puzzle=identity_of(entry.puzzle))
    seconds = time.monotonic() - started
    return Judged(entry.address, verdict=verdict, text=text, puzzle=verdict.puzzle, seconds=seconds)


def _trace_of(error: Exception) -> str:
    """Return what Python says about a bug; an error that is none of ours is raised again."""
    if shortage_in(error) is not None:  # the machine, or whoever looks after it, gave us too little
        raise error
    return "".join(traceback.format_exception(error))


def _repairs(puzzle: Puzzle, style: HouseStyle) -> tuple[str, ...] | None:
    """Return the likeliest repairs in words; none is a loss, but no more: a mistake of ours costs those."""
    from verifier.diagnosis import wording
    from verifier.diagnosis.diagnose import diagnose

    try:
        found = diagnose(puzzle, REPAIR_SECONDS)
        mends = [_graded_by(style, puzzle, mend) for mend in found.mends[:_MOST_REPAIRS]]
    except Exception as error:
        _trace_of(error)
        return None
    return tuple(wording.mend(puzzle.grid, mend) for mend in mends)


def _graded_by(style: HouseStyle, puzzle: Puzzle, mend: Mend) -> Mend:
    """Return a repair with the tier that the house gives the mended puzzle."""
    from verifier.diagnosis.repairs.changes import changed

    if not style.tier_names and style.tier_table is None:
        return mend
    graded = judge(changed(puzzle, mend.changes), replace(style, stop_beyond_tiers=False)).difficulty
    if graded is None or graded.tier is None or graded.name is None:
        return mend
    return replace(mend, proof=replace(mend.proof, tier=graded.tier, tier_name=graded.name))


def _likeness(puzzle: Puzzle, verdict: Verdict | None) -> Iterator[Likeness]:
    from verifier.likeness.repeats import in_disguise, likeness_of
    from verifier.likeness.solution import only_solution

    likeness = likeness_of(puzzle)
    yield likeness
    solution = only_solution(puzzle) if verdict is None else verdict.solutions.filling
    yield in_disguise(likeness, puzzle, solution)

"""What a run is asked to do, and how it went."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from verifier.intake.ledger.corrections import Correction
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.letters.writing import LetterSettings
from verifier.intake.limits import WorkerLimits
from verifier.intake.papers.duplicates import Repeats
from verifier.intake.papers.report import Counts
from verifier.intake.workers.task import RunSettings

__all__ = ["RunOutcome", "RunPlan", "RunSummary"]


@dataclass(frozen=True, slots=True)
class RunPlan:
    """What is judged, how, by whom, and where everything goes.

    Parameters
    ----------
    sources : tuple of str
        What was named: what lay below it and is not there any more is gone.
    out : Path or None
        The folder for verdict files, letters and lists; None for none.
    ledger : Path
        Its file.
    settings, limits
        How puzzles are judged, and what one may cost.
    jobs, cluster
        How many processes, or the address of a cluster.
    duplicates : bool
        Whether to find what the puzzles look like.
    printed : tuple of str
        The folders of printed puzzles.
    letters : LetterSettings
        How letters to setters are written.
    """

    sources: tuple[str, ...]
    out: Path | None
    ledger: Path
    settings: RunSettings
    limits: WorkerLimits
    jobs: int
    cluster: str | None = None
    duplicates: bool = True
    printed: tuple[str, ...] = ()
    letters: LetterSettings = field(default_factory=LetterSettings)


@dataclass(frozen=True, slots=True)
class RunSummary:
    """How a run went, and what the ledger holds at its end.

    Parameters
    ----------
    outcome : RunOutcome
        Of the run.
    counts : Counts
        Over the whole ledger.
    repeats : Repeats
        What came twice; nothing of a run that was stopped.
    compared : list of (str, str, int)
        See `verifier.intake.papers.report.compared_with`.
    printed_unread : tuple of str
        The addresses of those that could not be read.
    """

    outcome: RunOutcome
    counts: Counts
    repeats: Repeats
    compared: list[tuple[str, str, int]]
    printed_unread: tuple[str, ...]


@dataclass(slots=True)
class RunOutcome:
    """How a run went, so far.

    Attributes
    ----------
    states : Counter of str
        How many submissions of the box are in which state.
    judged : Counter of JudgingReason
        How many were judged in this run, by why.
    changes : list of (str, str, str)
        What has changed since earlier verdicts were made: what, before, now.
    traces : list of (str, str)
        Address and trace of the first mistakes of ours.
    printed : int
        How many printed puzzles there are to compare with.
    gone : int
        How many that were known are no longer where they were, and count no more.
    corrections : list of Correction
        What replaced an earlier one.
    claims : list of Correction
        What seems to correct an earlier one that stays.
    letters : list of Path
        The letters that were written.
    stopped : bool
        Whether the run was asked to stop before its end.
    """

    states: Counter[str] = field(default_factory=Counter)
    judged: Counter[JudgingReason] = field(default_factory=Counter)
    changes: list[tuple[str, str, str]] = field(default_factory=list)
    traces: list[tuple[str, str]] = field(default_factory=list)
    printed: int = 0
    gone: int = 0
    corrections: list[Correction] = field(default_factory=list)
    claims: list[Correction] = field(default_factory=list)
    letters: list[Path] = field(default_factory=list)
    stopped: bool = False

    @property
    def total(self) -> int:
        """How many submissions were in the box that count."""
        return self.states.total()

"""Carrying out a run of the intake: workers, Ctrl-C, progress, and what is said at the end."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType

from verifier.cli import wording
from verifier.cli.boxes.pages import ListPage
from verifier.cli.boxes.progress import Pace, progress_shown
from verifier.cli.telling.console import keep_trace, refuse, say, show
from verifier.cli.telling.exits import Exit, worst
from verifier.files.submissions import Submission
from verifier.intake.ledger.ledger import Ledger, LedgerError, new_or_existing_ledger
from verifier.intake.ledger.makers import makers_of
from verifier.intake.limits import WorkerLimits
from verifier.intake.papers.duplicates import Repeats, count_repeats
from verifier.intake.papers.files import CannotWriteError
from verifier.intake.papers.papers import write_papers
from verifier.intake.papers.report import counts_of, printed_known, printed_unread
from verifier.intake.papers.verdict_files import AnotherLedgerError, VerdictFiles, owner_of
from verifier.intake.run import Intake, RunOutcome
from verifier.intake.sources.listing import ENDINGS
from verifier.intake.sources.sources import Box, Found
from verifier.intake.wording import (
    FINISHING,
    NO_CLUSTER_LIBRARY,
    STOPPED_AT_ONCE,
    counts_told,
    folder_of_another_ledger,
    go_on,
    judged_why,
    ledger_unusable,
    no_cluster,
    not_in_the_box,
    own_passed_over,
    passed_over,
    printed_before,
)
from verifier.intake.workers.judging import cores
from verifier.intake.workers.pool import LocalPool, WorkerPool
from verifier.intake.workers.task import RunSettings

__all__ = ["Plan", "carry_out"]

_CODES = {
    "accepted": Exit.ACCEPTED,
    "rejected": Exit.REJECTED,
    "undecided": Exit.UNDECIDED,
    "unreadable": Exit.UNREADABLE,
    "not judged": Exit.BUG,
}


@dataclass(frozen=True)
class Plan:
    """What the command line asked for."""

    sources: tuple[str, ...]
    out: Path | None
    ledger: Path
    settings: RunSettings
    limits: WorkerLimits
    jobs: int | None
    cluster: str | None
    duplicates: bool
    page: ListPage | None = None


def carry_out(plan: Plan, found: Found, box: Box, printed: Iterable[Submission] | None) -> Exit:
    """Judge a box, say how it went, and return the exit code."""
    if plan.out is not None and not plan.ledger.exists() and owner_of(plan.out) is not None:
        refuse(folder_of_another_ledger(str(plan.out)))  # before an empty ledger is made
    try:
        with new_or_existing_ledger(plan.ledger) as ledger, _pool(plan) as pool:
            outcome = _judged(plan, ledger, pool, box, printed, found)
            repeats = _repeats(plan, ledger, outcome)
            if printed is None and (known := printed_known(ledger)):
                say(printed_before(known))
            if box.own:
                say(own_passed_over(box.own))
            code = _told(plan, ledger, outcome, repeats, found.passed_over + box.passed_over)
            if plan.page is not None and not outcome.stopped:
                plan.page.write(ledger)
            return code
    except LedgerError as error:
        refuse(ledger_unusable(error.where, error.code, error.says))
    except AnotherLedgerError as error:
        refuse(folder_of_another_ledger(str(error)))
    except CannotWriteError as error:
        refuse(wording.cannot_write(error.where, error.why))
    except KeyboardInterrupt:
        say(STOPPED_AT_ONCE)
        return Exit.INTERRUPTED


def _judged(
    plan: Plan, ledger: Ledger, pool: WorkerPool, box: Box, printed: Iterable[Submission] | None, found: Found
) -> RunOutcome:
    makers = makers_of(plan.settings)
    files = VerdictFiles(plan.out, ledger)
    ledger.begin_run(plan.sources, makers)
    run = Intake(ledger, makers, pool, files, duplicates=plan.duplicates)
    total = None if found.standard_input else found.addresses.bytes_listed
    pace = Pace(total)
    with _ctrl_c() as asked, progress_shown(total) as show_progress:

        def told() -> None:
            pace.note(run.outcome.states.total(), box.bytes_read)
            show_progress(run.outcome.states, pace)

        heard = (asked.heard_in(box), None if printed is None else asked.heard_in(printed))
        return run.go(*heard, stop=lambda: asked.stop, told=told)


def _repeats(plan: Plan, ledger: Ledger, outcome: RunOutcome) -> Repeats:
    """Return what came twice, once the box is through; write the lists of it where there is a folder."""
    if outcome.stopped:
        return Repeats()
    return count_repeats(ledger) if plan.out is None else write_papers(ledger, plan.out)


@contextmanager
def _pool(plan: Plan) -> Iterator[WorkerPool]:
    pool = _cluster(plan) if plan.cluster else LocalPool(plan.jobs or cores(), plan.settings, plan.limits)
    try:
        yield pool
    finally:
        pool.close()


def _cluster(plan: Plan) -> WorkerPool:
    assert plan.cluster is not None
    try:
        from verifier.intake.workers.cluster import ClusterPool, NoClusterError
    except ImportError:
        refuse(NO_CLUSTER_LIBRARY)
    try:
        return ClusterPool(plan.cluster, plan.settings, plan.limits)
    except NoClusterError as error:
        refuse(no_cluster(plan.cluster, str(error)))


class _StopReadingError(Exception):
    """Ctrl-C was pressed while the next submission was looked for."""


@dataclass(slots=True)
class _Asked:
    """Whether Ctrl-C was pressed."""

    stop: bool = False
    reading: bool = False

    def note(self, _number: int, _frame: FrameType | None) -> None:
        """Hear the signal, wherever the run is."""
        if self.stop:
            raise KeyboardInterrupt
        self.stop = True
        say(FINISHING)
        if self.reading:
            self.reading = False
            raise _StopReadingError

    def heard_in(self, sent: Iterable[Submission]) -> Iterator[Submission]:
        """Yield submissions; end where Ctrl-C is pressed while the next one is looked for.

        A reader can be busy for long between two submissions, or wait for whoever types: so the signal breaks
        into it.
        """
        submissions = iter(sent)
        while not self.stop:
            try:
                self.reading = True
                found = next(submissions, None)
            except _StopReadingError:
                return
            finally:
                self.reading = False
            if found is None:
                return
            yield found


@contextmanager
def _ctrl_c() -> Iterator[_Asked]:
    """Let the first Ctrl-C ask for an end, and the second one bring it about."""
    asked = _Asked()
    before = signal.signal(signal.SIGINT, asked.note)
    try:
        yield asked
    finally:
        signal.signal(signal.SIGINT, before)


def _told(plan: Plan, ledger: Ledger, outcome: RunOutcome, repeats: Repeats, others: int) -> Exit:
    """Say how the run went, and return the exit code."""
    counts = counts_of(ledger)
    kept = outcome.total - outcome.judged.total()
    for line in judged_why(outcome.judged, max(0, kept), outcome.changes):
        say(line)
    if others:
        say(passed_over(others, ENDINGS))
    unread = printed_unread(ledger)
    if unread:
        say(wording.printed_unread(unread))
    trace = None
    for address, text in outcome.traces:
        trace = keep_trace(f"{address}\n{text}", trace)
    if outcome.traces:
        say(wording.bug_in_judging([address for address, _ in outcome.traces], trace))
    codes = {_CODES[state] for state, number in outcome.states.items() if number}
    if outcome.stopped:
        say(go_on(counts.total))
        codes.add(Exit.INTERRUPTED)
    elif counts.total > outcome.total:
        say(not_in_the_box(counts.total - outcome.total))
    if not outcome.total and not outcome.stopped:
        refuse(wording.no_puzzles())
    show(counts_told(counts, repeats))
    if plan.out is not None and not outcome.stopped:
        say(wording.verdicts_are_in(str(plan.out)))
    return worst(codes)

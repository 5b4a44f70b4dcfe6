"""One run of the intake: from the submissions of a box to the ledger and the verdict files."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from itertools import chain, count, repeat, takewhile

from verifier.files.submissions import Submission
from verifier.intake.closing import close_box
from verifier.intake.ledger.entries import (
    enter,
    has_met,
    lay_in,
    look,
    note_seen,
    record,
    record_likeness,
    stock_of_others,
)
from verifier.intake.ledger.ledger import Ledger, new_or_existing_ledger
from verifier.intake.ledger.makers import (
    LIKENESS_BY,
    JudgingReason,
    LedgerEntry,
    Makers,
    makers_of,
    reason_to_judge,
    state_of,
    what_changed,
)
from verifier.intake.ledger.printed import note_printed, record_printed
from verifier.intake.ledger.whereabouts import lies_in
from verifier.intake.letters.news import news_for
from verifier.intake.letters.writing import look_for_repairs, write_letters
from verifier.intake.outcome import RunOutcome, RunPlan, RunSummary
from verifier.intake.papers.duplicates import Repeats, count_repeats
from verifier.intake.papers.papers import write_papers
from verifier.intake.papers.report import compared_with, counts_of, printed_unread
from verifier.intake.papers.verdict_files import AnotherLedgerError, VerdictFiles, owner_of
from verifier.intake.today import today
from verifier.intake.workers.pool import WorkerPool, opened_pool
from verifier.intake.workers.repairing import repairs_found
from verifier.intake.workers.task import Judged, Task

__all__ = ["Intake", "opened_run"]

_COMMIT_EVERY = 0.5  # seconds; a run that is killed loses no more than that
_LOOK_EVERY = 0.2  # seconds to wait for a result before looking whether to stop
_MOST_TRACES = 50
"""Mistakes of ours that are told in full; what they are about says the ledger."""

_MOST_UNSETTLED = 20_000
"""Puzzles that may be finished before one that came earlier and takes its time."""


@dataclass(slots=True)
class _Place:
    """A submission of the box until its verdict file is written; they are written in the box's order."""

    number: int
    done: bool


@dataclass(frozen=True, slots=True)
class _UnderWay:
    """What was handed over, and where its result belongs."""

    sent: Submission
    task: Task
    place: _Place | str
    """Of a printed puzzle, the folder that was named."""


@contextmanager
def opened_run(plan: RunPlan) -> Iterator[Intake]:
    """Begin a run: have its ledger, its workers and its folder.

    Raises
    ------
    IntakeError, CannotWriteError
        If one of them cannot be had.
    """
    if plan.out is not None and not plan.ledger.exists() and owner_of(plan.out) is not None:
        raise AnotherLedgerError(plan.out)  # before an empty ledger is made
    with (
        new_or_existing_ledger(plan.ledger) as ledger,
        opened_pool(plan.jobs, plan.cluster, plan.settings, plan.limits) as pool,
    ):
        makers = makers_of(plan.settings)
        files = VerdictFiles(plan.out, ledger)
        ledger.begin_run(plan.sources, makers)
        yield Intake(ledger, makers, pool, files, plan)


class Intake:
    """A run: reads the box, has judged what must be, keeps the ledger, writes the files.

    Parameters
    ----------
    ledger : Ledger
        With a run begun.
    makers : Makers
        What makes the verdicts of this run.
    pool : WorkerPool
        Who judges.
    files : VerdictFiles
        Where verdicts go.
    plan : RunPlan
        What is judged.
    """

    def __init__(
        self, ledger: Ledger, makers: Makers, pool: WorkerPool, files: VerdictFiles, plan: RunPlan
    ) -> None:
        self._ledger, self._makers, self._pool, self._files = ledger, makers, pool, files
        self._plan = plan
        self._tickets = count()
        self._under_way: dict[int, _UnderWay] = {}
        self._unsettled: deque[_Place] = deque()
        self._committed = time.monotonic()
        self._told: Callable[[], None] = lambda: None
        self.outcome = RunOutcome()

    def go(
        self,
        box: Iterable[Submission],
        printed: Iterable[Submission] | None = None,
        *,
        stop: Callable[[], bool] = lambda: False,
        told: Callable[[], None] = lambda: None,
    ) -> RunOutcome:
        """Carry out the run.

        Parameters
        ----------
        box : iterable of Submission
            What is to be judged.
        printed : iterable of Submission, optional
            Puzzles to look for duplicates of; they get no verdict. Without them, those of the last run that
            was given any still count.
        stop : callable
            Asked again and again whether to finish what is under way and end there.
        told : callable
            Called again and again, so that progress can be shown.

        Raises
        ------
        LedgerError, CannotWriteError, WorkerWillNotStartError
            If the run cannot go on. What was committed is safe, and the run can be repeated.
        """
        self._told = told
        everything = chain(zip(repeat(self._take_printed), printed or ()), zip(repeat(self._take), box))
        for take, sent in everything:
            if stop():
                break
            take(sent)
            self._make_room()
            self._commit_now_and_then()
        self._judge_stock_anew(stop)
        self.outcome.stopped = stop()
        while self._under_way:
            self._collect()
        self._commit()
        if not self.outcome.stopped:
            close_box(self._ledger, self._files, self._plan, self.outcome)
            self._write_letters(stop)
        return self.outcome

    def summary(self) -> RunSummary:
        """Return how it went; once the box is through, write the lists."""
        folder, ledger = self._files.folder, self._ledger
        if self.outcome.stopped:
            repeats = Repeats()
        else:
            repeats = count_repeats(ledger) if folder is None else write_papers(ledger, folder)
        unread = tuple(printed_unread(ledger))
        return RunSummary(self.outcome, counts_of(ledger), repeats, compared_with(ledger), unread)

    def _judge_stock_anew(self, stop: Callable[[], bool]) -> None:
        """Judge again what was accepted, is not in the box and would be judged otherwise now.

        Nobody sends it again, and all that was sent is in the ledger.
        """
        for number, sent in stock_of_others(self._ledger):
            if stop():
                return
            self.outcome.judged[JudgingReason.MADE_ANEW] += 1
            self._hand_over(sent, Task(sent, likeness=self._plan.duplicates), self._in_turn(number))
            self._make_room()
            self._commit_now_and_then()

    def _write_letters(self, stop: Callable[[], bool]) -> None:
        """Write letters to setters, unless asked to stop while repairs are looked for."""

        def found(broken: Iterable[tuple[int, Submission]]) -> Iterator[tuple[int, tuple[str, ...] | None]]:
            asked = takewhile(lambda _: not stop(), broken)
            for one in repairs_found(self._pool, asked):
                self._told()
                yield one

        ledger, folder, settings = self._ledger, self._files.folder, self._plan.letters
        if folder is not None:
            news = news_for(ledger, everything=settings.everything)
            look_for_repairs(ledger, news, settings.repairs, found)
            self.outcome.stopped = stop()
            if not self.outcome.stopped:
                self.outcome.letters = write_letters(ledger, folder, today(), settings, news)

    def _take(self, sent: Submission) -> None:
        sent = self._under_own_address(sent)
        known = look(self._ledger, sent)
        why = reason_to_judge(known, sent, self._makers)
        if known is not None and why is None:
            note_seen(self._ledger, known.number, sent)
            self.outcome.states[known.state] += 1
            place = self._in_turn(known.number)
            if self._lacks_likeness(known):
                self._hand_over(sent, Task(sent, verdict=False, likeness=True), place)
            return
        assert why is not None
        for number, in_stock in lay_in(self._ledger, sent.address) if known is None else ():
            why = JudgingReason.CHANGED
            if not in_stock:
                self._files.give_up(number)
        if known is not None and why is JudgingReason.MADE_ANEW and not self.outcome.changes:
            before = self._ledger.maker(known.maker or "")
            self.outcome.changes = what_changed(before, self._makers.judging)
        if known is not None:
            self._files.withdraw(known.file)
        self.outcome.judged[why] += 1
        place = self._in_turn(enter(self._ledger, sent, None if known is None else known.number))
        if sent.document is None:
            self._enter_result(Judged(sent.address, sent.faults), sent, place)
        else:
            self._hand_over(sent, Task(sent, likeness=self._plan.duplicates), place)

    def _in_turn(self, number: int) -> _Place:
        place = _Place(number, done=True)
        self._unsettled.append(place)
        return place

    def _lacks_likeness(self, known: LedgerEntry) -> bool:
        readable = known.state in ("accepted", "rejected", "undecided")
        return self._plan.duplicates and readable and known.likeness_by != LIKENESS_BY

    def _under_own_address(self, sent: Submission) -> Submission:
        """Return a submission under an address of its own; an archive may hold a name twice."""
        address = sent.address
        for number in count(2):
            if not has_met(self._ledger, sent.address):
                return sent
            sent = replace(sent, address=f"{address}~{number}")
        raise AssertionError

    def _take_printed(self, sent: Submission) -> None:
        folder = next((word for word in self._plan.printed if lies_in(sent.origin, word)), "")
        if sent.document is None:
            record_printed(self._ledger, sent, folder, Judged(sent.address, sent.faults))
            return
        self.outcome.printed += 1
        if not note_printed(self._ledger, sent, folder):
            self._hand_over(sent, Task(sent, verdict=False, likeness=True), folder)

    def _hand_over(self, sent: Submission, task: Task, place: _Place | str) -> None:
        ticket = next(self._tickets)
        if isinstance(place, _Place):
            place.done = False
        self._under_way[ticket] = _UnderWay(sent, task, place)
        self._pool.submit(ticket, task)

    def _make_room(self) -> None:
        while len(self._under_way) >= self._pool.window or len(self._unsettled) > _MOST_UNSETTLED:
            self._collect()

    def _collect(self) -> None:
        """Take one result in, if there is one within a moment."""
        result = self._pool.result(_LOOK_EVERY)
        if result is not None:
            ticket, judged = result
            self._take_in(self._under_way.pop(ticket), judged)
        self._commit_now_and_then()

    def _take_in(self, given: _UnderWay, judged: Judged) -> None:
        place = given.place
        if isinstance(place, str):
            record_printed(self._ledger, given.sent, place, judged)
            return
        if given.task.verdict:
            self._enter_result(judged, given.sent, place)
        place.done = True
        late_or_lacking = not given.task.verdict or judged.likeness is None
        if given.task.likeness and late_or_lacking and judged.puzzle is not None:
            record_likeness(self._ledger, place.number, judged.likeness)

    def _enter_result(self, judged: Judged, sent: Submission, place: _Place) -> None:
        record(self._ledger, place.number, judged, default_id=sent.default_id)
        self.outcome.states[state_of(judged)] += 1
        if judged.trace and len(self.outcome.traces) < _MOST_TRACES:
            self.outcome.traces.append((judged.address, judged.trace))

    def _commit_now_and_then(self) -> None:
        if time.monotonic() - self._committed >= _COMMIT_EVERY or len(self._unsettled) > _MOST_UNSETTLED:
            self._commit()

    def _commit(self) -> None:
        """Commit what is decided, then write the files of all whose turn has come."""
        self._ledger.commit()
        while self._unsettled and self._unsettled[0].done:
            self._files.settle(self._unsettled.popleft().number)
        self._ledger.commit()
        self._committed = time.monotonic()
        self._told()

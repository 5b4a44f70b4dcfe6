"""A run over a box: what is said of it, and its exit code."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from verifier.cli import wording
from verifier.cli.boxes.ledger import PageAsked, write_page
from verifier.cli.boxes.progress import Pace, progress_shown
from verifier.cli.telling.console import keep_trace, refuse, refusing_to_write, say, show
from verifier.cli.telling.exits import CODES, Exit, worst
from verifier.files.submissions import Submission
from verifier.intake.errors import IntakeError
from verifier.intake.outcome import RunPlan, RunSummary
from verifier.intake.papers.wording import counts_told
from verifier.intake.run import Intake, opened_run
from verifier.intake.sources.sources import Box, Found
from verifier.intake.sources.wording import passed_over
from verifier.intake.stopping import ctrl_c_heard
from verifier.intake.wording import (
    CLAIMED,
    FINISHING,
    GO_ON,
    GONE,
    NOT_IN_THE_BOX,
    REPLACED,
    STOPPED_AT_ONCE,
    compared_before,
    judged_why,
)
from verifier.puzzle.printable import counted, filled

__all__ = ["carry_out"]

_MOST_TOLD = 20
"""Corrections that are told one by one; the exports tell all."""


def carry_out(
    plan: RunPlan, found: Found, box: Box, printed: Iterable[Submission] | None, page: PageAsked | None
) -> Exit:
    """Judge a box, say how it went, and return the exit code."""
    try:
        with refusing_to_write(), opened_run(plan) as run:
            _go(run, found, box, printed)
            summary = run.summary()
            if printed is None and summary.compared:
                say(compared_before(summary.compared))
            listing = found.addresses
            others, settings = listing.passed_over + box.passed_over, listing.settings + box.settings
            for says in passed_over(others, box.own, settings, listing.no_files):
                say(says)
            code = _told(plan, summary)
        if page is not None and not summary.outcome.stopped:
            write_page(plan.ledger, page)
        return code
    except IntakeError as error:
        refuse(str(error))
    except KeyboardInterrupt:
        say(STOPPED_AT_ONCE)
        return Exit.INTERRUPTED


def _go(run: Intake, found: Found, box: Box, printed: Iterable[Submission] | None) -> None:
    total = None if found.standard_input else found.addresses.bytes_listed
    pace = Pace(total)
    with ctrl_c_heard(lambda: say(FINISHING)) as pressed, progress_shown(total) as show_progress:

        def told() -> None:
            pace.note(run.outcome.states.total(), box.bytes_read)
            show_progress(run.outcome.states, pace)

        before = None if printed is None else pressed.until_pressed(printed)
        run.go(pressed.until_pressed(box), before, stop=lambda: pressed.stop, told=told)


def _told(plan: RunPlan, summary: RunSummary) -> Exit:
    """Say how the run went, and return the exit code."""
    outcome, counts = summary.outcome, summary.counts
    for line in judged_why(outcome.judged, max(0, outcome.total - outcome.judged.total()), outcome.changes):
        say(line)
    if outcome.gone:
        say(GONE.format(submissions=counted(outcome.gone, "submission")))
    for one in outcome.corrections[:_MOST_TOLD]:
        say(REPLACED.format(newer=one.newer_address, older=one.older_address))
    for one in outcome.claims[:_MOST_TOLD]:
        say(CLAIMED.format(newer=one.newer_address, older=one.older_address))
    if summary.printed_unread:
        say(filled(wording.PRINTED_UNREAD, addresses=summary.printed_unread))
    trace = None
    for address, text in outcome.traces:
        trace = keep_trace(f"{address}\n{text}", trace)
    if outcome.traces:
        say(wording.bug_in_judging([address for address, _ in outcome.traces], trace))
    codes = {CODES[state] for state, number in outcome.states.items() if number}
    if outcome.stopped:
        say(GO_ON.format(submissions=counted(counts.total, "submission").capitalize()))
        codes.add(Exit.INTERRUPTED)
    elif counts.total > outcome.total:
        say(NOT_IN_THE_BOX.format(submissions=counted(counts.total - outcome.total, "submission")))
    if not outcome.total and not outcome.stopped:
        refuse(wording.NO_PUZZLES)
    show(counts_told(counts, summary.repeats))
    if plan.out is not None and not outcome.stopped:
        say(filled(wording.VERDICTS_ARE_IN, folder=str(plan.out)))
        for folder, number in Counter(letter.parent for letter in outcome.letters).items():
            say(wording.letters_written(number, str(folder)))
    return worst(codes)

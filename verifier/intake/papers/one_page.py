"""The report of a run on one page, from the ledger."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.papers import wording
from verifier.intake.papers.by_hand import ByHand, by_hand
from verifier.intake.papers.figures import Figures, by_setter, over_time
from verifier.intake.papers.files import write_whole
from verifier.intake.papers.report import Counts, counts_of
from verifier.pages.report_page import ReportTable, report_page
from verifier.puzzle.printable import counted, printable

__all__ = ["REPORT", "one_page", "write_report"]

REPORT = "report.html"
"""In the folder of the verdicts."""

_MOST_TO_LOOK_AT, _MOST_SETTERS, _MOST_RUNS, _MOST_REASONS = 12, 10, 8, 8
"""So many lines of each list fit a sheet of paper together."""

_LONGEST = 120  # characters of what is said of one puzzle


def write_report(ledger: Ledger, folder: Path) -> None:
    """Write the report into the folder of the verdicts."""
    write_whole(folder / REPORT, one_page(ledger, folder.name))


def one_page(ledger: Ledger, title: str) -> str:
    """Return the report as a page."""
    counts, queue = counts_of(ledger), by_hand(ledger)
    more = len(queue) - _MOST_TO_LOOK_AT
    return report_page(
        wording.REPORT_TITLE.format(title=title),
        wording.REPORT_SUMMARY.format(submissions=counted(counts.total, "submission")),
        list(_numbers(counts, len(queue))),
        [(one.why.value, _named(one), printable(one.says, _LONGEST)) for one in queue[:_MOST_TO_LOOK_AT]],
        wording.MORE_TO_LOOK_AT.format(number=more) if more > 0 else "",
        list(_tables(ledger, counts)),
    )


def _named(one: ByHand) -> str:
    return f"{one.name} ({one.address})" if one.name else one.address


def _numbers(counts: Counts, queue: int) -> Iterator[tuple[str, str]]:
    yield from ((state, f"{number:,}") for state, number in counts.states)
    if counts.printed_before or counts.copies:
        yield wording.OF_THEM_REPEATS, f"{counts.printed_before + counts.copies:,}"
    yield wording.BY_HAND, f"{queue:,}"


def _tables(ledger: Ledger, counts: Counts) -> Iterator[ReportTable]:
    reasons = [(wording.reason_in_short(code), number) for code, number in counts.reasons[:_MOST_REASONS]]
    yield ReportTable(wording.WHY_NOT, ("reason", "submissions"), reasons)
    tiers = [(f"{tier} {name}", number) for tier, name, number in counts.tiers]
    yield ReportTable(wording.TIERS, ("tier", "accepted"), tiers)
    setters = [_row(figures) for figures in by_setter(ledger)[:_MOST_SETTERS]]
    yield ReportTable(wording.SETTERS, ("setter", *wording.FIGURES), setters)
    runs = [_row(figures) for figures in over_time(ledger)[-_MOST_RUNS:]]
    yield ReportTable(wording.OVER_TIME, ("came on", *wording.FIGURES), runs)


def _row(figures: Figures) -> tuple[str | int, ...]:
    fault = figures.commonest_fault
    tiers = ", ".join(f"{number} of tier {tier}" for tier, number in sorted(figures.tiers.items()))
    short = wording.reason_in_short(fault) if fault else ""
    return figures.name, figures.sent, f"{figures.share:.0%}", short, tiers

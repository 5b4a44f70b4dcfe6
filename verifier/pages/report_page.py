"""The report of a box on one page: what came, what to look at, who sent it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from verifier.pages.styling import page
from verifier.puzzle.printable import printable

__all__ = ["ReportTable", "report_page"]


@dataclass(frozen=True, slots=True)
class ReportTable:
    """A table: its heading, the names of its columns, and its rows; one without rows is left out."""

    heading: str
    columns: tuple[str, ...]
    rows: Sequence[tuple[str | int, ...]]


def report_page(
    title: str,
    summary: str,
    numbers: Sequence[tuple[str, str]],
    queue: Sequence[tuple[str, str, str]],
    more: str,
    tables: Sequence[ReportTable],
) -> str:
    """Return the report as one HTML file, which fits a sheet of paper where its lists are kept short.

    Parameters
    ----------
    title, summary : str
        What it is about.
    numbers : sequence of (str, str)
        What counts most, each with its name.
    queue : sequence of (str, str, str)
        What to look at by hand: why, which puzzle, and more of it.
    more : str
        Says how much more of it there is; may be empty.
    tables : sequence of ReportTable
        What follows.
    """
    return page(
        "report.html.j2",
        None,
        styles=["desk.css"],
        title=printable(title),
        summary=summary,
        numbers=numbers,
        queue=queue,
        more=more,
        tables=[(table.heading, table.columns, table.rows) for table in tables if table.rows],
    )

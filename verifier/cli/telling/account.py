"""The account of a run: what became of each puzzle, and what is said of it at the end."""

from __future__ import annotations

import sys
from collections import Counter
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import keep_trace, say, show
from verifier.cli.telling.exits import CODES, Exit, worst
from verifier.cli.telling.table import NOT_JUDGED, UNREADABLE, Row, row_of, styled_table, table_text
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from typing import TextIO

    from grader.grading.tiers import TierTable
    from verifier.files.faults import Fault
    from verifier.intake.workers.judging import Judged

__all__ = ["Account"]

_MOST_NAMED = 8
"""Broken puzzles of which the next command is named."""


class Account:
    """What became of the puzzles so far.

    Parameters
    ----------
    tiers : TierTable
        Those that the verdicts speak of.

    Attributes
    ----------
    rows : list of Row
        One line a puzzle.
    counts : Counter of str
        How many came to which end.
    codes : set of Exit
        What occurred.
    files : int
        How many files the puzzles so far came from.
    """

    def __init__(self, tiers: TierTable) -> None:
        self.rows: list[Row] = []
        self.counts: Counter[str] = Counter()
        self.codes: set[Exit] = set()
        self.files = 0
        self._tiers = tiers
        self._broken: list[str] = []
        self._file: str | None = None
        self._traces: str | None = None
        self._faults: list[Fault] = []

    @property
    def code(self) -> Exit:
        """The exit code; a run without any puzzle is a wrong call."""
        return worst(self.codes) if self.rows or self.codes else Exit.UNREADABLE

    def add(self, judged: Judged) -> None:
        """Enter one puzzle; the trace of a bug of ours goes to a file at once, one for the whole run."""
        row = row_of(judged, self._tiers)
        self.rows.append(row)
        self.counts[row.verdict] += 1
        self.codes.add(CODES[row.verdict])
        self._faults += judged.faults
        file = judged.address.partition("#")[0]
        self.files += file != self._file  # the puzzles of a file come one after the other
        self._file = file
        if judged.verdict is not None and judged.verdict.is_broken:
            self._broken.append(judged.address)
        if judged.trace:
            self._traces = keep_trace(f"{row.puzzle}\n{judged.trace}", self._traces)

    def tell(self, *, table: bool, alone: bool) -> None:
        """Say how the run went.

        Parameters
        ----------
        table : bool
            Whether the table is the result, on standard output; else it is for a terminal only.
        alone : bool
            Whether one verdict on standard output says it all.
        """
        if table:
            _print_table(self.rows, sys.stdout)
        elif len(self.rows) > 1 and sys.stderr.isatty():
            _print_table(self.rows, sys.stderr)
        if self._faults:
            say(
                "\n".join(
                    [filled(wording.UNREADABLE, count=self.counts[UNREADABLE]), *map(str, self._faults)]
                )
            )
        unjudged = [row.puzzle for row in self.rows if row.verdict == NOT_JUDGED]
        if unjudged:
            say(wording.bug_in_judging(unjudged, self._traces))
        if not self.rows and not self.codes:
            say(wording.NO_PUZZLES)
        elif self.rows and not alone:
            say(wording.summary(self.counts))
        if self._broken:
            say(wording.mend_next(_to_name(self._broken), len(self._broken)))


def _to_name(addresses: list[str]) -> list[str]:
    """Return the addresses of some puzzles; not those that a command finds nothing by."""
    from verifier.intake.sources.sources import not_there

    gone = set(not_there(addresses[:_MOST_NAMED]))  # of standard input, or with what cannot be seen
    return [address for address in addresses[:_MOST_NAMED] if address not in gone]


def _print_table(rows: list[Row], stream: TextIO) -> None:
    if stream.isatty():
        from rich.console import Console

        Console(file=stream).print(styled_table(rows))
    else:
        show(table_text(rows))

"""Telling what a ledger holds."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

from verifier.cli import wording
from verifier.cli.boxes.pages import ListPage
from verifier.cli.telling.console import refuse, show
from verifier.cli.telling.exits import Exit
from verifier.intake.ledger.ledger import LedgerError, existing_ledger
from verifier.intake.papers.duplicates import count_repeats
from verifier.intake.papers.export import csv_lines, json_lines
from verifier.intake.papers.files import CannotWriteError, write_whole
from verifier.intake.papers.report import STATES, counts_of, listed_in
from verifier.intake.wording import counts_told, ledger_unusable, listed_told

__all__ = ["tell_ledger"]

_STANDARD_OUTPUT = Path("-")


def tell_ledger(
    path: Path,
    state: str | None,
    csv: Path | None,
    jsonl: Path | None,
    page: ListPage | None = None,
    *,
    timings: bool,
) -> Exit:
    """Print the counts, or the list of one state; write the exports and the page that are asked for."""
    if state is not None and state not in STATES:
        refuse(wording.no_such_state(state, STATES))
    try:
        with existing_ledger(path) as ledger:
            if csv is not None:
                _export(csv_lines(ledger, timings=timings), csv, "--csv")
            if jsonl is not None:
                _export(json_lines(ledger, timings=timings), jsonl, "--jsonl")
            if page is not None:
                page.write(ledger)
            if state is not None:
                for one in listed_in(ledger, state):
                    show(listed_told(one))
            elif _STANDARD_OUTPUT not in (csv, jsonl):
                show(counts_told(counts_of(ledger), count_repeats(ledger)))
    except LedgerError as error:
        refuse(ledger_unusable(error.where, error.code, error.says))
    return Exit.ACCEPTED


def _export(lines: Iterable[str], target: Path, option: str) -> None:
    if target == _STANDARD_OUTPUT:
        sys.stdout.writelines(lines)
        return
    try:
        write_whole(target, lines)
    except CannotWriteError as error:
        refuse(wording.cannot_write(error.where, error.why, option))

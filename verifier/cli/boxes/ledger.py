"""What a ledger holds: its counts, the list of one state, exports, pages."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import refuse, refusing_to_write, say, show
from verifier.cli.telling.exits import Exit
from verifier.cli.telling.progress import progress
from verifier.intake.errors import IntakeError
from verifier.intake.ledger.ledger import existing_ledger
from verifier.intake.papers.by_hand import LIST_NAME, by_hand
from verifier.intake.papers.duplicates import count_repeats
from verifier.intake.papers.export import csv_lines, json_lines
from verifier.intake.papers.files import write_whole
from verifier.intake.papers.report import STATES, counts_of, judged_by_another_style, listed_in
from verifier.intake.papers.wording import by_hand_told, counts_told, listed_told
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from verifier.verdict.style.style import HouseStyle

__all__ = ["PageAsked", "forget", "tell_ledger", "write_page"]

_STANDARD_OUTPUT = Path("-")


@dataclass(frozen=True)
class PageAsked:
    """The list of a box as a page: where, in which tiers, how many lines, and of which state alone."""

    path: Path
    style: HouseStyle
    most: int
    state: str | None = None


def tell_ledger(
    path: Path,
    state: str | None,
    csv: Path | None,
    jsonl: Path | None,
    page: PageAsked | None = None,
    style: HouseStyle | None = None,
    *,
    timings: bool,
) -> Exit:
    """Print the counts, or the list of one state; write the exports and the page that are asked for.

    Where a house style is named and verdicts were made by another one, that is said.
    """
    lists = (*STATES, LIST_NAME)
    if state is not None and state not in lists:
        refuse(filled(wording.NO_SUCH_STATE, word=state, states=lists))
    try:
        with existing_ledger(path) as ledger:
            others = 0 if style is None else judged_by_another_style(ledger, style.content)
            if others:
                say(filled(wording.JUDGED_BY_ANOTHER_STYLE, number=others))
            if csv is not None:
                _export(csv_lines(ledger, timings=timings), csv, "--csv")
            if jsonl is not None:
                _export(json_lines(ledger, timings=timings), jsonl, "--jsonl")
            if page is not None:
                write_page(path, page)
            if state == LIST_NAME:
                for one_by_hand in by_hand(ledger):
                    show(by_hand_told(one_by_hand))
            elif state is not None:
                for one in listed_in(ledger, state):
                    show(listed_told(one))
            elif _STANDARD_OUTPUT not in (csv, jsonl):
                show(counts_told(counts_of(ledger), count_repeats(ledger)))
    except IntakeError as error:
        refuse(str(error))
    return Exit.ACCEPTED


def forget(path: Path, addresses: Sequence[str], out: Path | None) -> Exit:
    """Take submissions and printed puzzles out of a ledger, and their verdicts out of the folder."""
    from verifier.intake.ledger.forgetting import let_go, let_go_of_printed, named
    from verifier.intake.ledger.ledger import new_or_existing_ledger
    from verifier.intake.papers.verdict_files import VerdictFiles

    kept = []
    try:
        existing_ledger(path).close()  # none is made
        with new_or_existing_ledger(path) as ledger, refusing_to_write():
            files, found = VerdictFiles(out, ledger), named(ledger, addresses)
            for one in found:
                if one.page is None:
                    files.give_up(one.number)
                    let_go(ledger, one.number)
                else:
                    kept.append(wording.KEPT_ON_A_PAGE[one.page].format(address=one.address, day=one.day))
            printed = let_go_of_printed(ledger, addresses)
            ledger.commit()
    except IntakeError as error:
        refuse(str(error))
    if not found and not printed:
        refuse(wording.nothing_to_forget(addresses))
    for says in kept:
        say(says)
    if len(found) > len(kept) or printed:
        say(wording.forgotten(len(found) - len(kept), printed))
    return Exit.REJECTED if kept else Exit.ACCEPTED


def write_page(path: Path, page: PageAsked) -> None:
    """Write the list of what a ledger holds, and the page of each verdict; say where it is."""
    from verifier.intake.papers.verdict_pages import VerdictPages

    pages = VerdictPages(page.path, page.style)
    with existing_ledger(path) as ledger, refusing_to_write("--html"):
        pages.write_ledger(ledger, page.most, page.state, lambda total: progress(total, wanted=True))
    say(filled(wording.PAGE_WRITTEN, path=str(page.path)))


def _export(lines: Iterable[str], target: Path, option: str) -> None:
    if target == _STANDARD_OUTPUT:
        sys.stdout.writelines(line.removeprefix("\ufeff") for line in lines)  # for another program
        return
    with refusing_to_write(option):
        write_whole(target, lines)

"""``gridproof check``: the verdict on each puzzle."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import refuse, say
from verifier.cli.telling.exits import Exit

if TYPE_CHECKING:
    from verifier.cli.telling.output import Output

__all__ = ["check"]

_MOST_SOLUTIONS, _MOST_JOBS = 100_000, 1024


def check(
    paths: Annotated[list[str], typer.Argument(metavar="PATH", hidden=True)],
    out: Annotated[Path | None, typer.Option("--out", metavar="DIR", help=wording.OPTIONS["out"])] = None,
    table: Annotated[bool, typer.Option("--table", help=wording.OPTIONS["table"])] = False,
    style: Annotated[
        Path | None, typer.Option("--style", metavar="FILE", help=wording.OPTIONS["style"])
    ] = None,
    html: Annotated[Path | None, typer.Option("--html", metavar="FILE", help=wording.OPTIONS["html"])] = None,
    printed: Annotated[
        Path | None, typer.Option("--printed", metavar="DIR", help=wording.OPTIONS["check-printed"])
    ] = None,
    count: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["count"], parser=whole_number(2, _MOST_SOLUTIONS)),
    ] = 2,
    jobs: Annotated[
        int | None,
        typer.Option(metavar="N", help=wording.OPTIONS["jobs"], parser=whole_number(1, _MOST_JOBS)),
    ] = None,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Judge the puzzles that the paths name, write the verdicts, and say how it went."""
    from verifier.cli.printed import Printed
    from verifier.cli.telling.account import Account
    from verifier.cli.telling.output import Folder, Nowhere, Stream
    from verifier.cli.telling.paging import VerdictPages, refuse_wrong_ending
    from verifier.cli.telling.progress import progress
    from verifier.intake.sources.sources import ENDINGS, Box, find_sources, read_box
    from verifier.intake.wording import own_passed_over, passed_over
    from verifier.intake.workers.judging import cores, judge_entries
    from verifier.verdict.judge import Settings

    if table and out is not None:
        refuse(wording.clash_of_table_and_out())
    refuse_wrong_ending(html)
    house_style = read_style_or_refuse(style)
    with _refusing_to_write():
        output: Output = Folder(out) if out is not None else Nowhere() if table or html else Stream()
    pages = VerdictPages(html, house_style)
    shelf = Printed(printed)
    found = find_sources(paths, leave_out=out)
    if found.passed_over:
        say(passed_over(found.passed_over, ENDINGS))
    box = Box(found, sys.stdin.buffer)
    entries = shelf.seen(pages.seen(read_box(box)))
    judged = judge_entries(entries, house_style, Settings(limit=count, seconds=seconds), jobs or cores())
    account = Account(house_style.tiers_to_grade_with())
    try:
        with (
            progress(len(found.addresses), wanted=not isinstance(output, Stream)) as shown,
            _refusing_to_write(),
        ):
            for one in judged:
                output.take(one)
                pages.take(one)
                shelf.take(one)
                account.add(one)
                shown(account.files, account.counts)
    except KeyboardInterrupt:
        account.codes.add(Exit.INTERRUPTED)
        say(wording.interrupted(len(account.rows), str(out) if out else None))
    with _refusing_to_write("--html"):
        pages.write()
    if box.own and account.rows:
        say(own_passed_over(box.own))
    account.tell(table=table, alone=isinstance(output, Stream) and len(account.rows) == 1)
    raise typer.Exit(account.code)


@contextmanager
def _refusing_to_write(option: str = "--out") -> Iterator[None]:
    from verifier.cli.telling.output import CannotWriteError

    try:
        yield
    except CannotWriteError as error:
        refuse(wording.cannot_write(error.where, error.why, option))

"""``gridproof check``: the verdict on each puzzle."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import page_ending_or_refuse, refuse, refusing_to_write, say
from verifier.cli.telling.exits import Exit
from verifier.puzzle.printable import filled

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
    from verifier.cli.telling.account import Account
    from verifier.cli.telling.output import Folder, Nowhere, Stream
    from verifier.cli.telling.progress import progress
    from verifier.cli.telling.puzzles import printed_puzzles
    from verifier.intake.papers.wording import REPEATED
    from verifier.intake.sources.sources import Box, find_sources, read_box
    from verifier.intake.sources.wording import passed_over
    from verifier.intake.workers.judging import cores, judge_entries
    from verifier.verdict.judge import Settings

    if table and out is not None:
        refuse(wording.CLASH_OF_TABLE_AND_OUT)
    page_ending_or_refuse(html)
    house_style = read_style_or_refuse(style)
    with refusing_to_write():
        output: Output = Folder(out) if out is not None else Nowhere() if table or html else Stream()
    before = None if printed is None else printed_puzzles(printed)
    found = find_sources(paths, leave_out=out, no_puzzles=() if style is None else (style,))
    for says in passed_over(found.passed_over, no_files=found.addresses.no_files):
        say(says)
    box = Box(found, sys.stdin.buffer)
    account, for_pages = Account(house_style.tiers_to_grade_with()), []
    try:
        with (
            progress(len(found.addresses), wanted=not isinstance(output, Stream)) as shown,
            refusing_to_write(),
        ):
            settings = Settings(limit=count, seconds=seconds)
            for entry, judged in judge_entries(read_box(box), house_style, settings, jobs or cores()):
                output.take(judged)
                if html is not None:
                    for_pages.append((entry, judged))
                if before is not None and entry.puzzle is not None:
                    solution = None if judged.verdict is None else judged.verdict.solutions.filling
                    for name, guise in before.repeated_by(entry.puzzle, solution).items():
                        say(
                            filled(
                                wording.REPEATS, address=entry.address, printed=name, guise=REPEATED[guise]
                            )
                        )
                account.add(judged)
                shown(account.files, account.counts)
    except KeyboardInterrupt:
        account.codes.add(Exit.INTERRUPTED)
        say(wording.interrupted(len(account.rows), str(out) if out else None))
    if html is not None and for_pages:
        from verifier.intake.papers.verdict_pages import VerdictPages

        with refusing_to_write("--html"):
            VerdictPages(html, house_style).write_run(for_pages)
        say(filled(wording.PAGE_WRITTEN, path=str(html)))
    own = box.own if account.rows else 0  # else it is a fault
    for says in passed_over(0, own, box.settings + found.addresses.settings):
        say(says)
    account.tell(table=table, alone=isinstance(output, Stream) and len(account.rows) == 1)
    raise typer.Exit(account.code)

"""``gridproof walk``: a puzzle worked through step by step."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import (
    keep_trace,
    page_ending_or_refuse,
    refuse,
    refusing_to_write,
    say,
    show,
)
from verifier.cli.telling.exits import Exit, worst
from verifier.cli.telling.puzzles import puzzles_in

if TYPE_CHECKING:
    from verifier.puzzle.puzzle import Puzzle
    from verifier.walkthrough.work import Walkthrough

__all__ = ["walk"]


def walk(
    file: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    as_yaml: Annotated[bool, typer.Option("--yaml", help=wording.OPTIONS["walk-yaml"])] = False,
    html: Annotated[
        Path | None, typer.Option("--html", metavar="FILE", help=wording.OPTIONS["walk-html"])
    ] = None,
    markdown: Annotated[bool, typer.Option("--markdown", help=wording.OPTIONS["markdown"])] = False,
    short: Annotated[bool, typer.Option("--short", help=wording.OPTIONS["short"])] = False,
    full: Annotated[bool, typer.Option("--full", help=wording.OPTIONS["full"])] = False,
    start: Annotated[str, typer.Option("--from", metavar="CELL", help=wording.OPTIONS["from"])] = "",
    audit: Annotated[bool, typer.Option("--audit", help=wording.OPTIONS["audit"])] = False,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["walk-seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Work each puzzle of a file through."""
    from verifier.intake.papers.files import numbered, write_whole
    from verifier.walkthrough.record import as_yaml as record
    from verifier.walkthrough.text import as_markdown, as_text
    from verifier.walkthrough.work import work_through

    page_ending_or_refuse(html)
    if as_yaml and markdown:
        refuse(wording.clash("--yaml", "--markdown"))
    chosen = {"--full": full, "--short": short, "--from": start, "--yaml": short and as_yaml}
    asked = [option for option, given in chosen.items() if given]
    if len(asked) > 1:
        refuse(wording.clash(*asked[:2]))
    codes: set[Exit] = set()
    for number, (address, puzzle) in enumerate(puzzles_in([file], codes), start=1):
        cell = _cell(puzzle, start)
        told = work_through(puzzle, full=full, cell=cell, audit=audit, seconds=seconds)
        codes.add(_code(told))
        if told.audit:
            say(wording.bug(keep_trace(record(told))))
        if html is not None:
            from verifier.pages.walkthrough import page_of

            path = numbered(html, number)
            with refusing_to_write("--html"):
                write_whole(path, page_of(told, short=short))
            say(wording.page_written(str(path)))
        if as_yaml:
            show(f"--- # {address}\n{record(told).rstrip()}")
        elif markdown or html is None:
            show((as_markdown if markdown else as_text)(told, short=short))
    raise typer.Exit(worst(codes) if codes else Exit.UNREADABLE)


def _cell(puzzle: Puzzle, name: str) -> int | None:
    if not name:
        return None
    cell = puzzle.grid.cell_at(name.lower())
    if cell is None:
        refuse(wording.no_such_cell(name, puzzle.grid.rows, puzzle.grid.columns))
    return cell


def _code(told: Walkthrough) -> Exit:
    from grader.grading.replay import Outcome

    if told.audit:
        return Exit.BUG
    if told.tally.count > 1 or (told.tally.complete and not told.sound):
        return Exit.REJECTED
    reached = told.sound and told.whole.outcome is Outcome.SOLVED
    return Exit.ACCEPTED if reached else Exit.UNDECIDED

"""``gridproof walk``: a puzzle worked through step by step."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

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
from verifier.cli.telling.puzzles import puzzle_and_so_far, puzzles_in
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from grader.board.board import Board
    from verifier.files.so_far import SoFar
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
    so_far: Annotated[
        Path | None, typer.Option("--so-far", metavar="FILE", help=wording.OPTIONS["walk-so-far"])
    ] = None,
    drop_wrong: Annotated[bool, typer.Option("--drop-wrong", help=wording.OPTIONS["drop-wrong"])] = False,
    short: Annotated[bool, typer.Option("--short", help=wording.OPTIONS["short"])] = False,
    spoken: Annotated[bool, typer.Option("--spoken", help=wording.OPTIONS["spoken"])] = False,
    full: Annotated[bool, typer.Option("--full", help=wording.OPTIONS["full"])] = False,
    start: Annotated[str, typer.Option("--from", metavar="CELL", help=wording.OPTIONS["from"])] = "",
    audit: Annotated[bool, typer.Option("--audit", help=wording.OPTIONS["audit"])] = False,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["walk-seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Work each puzzle of a file through."""
    page_ending_or_refuse(html)
    if as_yaml and markdown:
        refuse(wording.clash("--yaml", "--markdown"))
    if as_yaml and spoken:
        refuse(wording.clash("--yaml", "--spoken"))
    if drop_wrong and so_far is None:
        refuse(filled(wording.NEEDS, option="--drop-wrong", other="--so-far"))
    chosen = {"--full": full, "--short": short, "--from": start, "--yaml": short and as_yaml}
    asked = [option for option, given in chosen.items() if given]
    if len(asked) > 1:
        refuse(wording.clash(*asked[:2]))
    codes: set[Exit] = set()
    options = _Asked(as_yaml, html, markdown, short, spoken, full, start, audit, seconds)
    if so_far is not None:
        puzzle, found = puzzle_and_so_far(file, so_far)
        board = _standing(puzzle, found, drop_wrong, seconds)
        codes.add(_walked(file, puzzle, 1, board, options))
    else:
        for number, (address, puzzle) in enumerate(puzzles_in([file], codes), start=1):
            codes.add(_walked(address, puzzle, number, None, options))
    raise typer.Exit(worst(codes) if codes else Exit.UNREADABLE)


class _Asked(NamedTuple):
    """What was asked for."""

    as_yaml: bool
    html: Path | None
    markdown: bool
    short: bool
    spoken: bool
    full: bool
    start: str
    audit: bool
    seconds: int


def _walked(address: str, puzzle: Puzzle, number: int, board: Board | None, asked: _Asked) -> Exit:
    """Walk one puzzle through and show it; return what it came to."""
    from verifier.intake.papers.files import numbered, write_whole
    from verifier.walkthrough.record import as_yaml as record
    from verifier.walkthrough.spoken import spoken
    from verifier.walkthrough.text import as_markdown, as_text
    from verifier.walkthrough.work import work_through

    voice = spoken if asked.spoken else str
    cell = _cell(puzzle, asked.start)
    told = work_through(
        puzzle, full=asked.full, cell=cell, audit=asked.audit, start=board, seconds=asked.seconds
    )
    if told.audit:
        say(wording.bug(keep_trace(record(told))))
    if asked.html is not None:
        from verifier.pages.walkthrough import page_of

        path = numbered(asked.html, number)
        with refusing_to_write("--html"):
            write_whole(path, page_of(told, short=asked.short, voice=voice))
        say(filled(wording.PAGE_WRITTEN, path=str(path)))
    if asked.as_yaml:
        show(f"--- # {address}\n{record(told).rstrip()}")
    elif asked.markdown or asked.html is None:
        show((as_markdown if asked.markdown else as_text)(told, short=asked.short, voice=voice))
    return _code(told)


def _standing(puzzle: Puzzle, so_far: SoFar, drop_wrong: bool, seconds: int) -> Board:
    """Return the board to walk on from, or say why there is none and end the call."""
    from verifier.walkthrough.help_text import help_in_words
    from verifier.walkthrough.helping import standing_in
    from verifier.walkthrough.strength import Strength

    found = standing_in(puzzle, so_far, drop_wrong=drop_wrong, seconds=seconds)
    if found.sound and found.goes_on:
        return found.board
    for line in help_in_words(found, Strength.WHY):
        show(line)
    raise typer.Exit(Exit.UNDECIDED if not found.tally.complete and found.tally.count < 2 else Exit.REJECTED)


def _cell(puzzle: Puzzle, name: str) -> int | None:
    if not name:
        return None
    cell = puzzle.grid.cell_at(name.lower())
    if cell is None:
        refuse(filled(wording.NO_SUCH_CELL, name=name, rows=puzzle.grid.rows, columns=puzzle.grid.columns))
    elif cell in puzzle.grid.blocked:
        refuse(filled(wording.BLOCKED_CELL, name=name))
    return cell


def _code(told: Walkthrough) -> Exit:
    from grader.grading.replay import Outcome

    if told.audit:
        return Exit.BUG
    if told.tally.count > 1 or (told.tally.complete and not told.sound):
        return Exit.REJECTED
    reached = told.sound and told.whole.outcome is Outcome.SOLVED
    return Exit.ACCEPTED if reached else Exit.UNDECIDED

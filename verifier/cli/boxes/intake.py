"""``gridproof intake``: a whole box of submissions, with a ledger."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Annotated

import typer

from verifier.cli import wording
from verifier.cli.boxes.letters import letters_or_refuse
from verifier.cli.boxes.settings import box_settings_or_refuse
from verifier.cli.house_style import read_style_or_refuse
from verifier.cli.numbers import whole_number
from verifier.cli.telling.console import page_ending_or_refuse, refuse
from verifier.puzzle.printable import filled

__all__ = ["intake"]

_MOST_JOBS, _MOST_SECONDS, _MOST_MEMORY = 1024, 604_800, 1 << 20
_MOST_BYTES, _MOST_FILES, _MOST_RATIO = 1 << 30, 100_000_000, 100_000
_MIB = 1 << 20
_MOST_PAGES = 20_000  # on one list; a browser is slow with more
_GRACE = 30  # seconds after which a worker is ended whose witnesses should have stopped by themselves


def _told(name: str) -> str:
    return wording.INTAKE_OPTIONS.get(name) or wording.OPTIONS[name]


def _number(name: str, least: int, most: int) -> typer.models.OptionInfo:
    parser = whole_number(least, most)
    option: typer.models.OptionInfo = typer.Option(f"--{name}", metavar="N", help=_told(name), parser=parser)
    return option


def _word(name: str, metavar: str = "FILE") -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(f"--{name}", metavar=metavar, help=_told(name))
    return option


def _switch(name: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(f"--{name}", help=_told(name))
    return option


def intake(
    paths: Annotated[list[str] | None, typer.Argument(metavar="PATH", hidden=True)] = None,
    out: Annotated[Path | None, _word("out", "DIR")] = None,
    ledger: Annotated[Path | None, _word("ledger")] = None,
    style: Annotated[Path | None, _word("style")] = None,
    printed: Annotated[Path | None, _word("printed", "DIR")] = None,
    jobs: Annotated[int | None, _number("jobs", 1, _MOST_JOBS)] = None,
    cluster: Annotated[str | None, _word("cluster", "ADDRESS")] = None,
    seconds: Annotated[int, _number("seconds", 1, _MOST_SECONDS)] = 300,
    memory: Annotated[int, _number("memory", 256, _MOST_MEMORY)] = 2048,
    no_duplicates: Annotated[bool, _switch("no-duplicates")] = False,
    puzzle_bytes: Annotated[int, _number("puzzle-bytes", 100, _MOST_BYTES)] = _MIB,
    archive_files: Annotated[int, _number("archive-files", 1, _MOST_FILES)] = 500_000,
    archive_ratio: Annotated[int, _number("archive-ratio", 1, _MOST_RATIO)] = 200,
    letters: Annotated[str | None, _word("letters", "all|new")] = None,
    letter: Annotated[Path | None, _word("letter")] = None,
    repairs: Annotated[int, _number("repairs", 0, _MOST_FILES)] = 100,
    html: Annotated[Path | None, _word("html")] = None,
    pages: Annotated[int, _number("pages", 1, _MOST_PAGES)] = 1000,
    forget: Annotated[list[str] | None, _word("forget", "ADDRESS")] = None,
    report: Annotated[bool, _switch("report")] = False,
    state: Annotated[str | None, _word("list", "VERDICT")] = None,
    csv: Annotated[Path | None, _word("csv")] = None,
    jsonl: Annotated[Path | None, _word("jsonl")] = None,
    timings: Annotated[bool, _switch("timings")] = False,
) -> None:
    """Judge a box, or tell what the ledger of one holds."""
    named = box_settings_or_refuse()
    ledger = ledger or named.ledger
    if ledger is None:
        refuse(wording.NEEDS_LEDGER)
    page_ending_or_refuse(html)
    if forget:
        from verifier.cli.boxes.ledger import forget as forget_addresses

        raise typer.Exit(forget_addresses(ledger, forget, out or named.out))
    if report:
        judging = {"PATH": paths, "--out": out, "--printed": printed, "--cluster": cluster}
        judging |= {"--letters": letters, "--letter": letter}
        _refuse_any(judging, wording.report_judges_nothing)
        from verifier.cli.boxes.ledger import PageAsked, tell_ledger

        house_style = read_style_or_refuse(style or named.style)
        page = None if html is None else PageAsked(html, house_style, pages, state)
        judged_by = house_style if style or named.style else None
        raise typer.Exit(tell_ledger(ledger, state, csv, jsonl, page, judged_by, timings=timings))
    telling = {"--list": state, "--csv": csv, "--jsonl": jsonl, "--timings": timings}
    _refuse_any(telling, wording.needs_report)
    paths = paths or list(named.post)
    if not paths:
        refuse(wording.NEEDS_PATHS)
    from verifier.cli.boxes.ledger import PageAsked
    from verifier.cli.boxes.run import carry_out
    from verifier.files.limits import Limits
    from verifier.intake.limits import Bounds, WorkerLimits
    from verifier.intake.outcome import RunPlan
    from verifier.intake.settings import NO_SETTINGS, PAGE_NAME
    from verifier.intake.sources.listing import one_spelling
    from verifier.intake.sources.sources import Box, find_sources, not_there
    from verifier.intake.workers.judging import cores
    from verifier.intake.workers.task import RunSettings
    from verifier.verdict.judge import Settings

    out, style = out or named.out, style or named.style
    if html is None and out is not None and named != NO_SETTINGS:
        html = out / PAGE_NAME
    archive = named.archive if printed is None else (str(printed),)
    missing = not_there(paths)
    if missing:  # a slip of the pen is no submission, and the ledger forgets nothing
        refuse(wording.not_there(missing))
    for folder in archive:
        if not os.path.isdir(folder):
            refuse(filled(wording.NO_FOLDER_OF_PRINTED, folder=folder))
    house = read_style_or_refuse(style)
    limits, bounds = Limits(puzzle_bytes=puzzle_bytes), Bounds(members=archive_files, ratio=archive_ratio)
    plan = RunPlan(
        sources=tuple(map(one_spelling, paths)),
        out=out,
        ledger=ledger,
        settings=RunSettings(house, Settings(seconds=seconds), limits),
        limits=WorkerLimits(seconds=seconds + _GRACE, memory_bytes=memory * _MIB),
        jobs=jobs or cores(),
        cluster=cluster,
        duplicates=not no_duplicates,
        printed=tuple(map(one_spelling, archive)),
        letters=letters_or_refuse(letters, letter or named.letter, repairs, house),
    )
    no_puzzles = named.files if style is None else (*named.files, style)
    found = find_sources(plan.sources, leave_out=out, no_puzzles=no_puzzles)
    if out is not None and found.lie_in(out):  # a verdict file could come to stand in the place of one
        refuse(filled(wording.OUT_HOLDS_SUBMISSIONS, out=str(out)))
    before = None
    if plan.printed:
        shelf = find_sources(plan.printed, no_puzzles=no_puzzles)
        before = Box(shelf, sys.stdin.buffer, limits, bounds)
    page = None if html is None else PageAsked(html, plan.settings.style, pages)
    box = Box(found, sys.stdin.buffer, limits, bounds)
    raise typer.Exit(carry_out(plan, found, box, before, page))


def _refuse_any(options: Mapping[str, object], told: Callable[[Sequence[str]], str]) -> None:
    wrong = [name for name, value in options.items() if value]
    if wrong:
        refuse(told(wrong))

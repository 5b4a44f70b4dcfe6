"""``gridproof next``: help from a part-filled grid."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import (
    page_ending_or_refuse,
    refuse,
    refusing_to_write,
    say,
    show,
)
from verifier.cli.telling.exits import Exit
from verifier.cli.telling.puzzles import puzzle_and_so_far
from verifier.puzzle.printable import filled
from verifier.walkthrough.strength import Strength

if TYPE_CHECKING:
    from verifier.walkthrough.helping import Help

__all__ = ["next_step"]


def next_step(
    file: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    so_far: Annotated[Path, typer.Option("--so-far", metavar="FILE", help=wording.OPTIONS["so-far"])],
    strength: Annotated[Strength, typer.Option("--show", help=wording.OPTIONS["show"])] = Strength.WHY,
    drop_wrong: Annotated[bool, typer.Option("--drop-wrong", help=wording.OPTIONS["drop-wrong"])] = False,
    in_full: Annotated[bool, typer.Option("--spoken", help=wording.OPTIONS["spoken"])] = False,
    as_yaml: Annotated[bool, typer.Option("--yaml", help=wording.OPTIONS["next-yaml"])] = False,
    html: Annotated[
        Path | None, typer.Option("--html", metavar="FILE", help=wording.OPTIONS["next-html"])
    ] = None,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["next-seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Say what is wrong in a part-filled grid, or else the way to the next digit."""
    from verifier.walkthrough.help_record import help_as_yaml
    from verifier.walkthrough.help_text import doubts, help_in_words
    from verifier.walkthrough.helping import help_from
    from verifier.walkthrough.spoken import spoken

    page_ending_or_refuse(html)
    if as_yaml and in_full:
        refuse(wording.clash("--yaml", "--spoken"))
    for option, asked in (("--yaml", as_yaml), ("--html", html is not None)):
        if asked and strength is not Strength.WHY:
            refuse(wording.clash(option, f"--show {strength.value}"))
    puzzle, found = puzzle_and_so_far(file, so_far)
    voice = spoken if in_full else str
    given = help_from(puzzle, found, drop_wrong=drop_wrong, seconds=seconds)
    if html is not None:
        from verifier.intake.papers.files import write_whole
        from verifier.pages.help_page import help_page

        with refusing_to_write("--html"):
            write_whole(html, help_page(given, voice))
        say(filled(wording.PAGE_WRITTEN, path=str(html)))
    if as_yaml:
        show(help_as_yaml(given).rstrip())
        for line in doubts(given):
            say(line)
    elif html is None:
        for line in help_in_words(given, strength):
            show(voice(line))
    raise typer.Exit(_code(given))


def _code(given: Help) -> Exit:
    if given.mistakes or given.tally.count > 1 or given.unsolvable:
        return Exit.REJECTED
    settled = given.sound and (given.full or given.steps)
    return Exit.ACCEPTED if settled else Exit.UNDECIDED

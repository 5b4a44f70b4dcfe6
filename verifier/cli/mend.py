"""``gridproof mend``: what is wrong with a broken puzzle, and what would put it right."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import whole_number
from verifier.cli.telling.console import say, show
from verifier.cli.telling.exits import Exit, worst

if TYPE_CHECKING:
    from verifier.diagnosis.findings import Diagnosis

__all__ = ["mend"]

_MOST_SECONDS = 3600


def mend(
    file: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    as_yaml: Annotated[bool, typer.Option("--yaml", help=wording.OPTIONS["mend-yaml"])] = False,
    idle: Annotated[bool, typer.Option("--idle", help=wording.OPTIONS["idle"])] = False,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["budget"], parser=whole_number(1, _MOST_SECONDS)),
    ] = 20,
) -> None:
    """Say what is wrong with each puzzle of a file, and offer repairs."""
    from verifier.diagnosis.diagnose import diagnose
    from verifier.diagnosis.report import in_words, write_diagnosis
    from verifier.intake.sources.sources import find_sources, read_sources

    codes: set[Exit] = set()
    for entry in read_sources(find_sources([file]), sys.stdin.buffer):
        if entry.puzzle is None:
            say("\n".join(map(str, entry.faults)))
            codes.add(Exit.UNREADABLE)
            continue
        found = diagnose(entry.puzzle, seconds, clock=seconds, idle=idle)
        codes.add(_code(found))
        if as_yaml:
            show(f"--- # {entry.address}\n{write_diagnosis(found).rstrip()}")
        else:
            show(wording.heading(entry.address, found.puzzle.credits.title))
            show(in_words(found))
    raise typer.Exit(worst(codes) if codes else Exit.UNREADABLE)


def _code(found: Diagnosis) -> Exit:
    from verifier.diagnosis.findings import SolutionCount

    if found.count is SolutionCount.UNKNOWN:
        return Exit.UNDECIDED
    return Exit.ACCEPTED if found.sound else Exit.REJECTED

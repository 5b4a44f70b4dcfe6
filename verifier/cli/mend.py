"""``gridproof mend``: what is wrong with a broken puzzle, and what would put it right."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import whole_number
from verifier.cli.telling.console import show
from verifier.cli.telling.exits import Exit, worst
from verifier.cli.telling.puzzles import puzzles_in

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

    codes: set[Exit] = set()
    for address, puzzle in puzzles_in([file], codes):
        found = diagnose(puzzle, seconds, clock=seconds, idle=idle)
        codes.add(_code(found))
        if as_yaml:
            show(f"--- # {address}\n{write_diagnosis(found).rstrip()}")
        else:
            show(wording.heading(address, found.puzzle.credits.title))
            show(in_words(found))
    raise typer.Exit(worst(codes) if codes else Exit.UNREADABLE)


def _code(found: Diagnosis) -> Exit:
    from verifier.diagnosis.findings import SolutionCount

    if found.count is SolutionCount.UNKNOWN:
        return Exit.UNDECIDED
    return Exit.ACCEPTED if found.sound else Exit.REJECTED

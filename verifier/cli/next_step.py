"""``gridproof next``: help from a part-filled grid."""

from __future__ import annotations

import sys
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from verifier.cli import wording
from verifier.cli.numbers import MOST_SECONDS, whole_number
from verifier.cli.telling.console import refuse, say, show
from verifier.cli.telling.exits import Exit

if TYPE_CHECKING:
    from verifier.puzzle.puzzle import Puzzle
    from verifier.walkthrough.helping import Help

__all__ = ["Strength", "next_step"]


class Strength(Enum):
    """How much is given away."""

    WHERE = "where"
    """Where to look."""
    WHAT = "what"
    """Also what follows there."""
    WHY = "why"
    """Also the reason."""


def next_step(
    file: Annotated[str, typer.Argument(metavar="FILE", hidden=True)],
    so_far: Annotated[Path, typer.Option("--so-far", metavar="FILE", help=wording.OPTIONS["so-far"])],
    strength: Annotated[Strength, typer.Option("--show", help=wording.OPTIONS["show"])] = Strength.WHY,
    as_yaml: Annotated[bool, typer.Option("--yaml", help=wording.OPTIONS["next-yaml"])] = False,
    seconds: Annotated[
        int,
        typer.Option(metavar="N", help=wording.OPTIONS["next-seconds"], parser=whole_number(1, MOST_SECONDS)),
    ] = 300,
) -> None:
    """Say what is wrong in a part-filled grid, or else the next step."""
    from verifier.files.so_far import read_so_far
    from verifier.intake.sources.sources import STANDARD_INPUT
    from verifier.walkthrough.helping import help_from
    from verifier.walkthrough.record import help_as_yaml

    if as_yaml and strength is not Strength.WHY:
        refuse(wording.clash("--yaml", f"--show {strength.value}"))
    typed = str(so_far) == STANDARD_INPUT
    if typed and file == STANDARD_INPUT:
        refuse(wording.STANDARD_INPUT_TWICE)
    puzzle = _puzzle(file)
    if typed:
        found, faults = read_so_far(Path("standard input"), puzzle.grid, typed=sys.stdin.buffer)
    else:
        found, faults = read_so_far(so_far, puzzle.grid)
    if found is None:
        say("\n".join(map(str, faults)))
        raise typer.Exit(Exit.UNREADABLE)
    given = help_from(puzzle, found, seconds)
    if as_yaml:
        show(help_as_yaml(given).rstrip())
        for line in _doubts(given):
            say(line)
    else:
        for line in _said(given, strength):
            show(line)
    raise typer.Exit(_code(given))


def _puzzle(file: str) -> Puzzle:
    """Return the one puzzle of a file, or refuse the call."""
    from verifier.intake.sources.sources import find_sources, read_sources

    entries = list(read_sources(find_sources([file]), sys.stdin.buffer))
    if len(entries) > 1:
        refuse(wording.one_puzzle(file, len(entries)))
    puzzle = entries[0].puzzle if entries else None
    if puzzle is None:
        say("\n".join(str(fault) for entry in entries for fault in entry.faults))
        raise typer.Exit(Exit.UNREADABLE)
    return puzzle


def _said(given: Help, strength: Strength) -> list[str]:
    from grader.words.narrate import tell, what_to_do, where_to_look
    from verifier.walkthrough import wording as words

    if given.wrong or given.lost:
        return words.mistakes(given.puzzle, given.wrong, given.lost)
    said = _doubts(given)
    if given.taken is None:
        return said
    step, board = given.taken.step, given.taken.board
    said.append(where_to_look(step, board.layout))
    if strength is not Strength.WHERE:
        said.append(what_to_do(step, board.layout, board))
    if strength is Strength.WHY:
        said.append(tell(step, board.layout, board))
    return said


def _doubts(given: Help) -> list[str]:
    """Say what keeps entries from being judged, and why there is no next step where nothing is wrong."""
    from verifier.walkthrough import wording as words

    if given.wrong or given.lost:
        return []
    doubt = words.cannot_compare(given.puzzle, given.tally)
    nothing = words.nothing_next(given.tally, full=given.full, cut=given.cut) if given.taken is None else ""
    return [line for line in (doubt, nothing) if line]


def _code(given: Help) -> Exit:
    if given.wrong or given.lost or given.tally.count > 1 or (given.tally.complete and not given.sound):
        return Exit.REJECTED
    settled = given.sound and (given.full or given.taken is not None)
    return Exit.ACCEPTED if settled else Exit.UNDECIDED

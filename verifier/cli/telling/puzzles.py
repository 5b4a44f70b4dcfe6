"""The puzzles that a command is about: read one after the other, and faults told at once."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from verifier.cli import wording
from verifier.cli.telling.console import refuse, say, tell_faults
from verifier.cli.telling.exits import Exit
from verifier.puzzle.printable import filled

if TYPE_CHECKING:
    from verifier.files.reading import ReadEntry
    from verifier.files.so_far import SoFar
    from verifier.likeness.repeats import PrintedPuzzles
    from verifier.puzzle.puzzle import Puzzle

__all__ = ["printed_puzzles", "puzzle_and_so_far", "puzzles_in", "the_puzzle_in"]


def puzzles_in(files: Sequence[str], codes: set[Exit]) -> Iterator[tuple[str, Puzzle]]:
    """Yield the puzzles of files with their addresses; for those that cannot be read, a code is noted."""
    for entry in _entries(files):
        if entry.puzzle is None:
            tell_faults(entry.faults)
            codes.add(Exit.UNREADABLE)
        else:
            yield entry.address, entry.puzzle


def the_puzzle_in(file: str) -> Puzzle:
    """Return the one puzzle of a file, or end the call."""
    entries = list(_entries([file]))
    if len(entries) > 1:
        refuse(filled(wording.ONE_PUZZLE, file=file, count=len(entries)))
    puzzle = entries[0].puzzle if entries else None
    if puzzle is None:
        tell_faults(fault for entry in entries for fault in entry.faults)
        raise typer.Exit(Exit.UNREADABLE)
    return puzzle


def puzzle_and_so_far(file: str, so_far: Path) -> tuple[Puzzle, SoFar]:
    """Return the one puzzle of a file and a part-filled grid of it, or end the call.

    Parameters
    ----------
    file : str
        The puzzle's.
    so_far : Path
        The grid's; ``-`` for standard input, by which only one of the two can come.
    """
    from verifier.files.so_far import read_so_far
    from verifier.intake.sources.sources import STANDARD_INPUT

    typed = str(so_far) == STANDARD_INPUT
    if typed and file == STANDARD_INPUT:
        refuse(wording.STANDARD_INPUT_TWICE)
    puzzle = the_puzzle_in(file)
    name, stream = (Path("standard input"), sys.stdin.buffer) if typed else (so_far, None)
    found, faults = read_so_far(name, puzzle.grid, typed=stream)
    if found is None:
        tell_faults(faults)
        raise typer.Exit(Exit.UNREADABLE)
    return puzzle, found


def printed_puzzles(folder: Path) -> PrintedPuzzles:
    """Read what is compared with; say which of them could not be read."""
    from verifier.intake.papers.printed import printed_in

    if not folder.is_dir():
        refuse(filled(wording.NO_FOLDER_OF_PRINTED, folder=str(folder)))
    printed, unread = printed_in(folder)
    if unread:
        say(filled(wording.PRINTED_UNREAD, addresses=unread))
    return printed


def _entries(files: Sequence[str]) -> Iterator[ReadEntry]:
    from verifier.intake.sources.sources import find_sources, read_sources

    return read_sources(find_sources(files), sys.stdin.buffer)

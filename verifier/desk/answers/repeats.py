"""Which puzzles of a folder or a ledger the puzzle on the desk repeats."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from verifier.desk import wording
from verifier.intake.papers.printed import printed_in, printed_in_ledger
from verifier.intake.papers.wording import REPEATED
from verifier.likeness.repeats import PrintedPuzzles
from verifier.puzzle.grid import Filling
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Archive", "archive_at", "repeats_in"]

_MOST_NAMED = 20


@dataclass(frozen=True, slots=True)
class Archive:
    """What puzzles were compared with, and how it stood then.

    Parameters
    ----------
    state : tuple of int
        Changes whenever something in the folder or the ledger does.
    printed : PrintedPuzzles
        The puzzles.
    unread : tuple of str
        The addresses of those that could not be read.
    """

    state: tuple[int, ...]
    printed: PrintedPuzzles
    unread: tuple[str, ...] = ()


def archive_at(place: Path, known: Archive | None) -> Archive:
    """Return the puzzles of a folder or a ledger; what is known of it if nothing has changed there since.

    Raises
    ------
    IntakeError
        If it cannot be read.
    """
    state = _state(place)
    if known is not None and known.state == state:
        return known
    if place.is_dir():
        printed, unread = printed_in(place)
        return Archive(state, printed, tuple(unread))
    return Archive(state, printed_in_ledger(place))


def repeats_in(
    archive: Archive, place: Path, own: Path, puzzle: Puzzle, solution: Filling | None
) -> Iterator[str]:
    """Yield what a puzzle repeats, a sentence each, or that it repeats nothing.

    Parameters
    ----------
    archive : Archive
        What it is compared with.
    place : Path
        Where that is.
    own : Path
        The file of the puzzle, which may lie there.
    puzzle : Puzzle
        The puzzle.
    solution : filling or None
        Its only solution, where there is one.
    """
    found = archive.printed.repeated_by(puzzle, solution)
    others = [(name, guise) for name, guise in found.items() if Path(name).resolve() != own.resolve()]
    for name, guise in others[:_MOST_NAMED]:
        yield filled(wording.IT_REPEATS, name=name, guise=REPEATED[guise])
    if len(others) > _MOST_NAMED:
        yield filled(wording.MORE_REPEATED, number=len(others) - _MOST_NAMED)
    if not others:
        yield filled(wording.REPEATS_NOTHING, number=len(archive.printed), place=str(place))
    if archive.unread:
        yield filled(wording.UNREAD, addresses=archive.unread)


def _state(place: Path) -> tuple[int, ...]:
    """Return what changes when something in a folder, or a ledger with what it has not taken in yet, does."""
    files = place.rglob("*") if place.is_dir() else place.parent.glob(f"{place.name}*")
    found = []
    for file in files:
        try:
            seen = file.stat()
        except OSError:  # gone meanwhile
            continue
        found.append((seen.st_ino, seen.st_mtime_ns, seen.st_size))
    return tuple(number for each in sorted(found) for number in each)

"""Reading puzzle files: YAML, streams of YAML, JSON Lines and bare lines of 81 characters."""

from __future__ import annotations

from dataclasses import dataclass

from verifier.puzzle.faults import Fault
from verifier.puzzle.limits import Limits
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Entry", "Limits"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One puzzle of a file, or the faults that keep it from being read.

    Parameters
    ----------
    address : str
        The file, and ``#3`` where the file holds several; messages name the puzzle by it.
    puzzle : Puzzle or None
        None when it could not be read. Its ``credits.id`` is always set: without an id in the
        file it is the address without the folder.
    faults : tuple of Fault
        Everything that is wrong with the file, at once; empty when it could be read.
    """

    address: str
    puzzle: Puzzle | None
    faults: tuple[Fault, ...] = ()

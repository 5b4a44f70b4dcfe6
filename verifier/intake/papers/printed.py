"""The printed puzzles of a folder, to be compared with new ones."""

from __future__ import annotations

import io
from pathlib import Path

from verifier.intake.sources.sources import find_sources, read_sources
from verifier.likeness.repeats import PrintedPuzzles

__all__ = ["printed_in"]


def printed_in(folder: Path) -> tuple[PrintedPuzzles, list[str]]:
    """Return the printed puzzles of a folder, and the addresses of those that could not be read."""
    entries = list(read_sources(find_sources([str(folder)]), io.BytesIO()))
    unread = [entry.address for entry in entries if entry.puzzle is None]
    read = ((entry.address, entry.puzzle) for entry in entries if entry.puzzle is not None)
    return PrintedPuzzles(read), unread

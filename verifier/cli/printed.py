"""Comparing the puzzles of a run with those that were printed before."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from verifier.cli import wording
from verifier.cli.telling.console import refuse, say

if TYPE_CHECKING:
    from verifier.files.reading import ReadEntry
    from verifier.intake.workers.task import Judged
    from verifier.likeness.printed import Shelf
    from verifier.puzzle.puzzle import Puzzle

__all__ = ["Printed"]


class Printed:
    """Tells which puzzles of a run repeat a printed one; it changes no verdict.

    Parameters
    ----------
    folder : Path or None
        The printed puzzles, read at once; None compares nothing.
    """

    def __init__(self, folder: Path | None) -> None:
        self._puzzles: dict[str, Puzzle] = {}
        self._shelf = None if folder is None else _shelf(folder)

    def seen(self, entries: Iterable[ReadEntry]) -> Iterator[ReadEntry]:
        """Yield the entries as they come, and keep their puzzles until they are judged."""
        for entry in entries:
            if self._shelf is not None and entry.puzzle is not None:
                self._puzzles[entry.address] = entry.puzzle
            yield entry

    def take(self, judged: Judged) -> None:
        """Say what a judged puzzle repeats."""
        puzzle = self._puzzles.pop(judged.address, None)
        if self._shelf is None or puzzle is None:
            return
        rows = judged.verdict.solutions.grid if judged.verdict is not None else None
        solution = None if rows is None else tuple(digit for row in rows for digit in row)
        for repeat in self._shelf.repeats(puzzle, solution):
            say(wording.repeats(judged.address, repeat.name, repeat.guise.value))


def _shelf(folder: Path) -> Shelf:
    from verifier.intake.sources.sources import find_sources, read_sources
    from verifier.likeness.printed import Shelf

    if not folder.is_dir():
        refuse(wording.no_folder_of_printed(str(folder)))
    entries = list(read_sources(find_sources([str(folder)]), io.BytesIO()))
    unread = [entry.address for entry in entries if entry.puzzle is None]
    if unread:
        say(wording.printed_unread(unread))
    return Shelf((entry.address, entry.puzzle) for entry in entries if entry.puzzle is not None)

"""Where verdicts go: a stream of YAML, a folder of files, or nowhere while a table is gathered."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Protocol

from verifier.intake.papers.files import made_folder, write_whole
from verifier.intake.papers.naming import FileNames
from verifier.intake.workers.judging import Judged

__all__ = ["Folder", "Nowhere", "Output", "Stream"]


class Output(Protocol):
    """Takes the verdicts in order."""

    def take(self, judged: Judged) -> None:
        """Write one verdict; a puzzle that has none is passed over."""


class Stream:
    """Standard output: YAML documents, each begun with ``---``, and out at once."""

    def take(self, judged: Judged) -> None:
        """Write one verdict."""
        if judged.verdict is not None:
            sys.stdout.flush()
            sys.stdout.buffer.write(f"---\n{judged.text}".encode())
            sys.stdout.buffer.flush()


class Folder:
    """A folder: one file a puzzle, whole or not at all.

    Parameters
    ----------
    path : Path
        Made when it is not there.

    Raises
    ------
    CannotWriteError
        If it cannot be made; `take` raises it for a file that cannot be written.
    """

    def __init__(self, path: Path) -> None:
        self._path = made_folder(path)
        self._names = FileNames()

    def take(self, judged: Judged) -> None:
        """Write one verdict file."""
        if judged.verdict is not None:
            name = self._names.name_for(judged.verdict.puzzle.id, judged.address)
            write_whole(self._path / name, judged.text)


class Nowhere:
    """Writes nothing."""

    def take(self, judged: Judged) -> None:
        """Pass the verdict over."""

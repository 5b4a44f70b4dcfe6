"""Where verdicts go: a stream of YAML, a folder of files, or nowhere while a table is gathered."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path
from typing import Protocol

from verifier.cli.naming import FileNames
from verifier.intake.pool import Judged

__all__ = ["CannotWriteError", "Folder", "Nowhere", "Output", "Stream"]


class CannotWriteError(Exception):
    """A place for verdicts that cannot be written to.

    Parameters
    ----------
    where : str
        The file or folder.
    error : OSError
        What the system says.
    """

    def __init__(self, where: str, error: OSError) -> None:
        super().__init__(where)
        self.where = where
        self.why = error.strerror or str(error)


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
        self._path = path
        self._names = FileNames()
        try:
            path.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise CannotWriteError(str(path), error) from error

    def take(self, judged: Judged) -> None:
        """Write one verdict file."""
        if judged.verdict is not None:
            name = self._names.name_for(judged.verdict.puzzle.id, judged.address)
            try:
                _write_whole(self._path / name, judged.text)
            except OSError as error:
                raise CannotWriteError(str(self._path / name), error) from error


class Nowhere:
    """Writes nothing."""

    def take(self, judged: Judged) -> None:
        """Pass the verdict over."""


def _write_whole(path: Path, text: str) -> None:
    """Write a file under a name of its own first, so that a run that is cut short leaves no half verdict."""
    handle, unfinished = tempfile.mkstemp(prefix=".gridproof-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode())
        os.chmod(unfinished, 0o644)
        os.replace(unfinished, path)
    except BaseException:
        os.unlink(unfinished)
        raise

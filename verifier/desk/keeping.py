"""The file of the desk: written whole, followed when something else changes it, and never lost."""

from __future__ import annotations

import hashlib
import stat
from dataclasses import dataclass, replace
from pathlib import Path

from verifier.desk.drafting.draft_text import draft_in, draft_text
from verifier.desk.drafting.edits import empty_puzzle
from verifier.files.faults import Fault
from verifier.files.limits import DEFAULT_LIMITS
from verifier.intake.papers.files import numbered, write_whole
from verifier.puzzle.puzzle import Credits, Puzzle

__all__ = ["KeptFile", "Outside", "free_name"]

_USUAL_SIZE = 9


@dataclass(frozen=True, slots=True)
class Outside:
    """What something else has made of the file.

    Parameters
    ----------
    puzzle : Puzzle or None
        The one puzzle in it; None where it cannot be read, or is gone.
    faults : tuple of Fault
        Why not.
    data : bytes or None
        All that stands there; None where the file is gone.
    """

    puzzle: Puzzle | None
    faults: tuple[Fault, ...]
    data: bytes | None


class KeptFile:
    """A file that the desk writes, and others may write too.

    Parameters
    ----------
    path : Path
        Where it is; it need not be there yet.

    Attributes
    ----------
    key : str
        Tells it from other files of this machine, in hexadecimal figures, and says nothing of where it is.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        place = str(path.resolve()).encode("utf-8", "surrogateescape")
        self.key = hashlib.sha256(place).hexdigest()[:20]
        self._data: bytes | None = None
        self._sign: tuple[int, ...] | None = None

    def first(self) -> tuple[Puzzle | None, tuple[Fault, ...]]:
        """Return the puzzle in the file, an empty grid where there is none yet; or why it cannot be read."""
        if not self.path.exists():
            return empty_puzzle(_USUAL_SIZE, Credits(self.path.name)), ()
        outside = self.look() or Outside(None, (), None)
        return outside.puzzle, outside.faults

    def look(self) -> Outside | None:
        """Return what the file has become, if that is not what was written or seen last."""
        sign = self._sign_of_file()
        if sign == self._sign:
            return None
        data = None if sign is None else self._content()
        self._sign = sign
        if data == self._data:
            return None
        self._data = data
        return self._read(data)

    def text_of(self, puzzle: Puzzle) -> str:
        """Return what the file says when it holds a puzzle.

        Raises
        ------
        ValueError
            If no file can say such a puzzle.
        """
        names = puzzle.credits
        if names.id == self.path.name:  # that comes of the name of the file by itself
            names = replace(names, id="")
        return draft_text(replace(puzzle, credits=names))

    def write(self, puzzle: Puzzle) -> None:
        """Write a puzzle.

        Raises
        ------
        CannotWriteError
            If the file cannot be written.
        ValueError
            If no file can say such a puzzle.
        """
        data = self.text_of(puzzle).encode()
        write_whole(self.path, data)
        self._data, self._sign = data, self._sign_of_file()

    def put_aside(self, data: bytes) -> Path:
        """Write what something else has made of the file beside it, under a name that is free.

        Raises
        ------
        CannotWriteError
            If it cannot be written.
        """
        place = self.path.with_name(f"{self.path.stem}.outside{self.path.suffix}")
        number = 1
        while numbered(place, number).exists():
            number += 1
        write_whole(numbered(place, number), data)
        return numbered(place, number)

    def _sign_of_file(self) -> tuple[int, ...] | None:
        try:
            found = self.path.stat()
        except OSError:
            return None
        if not stat.S_ISREG(found.st_mode):  # a pipe would never be read to its end
            return None
        return found.st_mtime_ns, found.st_size, found.st_ino

    def _content(self) -> bytes | None:
        try:
            with self.path.open("rb") as file:
                return file.read(DEFAULT_LIMITS.puzzle_bytes + 1)
        except OSError:
            return None

    def _read(self, data: bytes | None) -> Outside:
        if data is None:
            return Outside(None, (), None)
        return Outside(*draft_in(data, self.path.name), data)


def free_name(folder: Path) -> Path:
    """Return where a puzzle without a file will be written: a name of which there is no file yet."""
    number = 1
    while numbered(folder / "puzzle.yaml", number).exists():
        number += 1
    return numbered(folder / "puzzle.yaml", number)

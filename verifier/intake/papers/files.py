"""Files that are whole or not there at all."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path

__all__ = ["CannotWriteError", "made_folder", "numbered", "remove", "stored", "write_whole"]


class CannotWriteError(Exception):
    """A place for verdicts that cannot be written to."""

    def __init__(self, where: str, error: OSError) -> None:
        super().__init__(where)
        self.where = where
        self.why = error.strerror or str(error)


def stored(path: Path) -> Path:
    """Return a path as the system takes it, whatever letters are in it.

    Names are kept as UTF-8 everywhere, also where the language settings of a machine know ASCII alone: the
    same run then leaves the same files.

    Examples
    --------
    >>> stored(Path("verdicts/low-tide.yaml")).name
    'low-tide.yaml'
    """
    return Path(os.fsdecode(str(path).encode("utf-8", "surrogateescape")))


def made_folder(path: Path) -> Path:
    """Make a folder if it is not there.

    Raises
    ------
    CannotWriteError
        If it cannot be made.
    """
    try:
        stored(path).mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CannotWriteError(str(path), error) from error
    return path


def write_whole(path: Path, text: str | bytes | Iterable[str]) -> None:
    """Write a file under a name of its own first, so that a run that is cut short leaves no half file.

    Parameters
    ----------
    path : Path
        Where to.
    text : str, bytes or iterable of str
        What; in pieces where it is long.

    Raises
    ------
    CannotWriteError
        If it cannot be written; what was there before is there still.
    """
    pieces = [text] if isinstance(text, str | bytes) else text
    data = (piece.encode() if isinstance(piece, str) else piece for piece in pieces)
    try:
        finished = stored(path).resolve()  # behind a link; the link stays
        if finished.exists() and not finished.is_file():
            with finished.open("wb") as taker:  # a pipe or a device, where no file must come to stand
                taker.writelines(data)
            return
        unfinished = _unfinished(finished)
        try:
            with unfinished.open("wb") as file:
                file.writelines(data)
            os.replace(unfinished, finished)
        except BaseException:
            unfinished.unlink(missing_ok=True)
            raise
    except OSError as error:
        raise CannotWriteError(str(path), error) from error


def remove(path: Path) -> None:
    """Remove a file that need not be there.

    Raises
    ------
    CannotWriteError
        If it cannot be removed.
    """
    try:
        stored(path).unlink(missing_ok=True)
        _unfinished(path).unlink(missing_ok=True)
    except OSError as error:
        raise CannotWriteError(str(path), error) from error


def numbered(path: Path, number: int) -> Path:
    """Return the name of the `number`-th of several files.

    Examples
    --------
    >>> numbered(Path("walk.html"), 1).name, numbered(Path("walk.html"), 2).name
    ('walk.html', 'walk-2.html')
    """
    return path if number == 1 else path.with_name(f"{path.stem}-{number}{path.suffix}")


def _unfinished(path: Path) -> Path:
    """Return where a file is written first.

    Always the same place for the same file: what a killed run leaves there is overwritten, and moved away,
    when that file is written after all.
    """
    place = stored(path)
    mark = hashlib.sha256(os.fsencode(place.name)).hexdigest()[:16]
    return place.with_name(f".gridproof-{mark}")

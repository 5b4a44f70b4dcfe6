"""Opening a file that a person names: whatever keeps it from being read is told in a few words."""

from __future__ import annotations

import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

__all__ = ["CannotOpenError", "opened"]


class CannotOpenError(Exception):
    """The file cannot be read; the message says why: ``no such file or directory``."""


@contextmanager
def opened(path: Path) -> Iterator[BinaryIO]:
    """Open a file for reading; folders and devices, which have no end, are refused.

    Raises
    ------
    CannotOpenError
        If it cannot be opened, or the disk fails while it is read.

    Examples
    --------
    >>> with opened(Path("no-such-file.yaml")):
    ...     pass
    Traceback (most recent call last):
        ...
    verifier.files.opening.CannotOpenError: no such file or directory
    """
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise CannotOpenError("a folder")
        if stat.S_ISCHR(mode) or stat.S_ISBLK(mode):
            raise CannotOpenError("a device")
        with path.open("rb") as stream:
            yield stream
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = getattr(error, "strerror", None) or "a name that no file can have"
        raise CannotOpenError(reason.lower()) from error

"""Telling what the machine lacks from what is a mistake of ours."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from enum import Enum

__all__ = ["WorkerWillNotStartError", "shortage_in"]


class WorkerWillNotStartError(Exception):
    """A worker ends before its first task: no puzzle can be judged on this machine. Says what it said."""


class Shortage(Enum):
    """What a machine lacks."""

    OUTPUT = "output"
    """A standard output that takes what is written to it."""
    HANDLES = "handles"
    """Files that may be open at the same time."""
    PROCESSES = "processes"
    """Processes or threads that may be started."""
    MEMORY = "memory"
    DISK = "disk"
    """Room, or a disk that can be written to and does not fail."""


_OF_SYSTEM = {
    errno.EMFILE: Shortage.HANDLES,
    errno.ENFILE: Shortage.HANDLES,
    errno.EAGAIN: Shortage.PROCESSES,
    errno.ENOMEM: Shortage.MEMORY,
    errno.ENOSPC: Shortage.DISK,
    errno.EDQUOT: Shortage.DISK,
    errno.EFBIG: Shortage.DISK,
    errno.EROFS: Shortage.DISK,
    errno.EIO: Shortage.DISK,
}
_OF_OUTPUT = frozenset({errno.EBADF, errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO})
"""Of an open file without a name: all others are written, and told, by `verifier.intake.papers.files`."""

_OF_DATABASE = {
    sqlite3.SQLITE_CANTOPEN: Shortage.HANDLES,  # of a temporary file: nobody could name a wrong one
    sqlite3.SQLITE_NOMEM: Shortage.MEMORY,
    sqlite3.SQLITE_FULL: Shortage.DISK,
    sqlite3.SQLITE_IOERR: Shortage.DISK,
}
_OF_WORDS = {
    **{os.strerror(number): lacking for number, lacking in _OF_SYSTEM.items()},
    "can't start new thread": Shortage.PROCESSES,
    "MemoryError": Shortage.MEMORY,
    "No usable temporary directory": Shortage.DISK,
}
"""What is said where there is no number: by a worker, or where a library cannot be loaded."""


def shortage_in(error: BaseException) -> Shortage | None:
    """Return what the machine lacks, if that is what led to an error; None where it is a mistake of ours.

    Examples
    --------
    >>> shortage_in(OSError(errno.EMFILE, "Too many open files")).value, shortage_in(KeyError(3))
    ('handles', None)
    """
    return next(filter(None, map(_of_one, _chain(error))), None)


def _chain(error: BaseException | None) -> Iterator[BaseException]:
    """Yield an error, and those from which it came."""
    met: set[int] = set()
    while error is not None and id(error) not in met:
        met.add(id(error))
        yield error
        error = error.__cause__ or error.__context__


def _of_one(error: BaseException) -> Shortage | None:
    if isinstance(error, MemoryError):
        return Shortage.MEMORY
    if isinstance(error, sqlite3.OperationalError):
        return _OF_DATABASE.get(error.sqlite_errorcode & 0xFF)
    if isinstance(error, OSError) and error.errno in _OF_OUTPUT and error.filename is None:
        return Shortage.OUTPUT
    if isinstance(error, OSError) and error.errno in _OF_SYSTEM:
        return _OF_SYSTEM[error.errno]
    if isinstance(error, OSError | ImportError | RuntimeError | WorkerWillNotStartError):
        return next((lacking for words, lacking in _OF_WORDS.items() if words in str(error)), None)
    return None

"""The files that the words of a command line name, each once and in order, however many they are."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from verifier.intake.sources.order import order_key

__all__ = ["ENDINGS", "Listing", "Source", "one_spelling", "size_of"]

ARCHIVE_ENDINGS = (".zip", ".tar", ".tar.gz", ".tgz", ".tar.xz", ".txz")
TABLE_ENDINGS = (".csv",)
ENDINGS = (".yaml", ".yml", ".json", ".jsonl", ".ndjson", ".txt", *TABLE_ENDINGS, *ARCHIVE_ENDINGS)
"""Files in a folder with other endings are passed over; a file that is named itself is always read."""


class Source(NamedTuple):
    """One thing to read.

    Parameters
    ----------
    path : str
        As a message names it.
    size : int
        Bytes; 0 where it is not known.
    trouble : str or None
        The code of the fault that keeps it from being read.
    real : str
        The one path of what is named so many ways; empty where nobody looked.
    """

    path: str
    size: int = 0
    trouble: str | None = None
    real: str = ""


class Listing:
    """Files to read, gathered in any order and given out in order.

    They are kept in a database of their own that moves to a temporary file by itself when it grows, so
    memory does not grow with their number.

    Attributes
    ----------
    bytes_listed : int
        The size of all files together.
    passed_over, settings, no_files : int
        What was met in folders and not entered: files whose ending is none of `ENDINGS`; those that were
        named as none with puzzles; and pipes, sockets and devices, which would keep a run waiting.

    Parameters
    ----------
    leave_out : Path, optional
        A folder that is not searched.
    no_puzzles : iterable of Path, optional
        Files that are passed over.
    """

    def __init__(self, leave_out: Path | None = None, no_puzzles: Iterable[Path] = ()) -> None:
        self._barred = {_real(str(path)) for path in (leave_out, *no_puzzles) if path is not None}
        self._barred_names = {os.path.basename(path) for path in self._barred}
        self.passed_over = self.settings = self.no_files = 0
        self._base = sqlite3.connect("", isolation_level=None)
        self._base.execute("PRAGMA journal_mode = OFF")
        self._base.execute(
            "CREATE TABLE listed (real BLOB PRIMARY KEY, place BLOB, path BLOB, size INTEGER, trouble TEXT)"
            " WITHOUT ROWID"
        )
        self.bytes_listed = 0

    def add(self, source: Source) -> None:
        """Enter a file; one that was entered before, by whatever path, is not entered again."""
        shown = str(Path(source.path))  # without "./"
        path, real = os.fsencode(shown), os.fsencode(_real(shown))
        row = (real, order_key(shown), path, source.size, source.trouble)
        done = self._base.execute("INSERT OR IGNORE INTO listed VALUES (?, ?, ?, ?, ?)", row)
        self.bytes_listed += source.size if done.rowcount else 0

    def __len__(self) -> int:
        (number,) = self._base.execute("SELECT count(*) FROM listed").fetchone()
        return int(number)

    def __iter__(self) -> Iterator[Source]:
        rows = self._base.execute("SELECT path, size, trouble, real FROM listed ORDER BY place, path")
        for path, size, trouble, real in rows:
            yield Source(os.fsdecode(path), size, trouble, os.fsdecode(real))

    def add_below(self, folder: str) -> int:
        """Enter the files below a folder, and return how many.

        Hidden files and folders are left out. A link is followed only to a file below the same folder:
        a box that a stranger packed must not bring in what stands elsewhere on the machine.
        """
        root = _real(folder)
        entered = 0
        places = [folder]
        while places:
            place = places.pop()
            try:
                with os.scandir(place) as entries:
                    for entry in entries:
                        if entry.name.startswith("."):
                            continue
                        if entry.is_dir(follow_symlinks=False):
                            places += [] if _real(entry.path) in self._barred else [entry.path]
                        elif (source := self._source(entry, root)) is not None:
                            entered += 1
                            self.add(source)
            except OSError:
                entered += 1
                self.add(Source(place, trouble="folder-closed"))
        return entered

    def _source(self, entry: os.DirEntry[str], root: str) -> Source | None:
        """Return how a file in a folder is listed; None for one that is passed over."""
        if entry.is_symlink():
            target = _real(entry.path)
            if os.path.isdir(target):
                return None
            if os.path.commonpath([root, target]) != root:
                return Source(entry.path, trouble="link-out") if _has_ending(entry.name) else None
        if not _is_file(entry) and os.path.exists(entry.path):
            self.no_files += 1
        elif not _has_ending(entry.name):
            self.passed_over += _is_file(entry)
        elif entry.name in self._barred_names and _real(entry.path) in self._barred:
            self.settings += 1
        else:
            return Source(entry.path, size_of(entry.path))
        return None


def _has_ending(name: str) -> bool:
    return name.lower().endswith(ENDINGS)


def _is_file(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_file()
    except OSError:  # a link that leads in a circle
        return False


def size_of(path: str) -> int:
    """Return how many bytes a file has; 0 where that cannot be found out."""
    try:
        return os.stat(path).st_size
    except (OSError, ValueError):
        return 0


def one_spelling(word: str) -> str:
    """Return a path as it is always written, however it was typed.

    That is the shorter of two: as seen from the folder in which one is, or from the root. A ledger then knows
    a file again.

    Examples
    --------
    >>> one_spelling(os.path.abspath("post/../post/")), one_spelling("-")
    ('post', '-')
    """
    if word == "-":
        return word
    real = _real(word)
    try:
        near = os.path.relpath(real)
    except ValueError:  # on another drive
        return real
    return min(near, real, key=len)


def _real(path: str) -> str:
    try:
        return os.path.realpath(path)
    except ValueError:  # a NUL in the name; reading it gives the fault
        return path

"""The ledger: one SQLite file that holds every submission and what became of it.

It is the record of what was decided, of what was scheduled and printed, and of what was written to whom.
Whatever is committed survives the death of the process; with ``synchronous=FULL`` also a power cut, as far
as the disk keeps its promises. That costs one ``fsync`` a commit, so the run commits twice a second rather
than for every puzzle: a cut costs the last half second.
"""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from verifier.intake.ledger.makers import Makers, key_of
from verifier.intake.ledger.opening import LedgerError, errors_told, opened_to_read, opened_to_write

__all__ = ["Ledger", "LedgerError", "existing_ledger", "new_or_existing_ledger"]


def new_or_existing_ledger(path: Path) -> Ledger:
    """Open a ledger to write to it, made if there is none; one run at a time has it.

    Raises
    ------
    LedgerError
        If it cannot be opened, is no ledger, is of a version not known here, or another run has it.
    """
    return Ledger(path, *opened_to_write(path))


def existing_ledger(path: Path) -> Ledger:
    """Open a ledger to read it, also while a run is writing to it.

    Raises
    ------
    LedgerError
        If there is none, or it cannot be read.
    """
    return Ledger(path, opened_to_read(path))


class Ledger:
    """An open ledger: what is asked of it and changed in it, kept together until `commit`.

    What stands in it is read and written by the modules beside this one, each for its own tables.

    Attributes
    ----------
    path : Path
        The file.
    run : int
        The number of the run that is writing; 0 where none is.
    arrival : int
        How many runs had come to their end when it began: the same for a run that was cut short and those
        that take it up.
    makers : Makers or None
        What makes the verdicts of the run.
    """

    def __init__(self, path: Path, base: sqlite3.Connection, lock: sqlite3.Connection | None = None) -> None:
        self.path, self.run, self.arrival = path, 0, 0
        self.makers: Makers | None = None
        self._base, self._lock = base, lock
        self._folder = os.path.dirname(os.path.realpath(path))

    def __enter__(self) -> Ledger:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close it; what was not committed is gone."""
        self._base.close()
        if self._lock is not None:
            self._lock.close()

    def begin_run(self, sources: Sequence[str], makers: Makers) -> None:
        """Enter a run, and what makes its verdicts."""
        self.makers = makers
        for maker in (makers.judging, makers.reading):
            self.change("INSERT OR IGNORE INTO makers VALUES (?, ?)", (key_of(maker), json.dumps(maker)))
        row = (now(), json.dumps(list(sources)))
        self.change("INSERT INTO runs (started, sources) VALUES (?, ?)", row)
        ((self.run, self.arrival),) = self.rows("SELECT max(run), count(ended) FROM runs")
        self.commit()

    def end_run(self) -> None:
        """Enter that the run came to its end."""
        self.change("UPDATE runs SET ended = ? WHERE run = ?", (now(), self.run))
        self.commit()

    @property
    def mark(self) -> str:
        """What tells it from every other ledger."""
        ((mark,),) = self.rows("SELECT mark FROM marks")
        return str(mark)

    def maker(self, key: str) -> Mapping[str, Any]:
        """Return what made verdicts, by its key; nothing where that is not known."""
        row = next(self.rows("SELECT record FROM makers WHERE maker = ?", (key,)), None)
        record: Mapping[str, Any] = {} if row is None else json.loads(row[0])
        return record

    def seen_from_here(self, path: str) -> bytes:
        """Return a path as the ledger keeps it: from its own folder, so that both can be moved together.

        Standard input is no path, and stays ``-``.
        """
        if path in ("", "-"):
            return path.encode()
        try:
            return os.fsencode(os.path.relpath(path, self._folder))
        except ValueError:  # on another drive, or with a NUL in it
            return os.fsencode(path)

    def real_path(self, seen: bytes) -> bytes:
        """Return the real path of what `seen_from_here` gave."""
        if seen in (b"", b"-"):
            return seen
        return os.path.normpath(os.path.join(os.fsencode(self._folder), seen))

    def change(self, statement: str, values: Sequence[Any] | Mapping[str, Any] = ()) -> int:
        """Change something; return the number of the last line that was put in."""
        with errors_told(self.path):
            if not self._base.in_transaction:
                self._base.execute("BEGIN IMMEDIATE")
            return self._base.execute(statement, values).lastrowid or 0

    def rows(
        self, statement: str, values: Sequence[Any] | Mapping[str, Any] = ()
    ) -> Iterator[tuple[Any, ...]]:
        """Yield what a query finds, as it is asked for."""
        with errors_told(self.path):
            yield from self._base.execute(statement, values)

    def submissions(self, columns: str, wanted: str, values: Sequence[Any] = ()) -> Iterator[tuple[Any, ...]]:
        """Yield some columns of submissions in an order, as they are asked for.

        Only what is sorted by is sorted, and the rest fetched row by row: else the database takes memory as
        the ledger grows.

        Parameters
        ----------
        columns : str
            What to select.
        wanted : str
            What stands behind the table's name: conditions, order, limit.
        values : sequence, optional
            For the question marks in `wanted`.
        """
        for number in self.rows(f"SELECT submission FROM submissions {wanted}", values):
            yield next(self.rows(f"SELECT {columns} FROM submissions WHERE submission = ?", number))

    def commit(self) -> None:
        """Make the changes so far survive whatever comes."""
        with errors_told(self.path):
            if self._base.in_transaction:
                self._base.execute("COMMIT")


def now() -> str:
    """Return the moment, in UTC."""
    return datetime.now(UTC).isoformat(timespec="seconds")

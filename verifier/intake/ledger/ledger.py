"""The ledger: one SQLite file that holds every submission and what became of it.

It is the record of what was decided. Whatever is committed survives the death of the process; with
``synchronous=FULL`` also a power cut, as far as the disk keeps its promises. That costs one ``fsync`` a
commit, so the run commits twice a second rather than for every puzzle: a cut costs the last half second.
"""

from __future__ import annotations

import errno
import json
import sqlite3
import zlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from verifier.files.documents import Document, Form
from verifier.files.submissions import Submission
from verifier.intake.errors import IntakeError
from verifier.intake.ledger import wording
from verifier.intake.ledger.makers import LIKENESS_BY, WAITING, LedgerEntry, Makers, key_of, state_of
from verifier.intake.ledger.schema import ADDITIONS, APPLICATION, CREDITS, FIGURES, LIKENESS, TABLES, VERSION
from verifier.intake.sources.order import order_key
from verifier.intake.workers.task import Judged
from verifier.likeness.guises import Likeness
from verifier.puzzle.printable import printable
from verifier.verdict.verdict import Identity, Verdict

__all__ = [
    "Ledger",
    "LedgerError",
    "existing_ledger",
    "new_or_existing_ledger",
    "unpacked_document",
    "unpacked_verdict",
]

_PATIENCE = 10.0  # seconds to wait for another process that writes
_PACKING = 1  # of zlib: a third of the size is enough, speed matters more
_BUG = "mistake-of-ours"
_CUT_SHORT = ("reading-lost", "file-slow", "archive-slow")
"""Faults over which a clock or a limit on memory decided: what has them is tried again."""


class LedgerError(IntakeError):
    """A ledger that cannot be used.

    Parameters
    ----------
    where : str
        Its path.
    code : str
        What is wrong: ``busy``, ``full``, ``foreign``, ``version``, ``closed``, ``missing`` or ``damaged``.
    says : str
        What the system says.
    """

    def __init__(self, where: str, code: str, says: str = "") -> None:
        trouble = wording.LEDGER_TROUBLES[code].format(says=says)
        super().__init__(wording.LEDGER.format(where=printable(where, 300), trouble=trouble))
        self.where, self.code, self.says = where, code, says


def new_or_existing_ledger(path: Path) -> Ledger:
    """Open a ledger to write to it, made if there is none; one run at a time has it.

    Raises
    ------
    LedgerError
        If it cannot be opened, is no ledger, is of another version, or another run has it.
    """
    if path.is_file() and path.stat().st_size:
        existing_ledger(path).close()  # or nothing of a file of somebody else's, or beside it, is touched
    with ExitStack() as opened:
        lock = opened.enter_context(closing(_locked(path)))
        if not path.is_file() or not path.stat().st_size:
            _create(path)
        base = opened.enter_context(closing(_connected(path, f"file:{_as_uri(path)}?mode=rw")))
        with _errors_told(path):
            base.execute("PRAGMA journal_mode = WAL")
            base.execute("PRAGMA synchronous = FULL")
            base.executescript(f"BEGIN IMMEDIATE; {ADDITIONS} COMMIT;")
        opened.pop_all()
    return Ledger(path, base, lock)


def existing_ledger(path: Path) -> Ledger:
    """Open a ledger to read it, also while a run is writing to it.

    Raises
    ------
    LedgerError
        If there is none, or it cannot be read.
    """
    if not path.is_file():
        raise LedgerError(str(path), "missing")
    base = _connected(path, f"file:{_as_uri(path)}?mode=ro")
    try:
        _check(path, base)
    except LedgerError as error:
        if error.code != "closed":
            raise
        # In a folder that cannot be written to, SQLite reads only what it is told will not change.
        base = _connected(path, f"file:{_as_uri(path)}?mode=ro&immutable=1")
        _check(path, base)
    return Ledger(path, base, None)


class Ledger:
    """An open ledger. Changes are kept together until `commit`.

    Attributes
    ----------
    path : Path
        The file.
    run : int
        The number of the run that is writing; 0 where none is.
    """

    def __init__(self, path: Path, base: sqlite3.Connection, lock: sqlite3.Connection | None) -> None:
        self.path, self.run = path, 0
        self._base, self._lock = base, lock
        self._makers: Makers | None = None

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
        self._makers = makers
        for maker in (makers.judging, makers.reading):
            self._do("INSERT OR IGNORE INTO makers VALUES (?, ?)", (key_of(maker), json.dumps(maker)))
        row = (_now(), json.dumps(list(sources)))
        self._do("INSERT INTO runs (started, sources) VALUES (?, ?)", row)
        ((self.run,),) = self.rows("SELECT max(run) FROM runs")
        self.commit()

    def end_run(self) -> None:
        """Enter that the run came to its end."""
        self._do("UPDATE runs SET ended = ? WHERE run = ?", (_now(), self.run))
        self.commit()

    def look(self, address: str) -> LedgerEntry | None:
        """Return what is known of an address."""
        columns = "digest, line, run, state, provisional, maker, likeness_by, file"
        row = next(self.rows(f"SELECT {columns} FROM submissions WHERE address = ?", (address,)), None)
        return None if row is None else LedgerEntry(*row)

    @property
    def mark(self) -> str:
        """What tells it from every other ledger; to be had where it was opened for writing."""
        ((mark,),) = self.rows("SELECT mark FROM marks")
        return str(mark)

    def maker(self, key: str) -> Mapping[str, Any]:
        """Return what made verdicts, by its key; nothing where that is not known."""
        row = next(self.rows("SELECT record FROM makers WHERE maker = ?", (key,)), None)
        record: Mapping[str, Any] = {} if row is None else json.loads(row[0])
        return record

    def note_seen(self, address: str) -> None:
        """Enter that a submission was in the box again, as it was."""
        self._do("UPDATE submissions SET run = ? WHERE address = ?", (self.run, address))

    def enter(self, sent: Submission) -> None:
        """Enter a submission that is to be judged; an earlier verdict under its address no longer counts."""
        row = (sent.address, order_key(sent.address), sent.digest, self.run, *_as_sent(sent.document))
        forgotten = ", ".join(f"{name} = NULL" for name in (*CREDITS, *FIGURES, *LIKENESS, "verdict"))
        self._do(
            "INSERT INTO submissions (address, place, digest, run, line, form, sent, state)"
            f" VALUES (?, ?, ?, ?, ?, ?, ?, '{WAITING}') ON CONFLICT (address) DO UPDATE SET"
            " digest = excluded.digest, run = excluded.run, line = excluded.line, form = excluded.form,"
            " sent = excluded.sent, state = excluded.state,"
            f" provisional = 0, reasons = '[]', {forgotten}",
            row,
        )

    def record(self, judged: Judged) -> None:
        """Enter what became of a submission."""
        assert self._makers is not None
        verdict = judged.verdict
        state = state_of(judged)
        values = {
            "state": state,
            "provisional": verdict.provisional if verdict else _is_passing(judged),
            "maker": self._makers.key(state),
            "reasons": json.dumps(_reasons(judged), ensure_ascii=False),
            "seconds": judged.seconds,
            "judged_at": _now(),
            **_credits(judged.puzzle),
            **_figures(verdict),
            "verdict": zlib.compress(judged.text.encode(), _PACKING) if verdict else None,
            **_likeness(judged.likeness),
        }
        if judged.faults:  # nobody can draw it, and of what strangers send, only puzzles are worth keeping
            values |= dict.fromkeys(("form", "sent"))
        columns = ", ".join(f"{name} = :{name}" for name in values)
        self._do(
            f"UPDATE submissions SET {columns}, tries = tries + :tries WHERE address = :address",
            {**values, "tries": judged.tries, "address": judged.address},
        )

    def record_likeness(self, judged: Judged) -> None:
        """Enter what a submission looks like whose verdict stands."""
        values = _likeness(judged.likeness) | {"likeness_by": LIKENESS_BY}
        columns = ", ".join(f"{name} = :{name}" for name in values)
        self._do(
            f"UPDATE submissions SET {columns} WHERE address = :address", values | {"address": judged.address}
        )

    def printed(self, address: str) -> tuple[str, str | None] | None:
        """Return digest and versions of the keys of a printed puzzle."""
        return next(self.rows("SELECT digest, likeness_by FROM printed WHERE address = ?", (address,)), None)

    def record_printed(self, sent: Submission, judged: Judged | None) -> None:
        """Enter a printed puzzle; without a result, only that it is still there."""
        if judged is None:
            self._do("UPDATE printed SET run = ? WHERE address = ?", (self.run, sent.address))
            return
        values = {
            "address": sent.address,
            "digest": sent.digest,
            "run": self.run,
            **{name: _credits(judged.puzzle)[name] for name in ("id", "title", "setter", "content")},
            **_likeness(judged.likeness),
            "likeness_by": LIKENESS_BY,
        }
        columns, places = ", ".join(values), ", ".join(f":{name}" for name in values)
        self._do(f"INSERT OR REPLACE INTO printed ({columns}) VALUES ({places})", values)

    def forget_printed(self) -> None:
        """Forget printed puzzles that were not there in this run."""
        self._do("DELETE FROM printed WHERE run < ?", (self.run,))

    def change(self, statement: str, values: Sequence[Any] = ()) -> None:
        """Change something that is no submission's state."""
        self._do(statement, values)

    def rows(self, statement: str, values: Sequence[Any] = ()) -> Iterator[tuple[Any, ...]]:
        """Yield what a query finds, as it is asked for."""
        with _errors_told(self.path):
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
        for address in self.rows(f"SELECT address FROM submissions {wanted}", values):
            yield next(self.rows(f"SELECT {columns} FROM submissions WHERE address = ?", address))

    def commit(self) -> None:
        """Make the changes so far survive whatever comes."""
        with _errors_told(self.path):
            if self._base.in_transaction:
                self._base.execute("COMMIT")

    def _do(self, statement: str, values: Sequence[Any] | Mapping[str, Any]) -> None:
        with _errors_told(self.path):
            if not self._base.in_transaction:
                self._base.execute("BEGIN IMMEDIATE")
            self._base.execute(statement, values)


def unpacked_verdict(packed: bytes) -> str:
    """Return the YAML of a verdict as the ledger keeps it."""
    return zlib.decompress(packed).decode()


def unpacked_document(line: int, form: str, packed: bytes) -> Document:
    """Return the bytes of a puzzle as the ledger keeps them."""
    data = zlib.decompress(packed)
    return Document(Form[form], line, data, len(data))


def _as_sent(document: Document | None) -> tuple[int | None, str | None, bytes | None]:
    """Return line, form and packed bytes of what was sent."""
    if document is None:
        return None, None, None
    return document.line, document.form.name, zlib.compress(document.data, _PACKING)


def _reasons(judged: Judged) -> list[dict[str, str]]:
    if judged.verdict is not None:
        return [{"code": reason.code, "says": reason.says} for reason in judged.verdict.reasons]
    if judged.faults:
        return [{"code": fault.code, "says": str(fault)} for fault in judged.faults]
    return [{"code": _BUG, "says": judged.trace.strip().rpartition("\n")[2]}]


def _is_passing(judged: Judged) -> bool:
    return any(fault.code in _CUT_SHORT for fault in judged.faults)


def _credits(puzzle: Identity | None) -> dict[str, str | None]:
    return {name: None if puzzle is None else getattr(puzzle, name) for name in CREDITS}


def _figures(verdict: Verdict | None) -> dict[str, Any]:
    figures: dict[str, Any] = dict.fromkeys(FIGURES)
    if verdict is not None:
        figures |= {"solutions": verdict.solutions.count, "complete": verdict.solutions.complete}
        grade = verdict.difficulty
        if grade is not None:
            names = ("tier", "hardest", "effort", "rounds", "steps", "solved_by_logic")
            figures |= {name: getattr(grade, name) for name in names}
            figures["tier_name"] = grade.name
    return figures


def _likeness(likeness: Likeness | None) -> dict[str, str | None]:
    if likeness is None:
        return dict.fromkeys(LIKENESS)
    found = {name: getattr(likeness, name) for name in LIKENESS if name != "likeness_by"}
    return {**found, "likeness_by": LIKENESS_BY}


def _create(path: Path) -> None:
    """Make an empty ledger beside its place and put it there: a half-made one is never taken for one."""
    unfinished = path.with_name(f"{path.name}.new")
    with _errors_told(path):
        unfinished.unlink(missing_ok=True)
        with closing(_connected(path, f"file:{_as_uri(unfinished)}?mode=rwc")) as base:
            head = f"PRAGMA application_id = {APPLICATION}; PRAGMA user_version = {VERSION};"
            base.executescript(f"BEGIN; {head} {TABLES} COMMIT;")
        unfinished.replace(path)


def _locked(path: Path) -> sqlite3.Connection:
    """Return what holds the ledger for one run: the lock of a database beside it, gone with the process.

    The ledger itself stays open to readers.
    """
    lock = _connected(path, f"file:{_as_uri(path)}.lock?mode=rwc", patience=0.0)
    try:
        with _errors_told(path):
            lock.execute("PRAGMA journal_mode = MEMORY")  # nothing is ever written
            lock.execute("BEGIN EXCLUSIVE")
    except LedgerError:
        lock.close()
        raise
    return lock


def _connected(path: Path, uri: str, patience: float = _PATIENCE) -> sqlite3.Connection:
    with _errors_told(path):
        return sqlite3.connect(uri, uri=True, timeout=patience, isolation_level=None)


def _check(path: Path, base: sqlite3.Connection) -> None:
    with _errors_told(path):
        (application,) = base.execute("PRAGMA application_id").fetchone()
        (version,) = base.execute("PRAGMA user_version").fetchone()
    if application != APPLICATION:
        raise LedgerError(str(path), "foreign")
    if version != VERSION:
        raise LedgerError(str(path), "version", f"{version}, not {VERSION}")


@contextmanager
def _errors_told(path: Path) -> Iterator[None]:
    try:
        yield
    except sqlite3.Error as error:
        raise LedgerError(str(path), _code(error), str(error)) from error
    except OSError as error:
        code = "full" if error.errno == errno.ENOSPC else "closed"
        raise LedgerError(str(path), code, error.strerror or str(error)) from error


_CODES = {
    sqlite3.SQLITE_BUSY: "busy",
    sqlite3.SQLITE_LOCKED: "busy",
    sqlite3.SQLITE_FULL: "full",
    sqlite3.SQLITE_NOTADB: "foreign",
    sqlite3.SQLITE_CANTOPEN: "closed",
    sqlite3.SQLITE_READONLY: "closed",
    sqlite3.SQLITE_PERM: "closed",
    sqlite3.SQLITE_IOERR: "full",  # what a quota or a network disk gives instead
}


def _code(error: sqlite3.Error) -> str:
    number = getattr(error, "sqlite_errorcode", 0) & 0xFF  # the rest says where in SQLite it came up
    return _CODES.get(number, "damaged")


def _as_uri(path: Path) -> str:
    return str(path.absolute()).replace("%", "%25").replace("?", "%3f").replace("#", "%23")


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")

"""Opening a ledger: one run at a time writes to it, anyone may read it, an older one is brought up first."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path

from verifier.intake.errors import IntakeError
from verifier.intake.ledger import wording
from verifier.intake.ledger.migration import OLDEST, copy_name, migrate
from verifier.intake.ledger.schema import APPLICATION, TABLES, VERSION
from verifier.puzzle.printable import printable

__all__ = ["LedgerError", "errors_told", "locked", "opened_to_read", "opened_to_write"]

_PATIENCE = 10.0  # seconds to wait for another process that writes


class LedgerError(IntakeError):
    """A ledger that cannot be used.

    Parameters
    ----------
    where : str
        Its path.
    code : str
        What is wrong: a key of `verifier.intake.ledger.wording.LEDGER_TROUBLES`.
    says : str
        What the system says.
    """

    def __init__(self, where: str, code: str, says: str = "") -> None:
        trouble = wording.LEDGER_TROUBLES[code].format(says=says)
        super().__init__(wording.LEDGER.format(where=printable(where, 300), trouble=trouble))
        self.where, self.code, self.says = where, code, says


def opened_to_write(path: Path) -> tuple[sqlite3.Connection, sqlite3.Connection]:
    """Return a ledger, made if there is none, and what holds it for one run alone.

    Raises
    ------
    LedgerError
        If it cannot be opened, is no ledger, is of a version not known here, or another run has it.
    """
    if _has_content(path):
        opened_to_read(path).close()  # or nothing of a file of somebody else's, or beside it, is touched
    with ExitStack() as opened:
        lock = opened.enter_context(closing(locked(path)))
        if not _has_content(path):
            _create(path)
        base = opened.enter_context(closing(_connected(path, "rw")))
        with errors_told(path):
            base.execute("PRAGMA journal_mode = WAL")
            base.execute("PRAGMA synchronous = FULL")
        opened.pop_all()
    return base, lock


def opened_to_read(path: Path) -> sqlite3.Connection:
    """Return a ledger that is there, also while a run is writing to it; one of an older version is migrated.

    Raises
    ------
    LedgerError
        If there is none, it cannot be read, or is of a version not known here.
    """
    if not path.is_file():
        raise LedgerError(str(path), "missing")
    base = _connected(path, "ro")
    try:
        version = _version(path, base)
    except LedgerError as error:
        base.close()
        if error.code != "closed":
            raise
        # In a folder that cannot be written to, SQLite reads only what it is told will not change.
        base = _connected(path, "ro&immutable=1")
        version = _version(path, base)
    if version == VERSION:
        return base
    base.close()
    _bring_up(path, version)
    return _connected(path, "ro")


def locked(path: Path) -> sqlite3.Connection:
    """Return what holds the ledger for one run: the lock of a database beside it, gone with the process.

    The ledger itself stays open to readers.
    """
    lock = _connected(path.with_name(f"{path.name}.lock"), "rwc", patience=0.0, told=path)
    try:
        with errors_told(path):
            lock.execute("PRAGMA journal_mode = MEMORY")  # nothing is ever written
            lock.execute("BEGIN EXCLUSIVE")
    except LedgerError:
        lock.close()
        raise
    return lock


def _has_content(path: Path) -> bool:
    return path.is_file() and path.stat().st_size > 0


def _create(path: Path) -> None:
    """Make an empty ledger beside its place and put it there: a half-made one is never taken for one."""
    unfinished = path.with_name(f"{path.name}.new")
    with errors_told(path):
        unfinished.unlink(missing_ok=True)
        with closing(_connected(unfinished, "rwc", told=path)) as base:
            head = f"PRAGMA application_id = {APPLICATION}; PRAGMA user_version = {VERSION};"
            mark = "INSERT INTO marks SELECT lower(hex(randomblob(16)));"
            base.executescript(f"BEGIN; {head} {TABLES} {mark} COMMIT;")
        unfinished.replace(path)


def _bring_up(path: Path, version: int) -> None:
    """Bring an older ledger up to this version, with a copy of it kept beside it."""
    with closing(locked(path)), errors_told(path), closing(_connected(path, "rw")) as base:
        if _version(path, base) != VERSION:  # another process may have been first
            unfinished = path.with_name(f"{path.name}.copying")
            unfinished.unlink(missing_ok=True)
            with closing(_connected(unfinished, "rwc", told=path)) as copy:
                base.backup(copy)
            unfinished.replace(copy_name(path, version))
            migrate(base)


def _version(path: Path, base: sqlite3.Connection) -> int:
    """Return the version of a ledger, where it is one that can be used here."""
    with errors_told(path):
        (application,) = base.execute("PRAGMA application_id").fetchone()
        (version,) = base.execute("PRAGMA user_version").fetchone()
    if application != APPLICATION:
        raise LedgerError(str(path), "foreign")
    if not OLDEST <= version <= VERSION:
        raise LedgerError(str(path), "newer" if version > VERSION else "too-old", f"{version}, not {VERSION}")
    return int(version)


def _connected(
    path: Path, mode: str, patience: float = _PATIENCE, told: Path | None = None
) -> sqlite3.Connection:
    place = str(path.absolute()).replace("%", "%25").replace("?", "%3f").replace("#", "%23")
    with errors_told(told or path):
        return sqlite3.connect(f"file:{place}?mode={mode}", uri=True, timeout=patience, isolation_level=None)


@contextmanager
def errors_told(path: Path) -> Iterator[None]:
    """Tell what the database or the system cannot do as a `LedgerError`."""
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

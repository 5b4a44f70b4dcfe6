"""Bringing a ledger of an earlier version up to this one."""

from __future__ import annotations

import os
import re
import sqlite3
import zlib
from itertools import count
from pathlib import Path

from verifier.files.submissions import digest_of_sent
from verifier.intake.ledger.schema import TABLES, VERSION

__all__ = ["OLDEST", "copy_name", "migrate"]

OLDEST = 3
"""The earliest version that is taken over."""

_OLD = ("runs", "makers", "submissions", "printed", "letters", "marks")
_KEPT = (
    "address, place, line, run, form, sent, state, provisional, maker, id, title, setter, kind, grid,"
    " content, reasons, solutions, complete, tier, tier_name, hardest, effort, rounds, steps,"
    " solved_by_logic, verdict, file, file_key, turned, structure, filling, likeness_by, tries, seconds,"
    " judged_at"
)
_MOVE = f"""
INSERT INTO runs SELECT * FROM old_runs;
INSERT INTO makers SELECT * FROM old_makers;
INSERT INTO submissions ({_KEPT}, arrived, digest, origin, id_written, minutes)
    SELECT {_KEPT}, 0, digest_in(form, sent), origin_in(address), coalesce(id <> name_in(address), 0),
    minutes_in(verdict) FROM old_submissions ORDER BY place, address;
INSERT INTO printed SELECT address, '', run, '',
    (SELECT substr(started, 1, 10) FROM runs WHERE runs.run = old_printed.run),
    id, title, setter, content, turned, structure, filling, likeness_by FROM old_printed;
INSERT INTO letter_files SELECT name FROM old_letters;
INSERT INTO marks SELECT mark FROM old_marks;
INSERT INTO marks SELECT lower(hex(randomblob(16))) WHERE NOT EXISTS (SELECT 1 FROM marks);
"""

_MINUTES = re.compile(rb"^  minutes: \{middle: ([0-9]+),", re.MULTILINE)
_IN_ARCHIVE = re.compile(r"(.*?\.(?:zip|tar|tar\.gz|tgz|tar\.xz|txz))!", re.IGNORECASE | re.DOTALL)
_NUMBER = re.compile(r"#[1-9][0-9]*\Z")


def copy_name(path: Path, version: int) -> Path:
    """Return a free name for the copy of a ledger that is about to be changed.

    Examples
    --------
    >>> copy_name(Path("no-such-folder/spring.db"), 3).name
    'spring.db.version-3'
    """
    names = (f"{path.name}.version-{version}{'' if number == 1 else f'-{number}'}" for number in count(1))
    return next(place for place in map(path.with_name, names) if not place.exists())


def migrate(base: sqlite3.Connection) -> None:
    """Bring an open ledger of version 3 up to this version, at once or not at all.

    Notes
    -----
    Of what could not be read the old version kept nothing, so its digest stays empty: the next run knows it
    by its address. Where a submission lay is taken from its address, as seen from the present folder.
    """
    (file,) = (name for _, kind, name in base.execute("PRAGMA database_list") if kind == "main")
    folder = os.path.dirname(os.path.realpath(file))
    for name, function in (
        ("digest_in", _digest_in),
        ("origin_in", lambda address: _origin_in(address, folder)),
        ("name_in", lambda address: Path(address).name or "puzzle"),
        ("minutes_in", _minutes_in),
    ):
        base.create_function(name, -1, function, deterministic=True)
    indexes = base.execute(
        "SELECT name FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL"
    ).fetchall()
    away = "CREATE TABLE IF NOT EXISTS marks (mark TEXT PRIMARY KEY) WITHOUT ROWID;"
    away += "".join(f"DROP INDEX {name};" for (name,) in indexes)
    away += "".join(f"ALTER TABLE {name} RENAME TO old_{name};" for name in _OLD)
    gone = "".join(f"DROP TABLE old_{name};" for name in _OLD)
    try:
        base.executescript(
            f"BEGIN IMMEDIATE; {away} {TABLES} {_MOVE} {gone} PRAGMA user_version = {VERSION}; COMMIT;"
        )
    except BaseException:
        base.rollback()
        raise


def _digest_in(form: str | None, packed: bytes | None) -> str:
    if form is None or packed is None:
        return ""
    data = zlib.decompress(packed)
    return digest_of_sent(form, len(data), data)


def _origin_in(address: str, folder: str) -> bytes:
    if address == "stdin" or address.startswith("stdin#"):
        return b"-"
    archive = _IN_ARCHIVE.match(address)
    file = archive[1] if archive else _NUMBER.sub("", address)
    return os.fsencode(os.path.relpath(os.path.realpath(file), folder))


def _minutes_in(packed: bytes | None) -> int | None:
    found = None if packed is None else _MINUTES.search(zlib.decompress(packed))
    return None if found is None else int(found[1])

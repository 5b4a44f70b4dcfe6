"""Where everything is once a box was read to its end: what was moved, and what is gone."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED, IN_STOCK

__all__ = ["lies_in", "missing", "moved"]

_SEPARATOR = os.fsencode(os.sep)
_AT_A_TIME = 1000
_HISTORY = "arrived, page, page_date, slot, replaced_by"
_NOT_READ_THROUGH = (
    "archive-broken",
    "archive-bomb",
    "archive-too-many",
    "archive-slow",
    "cannot-open",
    "file-slow",
    "folder-closed",
    "member-broken",
)
"""Faults of files and folders behind which there may be what was there before."""


def moved(ledger: Ledger) -> Iterator[tuple[int, int]]:
    """Yield what was not met in the box that was read, with what came in its stead: the same, sent once.

    The newer one gets the history of the older one, which then is to be let go.
    """
    last = 0
    while True:
        rows = ledger.rows(
            "SELECT newer.submission, older.submission FROM submissions newer JOIN submissions older"
            " ON older.digest = newer.digest AND older.run < ?1 AND older.submission < newer.submission"
            " WHERE newer.run = ?1 AND newer.arrived = ?2 AND newer.submission > ?3"
            " ORDER BY newer.submission, older.submission LIMIT 1",
            (ledger.run, ledger.arrival, last),
        )
        pair = next(rows, None)
        if pair is None:
            return
        newer, older = pair
        ledger.change(
            f"UPDATE submissions SET ({_HISTORY}) = (SELECT {_HISTORY} FROM submissions"
            " WHERE submission = ?1) WHERE submission = ?2",
            (older, newer),
        )
        ledger.change("UPDATE submissions SET replaced_by = ? WHERE replaced_by = ?", (newer, older))
        for table in ("told", "repairs"):
            ledger.change(f"UPDATE OR IGNORE {table} SET submission = ? WHERE submission = ?", (newer, older))
        yield older, newer
        last = newer


def missing(ledger: Ledger, named: Iterable[str]) -> Iterator[int]:
    """Enter what is gone, and yield its number: it lay below a named path and does not now.

    What is accepted stays in stock, and what is on a page stays there. Nothing is gone that may lie behind
    a fault: in an archive that broke off, or a folder that cannot be searched.

    Parameters
    ----------
    ledger : Ledger
        With a run begun, in which the whole box was read.
    named : iterable of str
        The words of the command line; one that names a part of a file says nothing of the rest.
    """
    words = filter(_is_whole, named)
    places = [b"-" if word == "-" else os.fsencode(os.path.realpath(word)) for word in words]
    hidden = _hidden_behind_a_fault(ledger)
    for number, origin in _not_met(ledger):
        path = ledger.real_path(origin)
        if any(_lies_in(path, place) for place in places) and not hidden(origin):
            ledger.change("UPDATE submissions SET gone = ? WHERE submission = ?", (ledger.run, number))
            yield number


def _is_whole(word: str) -> bool:
    try:
        return word == "-" or os.path.lexists(word)
    except ValueError:  # a NUL in the name
        return False


def _not_met(ledger: Ledger) -> Iterator[tuple[int, bytes]]:
    """Yield what was not met in this run and can be gone, some at a time since they change meanwhile."""
    last = 0
    while True:
        rows = list(
            ledger.rows(
                "SELECT submission, origin FROM submissions WHERE submission > ? AND run < ?"
                f" AND {COUNTED} AND NOT {IN_STOCK} ORDER BY submission LIMIT ?",
                (last, ledger.run, _AT_A_TIME),
            )
        )
        if not rows:
            return
        yield from rows
        last = rows[-1][0]


def _hidden_behind_a_fault(ledger: Ledger) -> Callable[[bytes], bool]:
    codes = ", ".join(f"'{code}'" for code in _NOT_READ_THROUGH)

    @lru_cache(maxsize=_AT_A_TIME)
    def hidden(place: bytes) -> bool:
        faults = ledger.rows(
            "SELECT 1 FROM submissions WHERE origin = ? AND run = ? AND state = 'unreadable'"
            f" AND json_extract(reasons, '$[0].code') IN ({codes}) LIMIT 1",
            (place, ledger.run),
        )
        above = os.path.dirname(place)
        return next(faults, None) is not None or (above != place and hidden(above))

    return hidden


def lies_in(path: str, word: str) -> bool:
    """Whether a file, by its real path, is what a word of the command line names, or below it.

    Examples
    --------
    >>> lies_in(os.path.abspath("post/b.yaml"), "post"), lies_in(os.path.abspath("poster"), "post")
    (True, False)
    """
    return _lies_in(os.fsencode(path), os.fsencode(os.path.realpath(word)))


def _lies_in(path: bytes, place: bytes) -> bool:
    return path == place or path.startswith(place.rstrip(_SEPARATOR) + _SEPARATOR)

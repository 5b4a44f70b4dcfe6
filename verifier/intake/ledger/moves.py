"""Submissions that seemed new and are known: the same was sent, and in its old place there is another now."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.intake.ledger.ledger import Ledger

__all__ = ["moved"]

_HISTORY = "arrived, page, page_date, slot, replaced_by"


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
        ledger.change("UPDATE told SET submission = ? WHERE submission = ?", (newer, older))
        yield older, newer
        last = newer

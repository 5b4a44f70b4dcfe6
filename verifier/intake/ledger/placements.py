"""Which puzzles are scheduled for a page or printed, for which day and in which slot."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from verifier.intake.ledger.ledger import Ledger

__all__ = ["Placement", "mark_printed", "placements", "release", "schedule"]

Page = Literal["scheduled", "printed"]


@dataclass(frozen=True, slots=True)
class Placement:
    """One puzzle on a page.

    Parameters
    ----------
    submission : int
        Its number in the ledger.
    page : str
        ``scheduled`` or ``printed``.
    day : date
        Of the page.
    slot : str
        Its place in the week.
    """

    submission: int
    page: Page
    day: date
    slot: str


def placements(ledger: Ledger, page: Page | None = None, day: date | None = None) -> Iterator[Placement]:
    """Yield what is scheduled and printed, by day and then as it came; only one of them, or one day."""
    rows = ledger.rows(
        "SELECT submission, page, page_date, slot FROM submissions WHERE page IS NOT NULL"
        " AND (?1 IS NULL OR page = ?1) AND (?2 IS NULL OR page_date = ?2)"
        " ORDER BY page_date, slot, arrived, place, address",
        (page, None if day is None else day.isoformat()),
    )
    for number, placed, told, slot in rows:
        yield Placement(number, placed, date.fromisoformat(told), slot)


def schedule(ledger: Ledger, day: date, slots: Mapping[int, str]) -> None:
    """Enter for which slots of a day's page puzzles are scheduled: number of the submission, slot."""
    for number, slot in slots.items():
        ledger.change(
            "UPDATE submissions SET page = 'scheduled', page_date = ?, slot = ? WHERE submission = ?",
            (day.isoformat(), slot, number),
        )
    ledger.commit()


def release(ledger: Ledger, day: date) -> int:
    """Take back what is scheduled for a day, and return how many puzzles that are."""
    number = sum(1 for _ in placements(ledger, "scheduled", day))
    ledger.change(
        "UPDATE submissions SET page = NULL, page_date = NULL, slot = NULL"
        " WHERE page = 'scheduled' AND page_date = ?",
        (day.isoformat(),),
    )
    ledger.commit()
    return number


def mark_printed(ledger: Ledger, day: date) -> int:
    """Enter that what is scheduled for a day was printed, and return how many puzzles that are."""
    number = sum(1 for _ in placements(ledger, "scheduled", day))
    ledger.change(
        "UPDATE submissions SET page = 'printed' WHERE page = 'scheduled' AND page_date = ?",
        (day.isoformat(),),
    )
    ledger.commit()
    return number

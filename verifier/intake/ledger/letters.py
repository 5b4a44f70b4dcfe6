"""What was written to whom, and when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from verifier.intake.ledger.ledger import Ledger

__all__ = ["Letter", "last_told", "letters", "record_letter"]


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter that was written.

    Parameters
    ----------
    number : int
        By which the ledger knows it.
    setter : str or None
        To whom; None where nobody knows.
    day : date
        When.
    file : str
        Where it is, in the folder of the verdicts.
    """

    number: int
    setter: str | None
    day: date
    file: str


def letters(ledger: Ledger) -> Iterator[Letter]:
    """Yield the letters that were written, the first one first."""
    rows = ledger.rows("SELECT letter, setter, day, file FROM letters ORDER BY letter")
    for number, setter, day, file in rows:
        yield Letter(number, setter, date.fromisoformat(day), file)


def record_letter(ledger: Ledger, setter: str | None, day: date, file: str, told: Mapping[int, str]) -> int:
    """Enter a letter, and return its number.

    Parameters
    ----------
    ledger : Ledger
        Open for writing; the change is not committed.
    setter, day, file
        See `Letter`.
    told : mapping of int to str
        For each submission in it, by its number, what was told: whatever tells news from it.
    """
    letter = ledger.change(
        "INSERT INTO letters (setter, day, file) VALUES (?, ?, ?)", (setter, day.isoformat(), file)
    )
    for number, what in told.items():
        ledger.change("INSERT INTO told VALUES (?, ?, ?)", (letter, number, what))
    return letter


def last_told(ledger: Ledger, submission: int) -> tuple[str, date] | None:
    """Return what was told of a submission last, and when; None where nothing was."""
    rows = ledger.rows(
        "SELECT what, day FROM told JOIN letters USING (letter) WHERE submission = ?"
        " ORDER BY letter DESC LIMIT 1",
        (submission,),
    )
    return next(((what, date.fromisoformat(day)) for what, day in rows), None)

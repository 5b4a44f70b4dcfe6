"""The printed puzzles of the folders that were named: what the box was compared with."""

from __future__ import annotations

from collections.abc import Collection

from verifier.files.submissions import Submission
from verifier.intake.ledger.entries import likeness_values
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.makers import LIKENESS_BY
from verifier.intake.today import today
from verifier.intake.workers.task import Judged

__all__ = ["forget_printed", "note_printed", "record_printed"]


def note_printed(ledger: Ledger, sent: Submission, folder: str) -> bool:
    """Enter that a printed puzzle is there, if it is known as it was sent; return whether it is."""
    known = "digest = ? AND likeness_by = ? AND (address = ? OR run < ?) ORDER BY address <> ? LIMIT 1"
    values = (sent.digest, LIKENESS_BY, sent.address, ledger.run, sent.address)
    row = next(ledger.rows(f"SELECT address FROM printed WHERE {known}", values), None)
    if row is None:
        return False
    ledger.change(
        "UPDATE OR REPLACE printed SET address = ?, run = ?, folder = ?, day = ? WHERE address = ?",
        (sent.address, ledger.run, folder, today().isoformat(), *row),
    )
    return True


def record_printed(ledger: Ledger, sent: Submission, folder: str, judged: Judged) -> None:
    """Enter a printed puzzle, and what it looks like; one that could not be read stands without."""
    puzzle = judged.puzzle
    values = {
        "address": sent.address,
        "digest": sent.digest,
        "run": ledger.run,
        "folder": folder,
        "day": today().isoformat(),
        **{name: getattr(puzzle, name, None) for name in ("id", "title", "setter", "content")},
        **likeness_values(judged.likeness),
        "likeness_by": LIKENESS_BY,
    }
    columns, places = ", ".join(values), ", ".join(f":{name}" for name in values)
    ledger.change(f"INSERT OR REPLACE INTO printed ({columns}) VALUES ({places})", values)


def forget_printed(ledger: Ledger, folders: Collection[str]) -> None:
    """Forget printed puzzles that were not there in this run, in the folders that it named."""
    for folder in ("", *folders) if folders else ():  # what an earlier version entered is of no folder
        ledger.change("DELETE FROM printed WHERE run < ? AND folder = ?", (ledger.run, folder))

"""What puts broken puzzles right, as it was found for letters."""

from __future__ import annotations

import json

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.workers.task import REPAIR_SECONDS

__all__ = ["record_repairs", "repairs_of"]


def record_repairs(ledger: Ledger, number: int, maker: str, says: tuple[str, ...]) -> None:
    """Enter what puts a submission right; nothing, where nothing was found that does.

    Parameters
    ----------
    ledger : Ledger
        Open for writing; the change is not committed.
    number : int
        Of the submission.
    maker : str
        The key of what made its verdict: what it names looks for repairs, too.
    says : tuple of str
        The repairs in words.
    """
    row = (number, _found_by(maker), json.dumps(says, ensure_ascii=False))
    ledger.change("INSERT OR REPLACE INTO repairs VALUES (?, ?, ?)", row)


def repairs_of(ledger: Ledger, number: int, maker: str) -> tuple[str, ...] | None:
    """Return what puts a submission right; None where it was not looked for, or by another version."""
    rows = ledger.rows(
        "SELECT says FROM repairs WHERE submission = ? AND found_by = ?", (number, _found_by(maker))
    )
    return next((tuple(json.loads(says)) for (says,) in rows), None)


def _found_by(maker: str) -> str:
    return f"{maker} {REPAIR_SECONDS:g}"

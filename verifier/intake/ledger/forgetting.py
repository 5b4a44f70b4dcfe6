"""Taking submissions and printed puzzles out of the ledger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from verifier.intake.ledger.ledger import Ledger

__all__ = ["Named", "let_go", "let_go_of_printed", "named"]


@dataclass(frozen=True, slots=True)
class Named:
    """A submission that a person names.

    Parameters
    ----------
    number, address
        Which it is.
    page, day
        Where it is scheduled or printed; None where it is not.
    """

    number: int
    address: str
    page: str | None
    day: str | None


def named(ledger: Ledger, addresses: Sequence[str]) -> list[Named]:
    """Return the submissions at some addresses, and below those that are folders, files or archives."""
    found = {
        row[0]: Named(*row)
        for address in addresses
        for row in ledger.rows(
            f"SELECT submission, address, page, page_date FROM submissions WHERE {_AT}", {"name": address}
        )
    }
    return list(found.values())


def let_go(ledger: Ledger, number: int) -> None:
    """Take a submission out of the ledger; what it replaced counts again."""
    ledger.change("UPDATE submissions SET replaced_by = NULL WHERE replaced_by = ?", (number,))
    for table in ("repairs", "submissions"):
        ledger.change(f"DELETE FROM {table} WHERE submission = ?", (number,))


def let_go_of_printed(ledger: Ledger, addresses: Sequence[str]) -> int:
    """Take printed puzzles out of what the box is compared with, and return how many those were."""
    number = 0
    for address in addresses:
        ((here,),) = ledger.rows(f"SELECT count(*) FROM printed WHERE {_AT}", {"name": address})
        ledger.change(f"DELETE FROM printed WHERE {_AT}", {"name": address})
        number += here
    return number


_AT = (
    "address = :name OR substr(address, 1, length(:name)) = :name"
    " AND substr(address, length(:name) + 1, 1) IN ('/', '#', '!')"
)

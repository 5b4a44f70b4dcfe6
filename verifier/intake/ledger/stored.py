"""What the ledger keeps of each submission, for whoever shows it: the puzzle as it was sent, the verdict."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace

from verifier.files.limits import DEFAULT_LIMITS
from verifier.files.reading import read_submission
from verifier.files.submissions import Submission
from verifier.intake.ledger.entries import unpacked_document, unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.ends import Ends, counted_ends
from verifier.verdict.reading import AnotherFormatError, read_verdict
from verifier.verdict.verdict import Verdict

__all__ = ["StoredSubmission", "ends_of", "stored_in", "stored_puzzle", "stored_verdict"]


@dataclass(frozen=True, slots=True)
class StoredSubmission:
    """One submission with what became of it.

    Parameters
    ----------
    number : int
        By which the ledger knows it.
    address, state : str
        Which it is, and what became of it.
    reasons : tuple of (str, str)
        Why, as a code and in words.
    name : str or None
        Of its verdict file.
    sent : Submission or None
        The puzzle as it was sent; None where it could not be read.
    written : str or None
        The verdict as YAML.
    """

    number: int
    address: str
    state: str
    reasons: tuple[tuple[str, str], ...]
    name: str | None
    sent: Submission | None
    written: str | None

    def puzzle(self) -> Puzzle | None:
        """Read the puzzle, as it was read when it was judged."""
        return None if self.sent is None else _puzzle(self.sent)

    def verdict(self) -> Verdict | None:
        """Read the verdict; None where there is none, or an earlier version of gridproof wrote it."""
        return _read(self.written)


def stored_verdict(packed: bytes | None) -> Verdict | None:
    """Return a verdict as the ledger keeps it; None as for `StoredSubmission.verdict`."""
    return _read(None if packed is None else unpacked_verdict(packed))


def stored_puzzle(ledger: Ledger, number: int) -> Puzzle | None:
    """Return a puzzle as it was sent, by the number of the submission; None where it could not be read."""
    row = "SELECT address, line, form, sent FROM submissions WHERE submission = ?"
    ((address, line, form, sent),) = ledger.rows(row, (number,))
    return None if sent is None else _puzzle(Submission(address, unpacked_document(line, form, sent)))


def _read(written: str | None) -> Verdict | None:
    try:
        return None if written is None else read_verdict(written)
    except AnotherFormatError:
        return None


def _puzzle(sent: Submission) -> Puzzle | None:
    if sent.document is None:
        return None
    # What the ledger keeps was within the limits of its run.
    limits = replace(DEFAULT_LIMITS, puzzle_bytes=sent.document.size)
    return read_submission(sent, limits).puzzle


def stored_in(ledger: Ledger, most: int, state: str | None = None) -> Iterator[StoredSubmission]:
    """Yield submissions in the order of addresses, each read from the ledger when it is asked for.

    Parameters
    ----------
    ledger : Ledger
        An open ledger.
    most : int
        How many at most.
    state : str, optional
        Only those in this state.
    """
    rows = ledger.submissions(
        "submission, address, state, reasons, file, line, form, sent, verdict",
        f"WHERE (?1 IS NULL OR state = ?1) AND {COUNTED} ORDER BY place, address LIMIT ?2",
        (state, most),
    )
    for number, address, found, reasons, name, line, form, packed, verdict in rows:
        yield StoredSubmission(
            number,
            address,
            found,
            tuple((reason["code"], reason["says"]) for reason in json.loads(reasons)),
            name,
            None if packed is None else Submission(address, unpacked_document(line, form, packed)),
            None if verdict is None else unpacked_verdict(verdict),
        )


def ends_of(ledger: Ledger, state: str | None = None) -> Ends[int]:
    """Return how many submissions came to which end; only those in one state, if it is named."""
    wanted = f"SELECT state, tier FROM submissions WHERE (?1 IS NULL OR state = ?1) AND {COUNTED}"
    return counted_ends(ledger.rows(wanted, (state,)))  # not by the database, which would sort for it

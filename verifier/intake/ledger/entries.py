"""What the ledger says of each submission while a run goes on: is it known, what became of it."""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Iterator
from typing import Any

from verifier.files.documents import Document, Form
from verifier.files.submissions import Submission
from verifier.intake.ledger.ledger import Ledger, now
from verifier.intake.ledger.makers import LIKENESS_BY, WAITING, LedgerEntry, state_of
from verifier.intake.ledger.schema import COUNTED, CREDITS, FIGURES, IN_STOCK, LIKENESS
from verifier.intake.setters import setter_in
from verifier.intake.sources.order import order_key
from verifier.intake.workers.task import Judged
from verifier.likeness.guises import Likeness
from verifier.verdict.verdict import Identity, Verdict

__all__ = [
    "enter",
    "has_met",
    "lay_in",
    "likeness_values",
    "look",
    "note_seen",
    "record",
    "record_likeness",
    "stock_of_others",
    "unpacked_document",
    "unpacked_verdict",
]

_PACKING = 1  # of zlib: a third of the size is enough, speed matters more
_BUG = "mistake-of-ours"
_CUT_SHORT = ("reading-lost", "file-slow", "archive-slow")
"""Faults over which a clock or a limit on memory decided: what has them is tried again."""


def look(ledger: Ledger, sent: Submission) -> LedgerEntry | None:
    """Return what is known of a submission that was met before: in its place, or where there is none now.

    What came twice is two submissions: one that was met in this run already is not given again, and one whose
    file is still there is left to be met. If it is not met after all, `verifier.intake.ledger.whereabouts`
    finds that once the box was read.
    """
    here = _known(ledger, "address = ? AND digest IN ('', ?)", (sent.address, sent.digest))
    if here is not None:
        return here[0]
    elsewhere = _known(ledger, "digest = ?", (sent.digest,))
    if elsewhere is None:
        return None
    entry, origin = elsewhere
    is_same_file = origin == ledger.seen_from_here(sent.origin)
    return entry if is_same_file or not os.path.lexists(ledger.real_path(origin)) else None


def _known(ledger: Ledger, wanted: str, values: tuple[str, ...]) -> tuple[LedgerEntry, bytes] | None:
    rows = ledger.rows(
        "SELECT submission, address, digest, line, run, state, provisional, maker, likeness_by, file, id,"
        f" id_written, origin FROM submissions WHERE {wanted} AND run < ? ORDER BY submission LIMIT 1",
        (*values, ledger.run),
    )
    row = next(rows, None)
    return None if row is None else (LedgerEntry(*row[:-1]), row[-1])


def has_met(ledger: Ledger, address: str) -> bool:
    """Whether something lay in a place in this run."""
    rows = ledger.rows("SELECT 1 FROM submissions WHERE address = ? AND run = ?", (address, ledger.run))
    return next(rows, None) is not None


def lay_in(ledger: Ledger, address: str) -> list[tuple[int, bool]]:
    """Return what lay in a place and was not met since: its number, and whether it is in stock."""
    return [
        (number, bool(in_stock))
        for number, in_stock in ledger.rows(
            f"SELECT submission, {IN_STOCK} FROM submissions WHERE address = ? AND run < ? AND {COUNTED}",
            (address, ledger.run),
        )
    ]


def stock_of_others(ledger: Ledger) -> Iterator[tuple[int, Submission]]:
    """Yield what is accepted, was not met in this run, and has a verdict that would be made otherwise now.

    What seems to have come anew will turn out to be moved, and was judged.
    """
    assert ledger.makers is not None
    last = 0
    while True:
        rows = ledger.rows(
            "SELECT submission, address, line, form, sent FROM submissions WHERE submission > ? AND run < ?"
            " AND standing IN (1, 2) AND maker <> ? AND sent IS NOT NULL AND NOT EXISTS (SELECT 1"
            " FROM submissions newer WHERE newer.digest = submissions.digest AND newer.run > submissions.run"
            " AND newer.submission > submissions.submission) ORDER BY submission LIMIT 1",
            (last, ledger.run, ledger.makers.key("accepted")),
        )
        row = next(rows, None)
        if row is None:
            return
        last, address, *sent = row
        yield last, Submission(address, unpacked_document(*sent))


def note_seen(ledger: Ledger, number: int, sent: Submission) -> None:
    """Enter that a submission was in the box again, as it was, and where."""
    ledger.change(
        "UPDATE submissions SET run = :run, gone = NULL, digest = :digest, line = :line, address = :address,"
        " place = :place, origin = :origin WHERE submission = :submission",
        {**_where(ledger, sent), "submission": number},
    )


def enter(ledger: Ledger, sent: Submission, number: int | None = None) -> int:
    """Enter a submission that is to be judged, and return its number; an earlier verdict no longer counts."""
    values = {**_where(ledger, sent), **_as_sent(sent.document)}
    values["sender"] = None if sent.document is None else setter_in(sent.document)
    if number is None:
        values |= {"arrived": ledger.arrival, "state": WAITING}
        columns, places = ", ".join(values), ", ".join(f":{name}" for name in values)
        return ledger.change(f"INSERT INTO submissions ({columns}) VALUES ({places})", values)
    values |= dict.fromkeys((*CREDITS, *FIGURES, *LIKENESS, "verdict", "gone"))
    values |= {"state": WAITING, "refused": 0, "provisional": 0, "reasons": "[]", "id_written": 0}
    _set(ledger, number, values)
    return number


def record(ledger: Ledger, number: int, judged: Judged, *, default_id: str = "") -> None:
    """Enter what became of a submission.

    Parameters
    ----------
    ledger : Ledger
        With a run begun.
    number : int
        Of the submission.
    judged : Judged
        What became of it.
    default_id : str, optional
        The id that it has by its name where none stands in it.
    """
    assert ledger.makers is not None
    verdict, puzzle = judged.verdict, judged.puzzle
    state = state_of(judged)
    values = {
        "state": state,
        "run": ledger.run,
        "refused": 0,
        "provisional": verdict.provisional if verdict else _is_passing(judged),
        "maker": ledger.makers.key(state),
        "reasons": json.dumps(_reasons(judged), ensure_ascii=False),
        "seconds": judged.seconds,
        "judged_at": now(),
        **_credits(puzzle),
        "id_written": puzzle is not None and puzzle.id != default_id,
        **_figures(verdict),
        "verdict": zlib.compress(judged.text.encode(), _PACKING) if verdict else None,
        **likeness_values(judged.likeness),
    }
    if judged.faults:  # nobody can draw it, and of what strangers send, only puzzles are worth keeping
        values |= dict.fromkeys(("form", "sent"))
    _set(ledger, number, values)
    ledger.change("UPDATE submissions SET tries = tries + ? WHERE submission = ?", (judged.tries, number))


def record_likeness(ledger: Ledger, number: int, likeness: Likeness | None) -> None:
    """Enter what a submission looks like whose verdict stands."""
    _set(ledger, number, likeness_values(likeness) | {"likeness_by": LIKENESS_BY})


def _set(ledger: Ledger, number: int, values: dict[str, Any]) -> None:
    columns = ", ".join(f"{name} = :{name}" for name in values)
    ledger.change(
        f"UPDATE submissions SET {columns} WHERE submission = :submission", values | {"submission": number}
    )


def _where(ledger: Ledger, sent: Submission) -> dict[str, Any]:
    """Return where a submission lies in this run."""
    return {
        "digest": sent.digest,
        "address": sent.address,
        "place": order_key(sent.address),
        "origin": ledger.seen_from_here(sent.origin),
        "line": None if sent.document is None else sent.document.line,
        "run": ledger.run,
    }


def unpacked_verdict(packed: bytes) -> str:
    """Return the YAML of a verdict as the ledger keeps it."""
    return zlib.decompress(packed).decode()


def unpacked_document(line: int, form: str, packed: bytes) -> Document:
    """Return the bytes of a puzzle as the ledger keeps them."""
    data = zlib.decompress(packed)
    return Document(Form[form], line, data, len(data))


def _as_sent(document: Document | None) -> dict[str, Any]:
    """Return form and packed bytes of what was sent."""
    if document is None:
        return {"form": None, "sent": None}
    return {"form": document.form.name, "sent": zlib.compress(document.data, _PACKING)}


def _reasons(judged: Judged) -> list[dict[str, str]]:
    if judged.verdict is not None:
        return [{"code": reason.code, "says": reason.says} for reason in judged.verdict.reasons]
    if judged.faults:
        return [{"code": fault.code, "says": str(fault)} for fault in judged.faults]
    return [{"code": _BUG, "says": judged.trace.strip().rpartition("\n")[2]}]


def _is_passing(judged: Judged) -> bool:
    return any(fault.code in _CUT_SHORT for fault in judged.faults)


def _credits(puzzle: Identity | None) -> dict[str, str | None]:
    return {name: None if puzzle is None else getattr(puzzle, name) for name in CREDITS}


def _figures(verdict: Verdict | None) -> dict[str, Any]:
    figures: dict[str, Any] = dict.fromkeys(FIGURES)
    if verdict is not None:
        figures |= {"solutions": verdict.solutions.count, "complete": verdict.solutions.complete}
        grade = verdict.difficulty
        if grade is not None:
            names = ("tier", "hardest", "effort", "rounds", "steps", "solved_by_logic")
            figures |= {name: getattr(grade, name) for name in names}
            minutes = None if grade.minutes is None else grade.minutes.middle
            figures |= {"tier_name": grade.name, "minutes": minutes}
    return figures


def likeness_values(likeness: Likeness | None) -> dict[str, str | None]:
    """Return what stands in the columns of `LIKENESS`."""
    if likeness is None:
        return dict.fromkeys(LIKENESS)
    found = {name: getattr(likeness, name) for name in LIKENESS if name != "likeness_by"}
    return {**found, "likeness_by": LIKENESS_BY}

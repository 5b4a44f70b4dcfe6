"""What a verdict in the ledger was made by, and whether it must be made anew."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from verifier.files.reading import READER_VERSION
from verifier.files.submissions import Submission
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.workers.task import Judged, RunSettings
from verifier.likeness.structure import STRUCTURE_VERSION
from verifier.likeness.turned import TURNED_VERSION
from verifier.verdict.report import FORMAT
from verifier.verdict.versions import made_by

__all__ = [
    "LIKENESS_BY",
    "JudgingReason",
    "LedgerEntry",
    "Makers",
    "makers_of",
    "reason_to_judge",
    "state_of",
    "what_changed",
]

LIKENESS_BY = f"{TURNED_VERSION}.{STRUCTURE_VERSION}"
"""The versions of the keys by which duplicates are found."""

_UNSAID = {"format": 1, "reader": 1}
"""What makers did not say of themselves as long as there was nothing else."""

UNREADABLE, NOT_JUDGED, WAITING = "unreadable", "not judged", "waiting"
"""States of a submission in the ledger, beside the three of a verdict."""


@dataclass(frozen=True, slots=True)
class LedgerEntry:
    """What the ledger knows of a submission.

    Parameters
    ----------
    number : int
        By which the ledger knows it.
    address, digest, line
        Where it lay last, what was sent, and on which line it stood.
    run : int
        The last run in which it was there.
    state : str
        One of the verdicts, or of the states above.
    provisional : bool
        Whether to try again.
    maker : str or None
        The key of what made the verdict.
    likeness_by : str or None
        The versions of its keys, if there are any.
    file : str or None
        The name of its verdict file.
    id : str or None
        Its id, where it could be read.
    id_written : bool
        Whether that stands in the file; else it is from the file's name.
    """

    number: int
    address: str
    digest: str
    line: int | None
    run: int
    state: str
    provisional: bool
    maker: str | None
    likeness_by: str | None
    file: str | None
    id: str | None
    id_written: bool


@dataclass(frozen=True, slots=True)
class Makers:
    """What makes the verdicts of a run, and what makes it say "unreadable": the reader alone."""

    judging: Mapping[str, Any]
    reading: Mapping[str, Any]

    def key(self, state: str) -> str:
        """Return the key of what makes a state."""
        return key_of(self.reading if state == UNREADABLE else self.judging)


def state_of(judged: Judged) -> str:
    """Return the state in which a submission is, in one word."""
    if judged.verdict is not None:
        return judged.verdict.state.value
    return UNREADABLE if judged.faults else NOT_JUDGED


def makers_of(settings: RunSettings) -> Makers:
    """Return what makes the verdicts of a run."""
    made = asdict(made_by(settings.style))
    reading = {
        "gridproof": made["gridproof"],
        "reading_limits": asdict(settings.limits),
        "reader": READER_VERSION,
    }
    judging = {**made, **reading, "solutions_counted": settings.judging.limit, "format": FORMAT}
    return Makers(_said(judging), _said(reading))


def _said(maker: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in maker.items() if _UNSAID.get(name) != value}


def key_of(maker: Mapping[str, Any]) -> str:
    """Return a short key of what makes verdicts.

    Examples
    --------
    >>> key_of({"gridproof": "1.0"}) == key_of({"gridproof": "1.1"})
    False
    """
    return hashlib.sha256(json.dumps(maker, sort_keys=True).encode()).hexdigest()[:16]


def reason_to_judge(known: LedgerEntry | None, sent: Submission, makers: Makers) -> JudgingReason | None:
    """Return why a submission must be judged, or None where its verdict stands.

    A submission that could not be read is judged again only where the reader has changed, or its place, which
    its faults name; a verdict, where anything that it names has changed: its id, too, if that is from the
    name of the file.
    """
    if known is None or known.state == WAITING:
        return JudgingReason.NEW
    if known.maker != makers.key(known.state):
        return JudgingReason.MADE_ANEW
    if known.provisional or known.state == NOT_JUDGED:
        return JudgingReason.PROVISIONAL
    line = None if sent.document is None else sent.document.line
    moved = known.state == UNREADABLE and (known.address, known.line) != (sent.address, line)
    renamed = known.id is not None and not known.id_written and known.id != sent.default_id
    return JudgingReason.MOVED if moved or renamed else None


def what_changed(before: Mapping[str, Any], now: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """Return what differs between two makers: its name, before, and now.

    Examples
    --------
    >>> what_changed({"ladder": "1", "ortools": "9.15"}, {"ladder": "2", "ortools": "9.15"})
    [('ladder', '1', '2')]
    """
    before = {**_UNSAID, **before}
    names = [name for name in now if before.get(name) != now[name]]
    return [(name, str(before.get(name)), str(now[name])) for name in names]

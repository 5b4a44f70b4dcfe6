"""Figures of the ledger over time and by setter: how much came, how much of it was accepted."""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.setters import same_setter
from verifier.puzzle.printable import printable

__all__ = ["Figures", "by_setter", "over_time"]


@dataclass
class Figures:
    """How much came, of one setter or in one run.

    Attributes
    ----------
    name : str
        The setter, or the day of the run.
    sent, accepted : int
        How many submissions.
    faults : Counter of str
        How many were sent back for which reason.
    tiers : Counter of int
        How many of the accepted ones are of which tier.
    """

    name: str
    sent: int = 0
    accepted: int = 0
    faults: Counter[str] = field(default_factory=Counter)
    tiers: Counter[int] = field(default_factory=Counter)

    @property
    def share(self) -> float:
        """The share that is accepted, 0 to 1."""
        return self.accepted / self.sent if self.sent else 0.0

    @property
    def commonest_fault(self) -> str | None:
        """The code of the reason for which most was sent back."""
        return min(self.faults, key=lambda code: (-self.faults[code], code), default=None)

    def add(self, state: str, tier: int | None, codes: Iterable[str]) -> None:
        """Count one submission."""
        self.sent += 1
        if state == "accepted":
            self.accepted += 1
            self.tiers.update([] if tier is None else [tier])
        else:
            self.faults.update(codes)


def by_setter(ledger: Ledger) -> list[Figures]:
    """Return the figures of each setter, who sent most coming first; those unknown are left out."""
    found: dict[str, Figures] = {}
    columns = "coalesce(setter, sender), state, tier, reasons"
    rows = ledger.rows(f"SELECT {columns} FROM submissions WHERE {COUNTED} ORDER BY submission")
    for setter, state, tier, reasons in rows:
        if setter:
            figures = found.setdefault(same_setter(setter), Figures(printable(setter, 40)))
            figures.add(state, tier, {reason["code"] for reason in json.loads(reasons)})
    return sorted(found.values(), key=lambda figures: (-figures.sent, figures.name))


def over_time(ledger: Ledger) -> list[Figures]:
    """Return the figures of what came in each run that brought something, the earliest first."""
    runs = ledger.rows("SELECT substr(started, 1, 10) FROM runs WHERE ended IS NOT NULL ORDER BY run")
    days = [day for (day,) in runs]
    found: dict[int, Figures] = defaultdict(lambda: Figures(""))
    rows = ledger.rows("SELECT arrived, state, tier, reasons FROM submissions ORDER BY submission")
    for arrived, state, tier, reasons in rows:
        found[arrived].add(state, tier, {reason["code"] for reason in json.loads(reasons)})
    for arrived, figures in found.items():
        figures.name = days[arrived] if arrived < len(days) else ""
    return [found[arrived] for arrived in sorted(found)]

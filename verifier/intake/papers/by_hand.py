"""What an editor has to look at by hand: what no rule can decide, and what is nearly good."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from verifier.intake.ledger.corrections import claimed_corrections
from verifier.intake.ledger.entries import unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.repairs import repairs_of
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.papers.report import worth_a_look
from verifier.intake.setters import same_setter
from verifier.puzzle.printable import listed, printable
from verifier.verdict.reading import remarks_in

__all__ = ["LIST_NAME", "ByHand", "Why", "by_hand"]

LIST_NAME = "by-hand"
"""What ``--list`` calls it."""

_LIMITS = {"style-tier", "style-cage-size", "style-givens"}
"""Reasons of a house style that are limits, which an editor may stretch."""


class Why(Enum):
    """Why to look at it, in the order in which to look."""

    UNDECIDED = "undecided"
    CORRECTION = "which of two counts"
    SETTERS = "several setters with one puzzle"
    SOLUTION = "only the solution is wrong"
    LIMIT = "just beyond a limit of the house"
    MEND = "a proved repair"
    REMARK = "a remark on an accepted one"


@dataclass(frozen=True, slots=True)
class ByHand:
    """One submission to look at.

    Parameters
    ----------
    address, name : str
        Which it is; the name is title or id, and may be empty.
    why : Why
        Why to look at it.
    says : str
        More of it, in words.
    """

    address: str
    name: str
    why: Why
    says: str


def by_hand(ledger: Ledger) -> list[ByHand]:
    """Return what to look at, the most pressing first, then in the order of addresses."""
    found = [*_corrections(ledger), *_several_setters(ledger), *_single(ledger)]
    order = list(Why)
    return sorted(found, key=lambda one: order.index(one.why))


def _single(ledger: Ledger) -> Iterator[ByHand]:
    """Yield what can be told of a submission by itself."""
    rows = ledger.submissions(
        "submission, address, title, id, state, reasons, maker, verdict",
        f"WHERE state IN ('undecided', 'not judged', 'rejected', 'accepted') AND {COUNTED}"
        " ORDER BY place, address",
    )
    for number, address, title, puzzle_id, state, told, maker, packed in rows:
        reasons = json.loads(told)
        why, says = _why(ledger, number, state, reasons, maker, packed)
        if why is not None:
            yield ByHand(address, printable(title or puzzle_id or ""), why, says)


def _why(
    ledger: Ledger, number: int, state: str, reasons: list[dict[str, str]], maker: str, packed: bytes | None
) -> tuple[Why | None, str]:
    codes = {reason["code"] for reason in reasons}
    if state == "accepted":
        remarks = () if packed is None else remarks_in(unpacked_verdict(packed))
        says = " ".join(remark.says for remark in worth_a_look(remarks))
        return (Why.REMARK if says else None), says
    says = reasons[0]["says"] if reasons else ""
    if state != "rejected":
        return Why.UNDECIDED, says
    if codes == {"solution-differs"}:
        return Why.SOLUTION, says
    if len(codes) == 1 and codes <= _LIMITS:
        return Why.LIMIT, says
    repairs = repairs_of(ledger, number, maker)
    return (Why.MEND, repairs[0]) if repairs else (None, "")


def _corrections(ledger: Ledger) -> Iterator[ByHand]:
    for one in claimed_corrections(ledger):
        yield ByHand(one.newer_address, "", Why.CORRECTION, f"It came in the place of {one.older_address}.")


def _several_setters(ledger: Ledger) -> Iterator[ByHand]:
    """Yield the first of puzzles that are alike and come from several setters."""
    alike = "coalesce(structure, turned)"
    keys = ledger.rows(
        f"SELECT {alike} AS alike FROM submissions WHERE alike IS NOT NULL AND {COUNTED}"
        " GROUP BY alike HAVING count(DISTINCT setter) > 1 ORDER BY min(place)"
    )
    for (key,) in list(keys):
        setters: dict[str, str] = {}
        files: dict[str, list[str]] = defaultdict(list)
        rows = ledger.rows(
            f"SELECT address, title, id, setter FROM submissions WHERE {alike} = ? AND {COUNTED}"
            " AND setter IS NOT NULL ORDER BY standing, arrived, place, address",
            (key,),
        )
        first = ("", "")
        for address, title, puzzle_id, setter in rows:
            first = first if first[0] else (address, printable(title or puzzle_id or ""))
            files[setters.setdefault(same_setter(setter), setter)].append(address)
        if len(files) > 1:
            told = listed(f"{printable(setter)} ({addresses[0]})" for setter, addresses in files.items())
            yield ByHand(*first, Why.SETTERS, f"It came from {told}.")

"""Duplicates: the same puzzle twice in the ledger, or printed already, as it is or in disguise."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from verifier.intake.ledger import Ledger

__all__ = ["EXACT", "IN_DISGUISE", "TURNED", "Group", "Like", "duplicates"]

EXACT, TURNED, IN_DISGUISE = "exact", "turned", "in disguise"
"""The same puzzle; turned, mirrored or complemented; with lines reordered or digits renamed as well."""


@dataclass(frozen=True, slots=True)
class Like:
    """One puzzle of several that are alike.

    Parameters
    ----------
    address, id : str
        Which it is.
    printed : bool
        Whether it is one of the printed ones.
    how : str
        How it is like the first of its group; ``exact`` for the first itself.
    """

    address: str
    id: str
    printed: bool
    how: str


@dataclass(frozen=True, slots=True)
class Group:
    """Puzzles that are one and the same at bottom; printed ones first, then in the order of addresses."""

    members: tuple[Like, ...]


def duplicates(ledger: Ledger) -> Iterator[Group]:
    """Yield the groups of puzzles that are alike, at least one of them submitted.

    Notes
    -----
    Puzzles that are the same when turned have the same structure, so a look at the structure finds all.
    """
    keys = ledger.rows(
        "SELECT structure FROM submissions WHERE structure IS NOT NULL GROUP BY structure"
        " HAVING count(*) > 1 OR structure IN (SELECT structure FROM printed) ORDER BY min(place)"
    )
    for (structure,) in keys:
        yield Group(tuple(_members(ledger, structure)))


def _members(ledger: Ledger, structure: str) -> Iterator[Like]:
    rows = ledger.rows(
        "SELECT address, id, 1 AS printed, content, turned, address AS place FROM printed"
        " WHERE structure = ?1 UNION ALL SELECT address, id, 0, content, turned, place FROM submissions"
        " WHERE structure = ?1"
        " ORDER BY printed DESC, place",
        (structure,),
    )
    first: tuple[str, str] | None = None
    for address, puzzle_id, printed, content, turned, _ in rows:
        first = first or (content, turned)
        how = EXACT if content == first[0] else TURNED if turned == first[1] else IN_DISGUISE
        yield Like(address, puzzle_id, bool(printed), how)

"""Which submissions correct an earlier one of the same setter, and which only seem to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, pairwise

from verifier.intake.ledger.entries import unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.puzzle.grid import Filling
from verifier.verdict.reading import AnotherFormatError, read_verdict

__all__ = ["Correction", "claimed_corrections", "correct", "give_back"]

_MOST_VERSIONS = 20
"""Submissions with one setter and one id; where there are more, the id says nothing."""


@dataclass(frozen=True, slots=True)
class Correction:
    """A submission, and the earlier one in whose place it was sent: their numbers and addresses."""

    newer: int
    newer_address: str
    older: int
    older_address: str


def correct(ledger: Ledger) -> Iterator[Correction]:
    """Enter which submissions are replaced by a correction, and yield each with it.

    Only one that came in an earlier run is a forerunner. It is known by its id, if that stands in both files,
    and its setter or, where none is named, its place; or by its place and what it is as a puzzle, where its
    credits alone have changed. Where it is only `claimed <claimed_corrections>`, a person must say.
    """
    found = [(newer, older) for newer, older in _versions(ledger) if _may_be_replaced(newer, older)]
    for newer, older in chain(found, _new_credits(ledger)):
        ledger.change(
            "UPDATE submissions SET replaced_by = ? WHERE submission = ?", (newer.number, older.number)
        )
        yield Correction(newer.number, newer.address, older.number, older.address)


def give_back(ledger: Ledger) -> Iterator[int]:
    """Let count again what was replaced and is in the box, where its correction is not; yield its number."""
    found = ledger.rows(
        "SELECT submission FROM submissions WHERE replaced_by IS NOT NULL AND run = ? AND NOT EXISTS"
        " (SELECT 1 FROM submissions newer WHERE newer.submission = submissions.replaced_by"
        " AND newer.gone IS NULL)",
        (ledger.run,),
    )
    for (number,) in list(found):
        ledger.change("UPDATE submissions SET replaced_by = NULL WHERE submission = ?", (number,))
        yield number


def claimed_corrections(ledger: Ledger) -> Iterator[Correction]:
    """Yield what seems to correct a puzzle that is accepted or on a page, and was not let replace it."""
    for newer, older in _versions(ledger):
        if not older.is_gone:
            yield Correction(newer.number, newer.address, older.number, older.address)


@dataclass(frozen=True, slots=True)
class _Version:
    number: int
    address: str
    state: str
    page: str | None
    is_gone: int
    verdict: bytes | None


_VERSION = "submission, address, state, page, gone IS NOT NULL, verdict"


def _versions(ledger: Ledger) -> Iterator[tuple[_Version, _Version]]:
    """Yield submissions that bear one id, a newer one with the one before it, the latest first."""
    same = "id_written AND replaced_by IS NULL"
    known = ledger.rows(
        f"SELECT setter, id, CASE WHEN setter IS NULL THEN address END AS lay FROM submissions WHERE {same}"
        f" GROUP BY setter, id, lay HAVING count(*) BETWEEN 2 AND {_MOST_VERSIONS}"
        " AND count(*) = count(DISTINCT arrived)"
    )
    for values in list(known):
        rows = ledger.rows(
            f"SELECT {_VERSION} FROM submissions WHERE {same} AND setter IS ?1 AND id = ?2"
            " AND (?3 IS NULL OR address = ?3) ORDER BY arrived DESC",
            values,
        )
        yield from ((new, old) for new, old in pairwise([_Version(*row) for row in rows]) if not new.is_gone)


def _new_credits(ledger: Ledger) -> Iterator[tuple[_Version, _Version]]:
    """Yield what came in this run in the place of the very same puzzle with other credits."""
    pairs = ledger.rows(
        "SELECT newer.submission, older.submission FROM submissions newer JOIN submissions older"
        " ON older.address = newer.address AND older.content = newer.content AND older.run < newer.run"
        " WHERE newer.run = ?1 AND newer.arrived = ?2 AND older.arrived < ?2 AND older.replaced_by IS NULL"
        " AND older.page IS NULL",
        (ledger.run, ledger.arrival),
    )
    one = f"SELECT {_VERSION} FROM submissions WHERE submission = ?"
    for pair in list(pairs):
        newer, older = (_Version(*next(ledger.rows(one, (number,)))) for number in pair)
        yield newer, older


def _may_be_replaced(newer: _Version, older: _Version) -> bool:
    """Whether an earlier version can go: nothing is lost, or the new one has the same solution."""
    if older.page is not None:
        return False
    if older.state != "accepted":
        return True
    solution = _solution(older)
    return newer.state == "accepted" and solution is not None and _solution(newer) == solution


def _solution(version: _Version) -> Filling | None:
    if version.verdict is None:
        return None
    try:
        return read_verdict(unpacked_verdict(version.verdict)).solutions.filling
    except AnotherFormatError:
        return None

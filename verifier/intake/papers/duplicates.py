"""Duplicates: the same puzzle twice in the ledger, or printed already, as it is or in disguise.

And one solution under several puzzles, which is no fault, but which an editor may want to know.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED
from verifier.likeness.guises import Guise, Likeness

__all__ = [
    "NOTHING_REPEATED",
    "Group",
    "Like",
    "Repeated",
    "Repeats",
    "count_repeats",
    "duplicates",
    "repeated_by",
    "repeating",
    "same_solutions",
]

_MOST_NAMED = 20
"""Puzzles named that have one solution. Who draws all cages over one full grid, shuffled, sends thousands."""


@dataclass(frozen=True, slots=True)
class Like:
    """One puzzle of several that are alike.

    Parameters
    ----------
    address, id : str
        Which it is.
    printed : bool
        Whether it is one of the printed ones.
    how : Guise
        How it is like the first of its group; the first itself is the same.
    """

    address: str
    id: str
    printed: bool
    how: Guise


@dataclass(frozen=True, slots=True)
class Repeated:
    """What a submission repeats: the addresses of printed puzzles, and of those that come before it.

    Of very many the first are named.
    """

    printed: tuple[str, ...] = ()
    copied: tuple[str, ...] = ()

    @property
    def addresses(self) -> tuple[str, ...]:
        """All of them."""
        return (*self.printed, *self.copied)

    def __bool__(self) -> bool:
        return bool(self.addresses)


NOTHING_REPEATED = Repeated()


@dataclass(frozen=True, slots=True)
class Group:
    """Puzzles that are alike; printed ones first, then those that are repeated by the others.

    Parameters
    ----------
    members : tuple of Like
        At least two.
    more : int
        How many there are that are not named.
    """

    members: tuple[Like, ...]
    more: int = 0


@dataclass(frozen=True, slots=True)
class Repeats:
    """How many groups there are of duplicates, and of several puzzles with one solution."""

    duplicates: int = 0
    same_solutions: int = 0


def count_repeats(ledger: Ledger) -> Repeats:
    """Return how many groups there are of either kind."""
    return Repeats(sum(1 for _ in duplicates(ledger)), sum(1 for _ in same_solutions(ledger)))


def duplicates(ledger: Ledger) -> Iterator[Group]:
    """Yield the groups of puzzles that are one and the same at bottom, at least one of them submitted.

    Notes
    -----
    Puzzles that are the same when turned have the same structure, so a look at the structure finds all.
    Where finding it took more than it may, what is the same when turned is found.
    """
    keys = ledger.rows(
        f"SELECT coalesce(structure, turned) AS alike FROM submissions WHERE alike IS NOT NULL AND {COUNTED}"
        " GROUP BY alike"
        " HAVING count(*) > 1 OR alike IN (SELECT coalesce(structure, turned) FROM printed)"
        " ORDER BY min(place)"
    )
    for (alike,) in keys:
        yield Group(tuple(_members(ledger, alike)))


def repeated_by(ledger: Ledger, number: int) -> Repeated:
    """Return what a submission repeats, by its number.

    The first of a group repeats nothing, unless it was printed: what is left when all repeats are struck out
    is one of each. Accepted ones come first in a group, then what came in an earlier run.
    """
    ((alike, *turn),) = ledger.rows(
        "SELECT coalesce(structure, turned), standing, arrived, place, address FROM submissions"
        " WHERE submission = ?",
        (number,),
    )
    if alike is None or turn[0] in (0, 4):
        return NOTHING_REPEATED
    before = ledger.rows(
        f"SELECT address, printed FROM ({_ALL}) WHERE alike = ?1"
        f" AND (standing, arrived, place, address) < (?2, ?3, ?4, ?5) ORDER BY {_ORDER} LIMIT {_MOST_NAMED}",
        (alike, *turn),
    )
    found = list(before)
    return Repeated(
        tuple(address for address, printed in found if printed),
        tuple(address for address, printed in found if not printed),
    )


def repeating(ledger: Ledger, wanted: str = "standing IN (1, 2)") -> Iterator[tuple[int, bool]]:
    """Yield the numbers of accepted submissions that repeat something, and whether that was printed.

    Those that a house style refused for it are among them.
    """
    alike = "coalesce({0}.structure, {0}.turned) = coalesce(own.structure, own.turned)"
    before = f"{alike.format('other')} AND (other.standing, other.arrived, other.place, other.address)"
    found = ledger.rows(
        "SELECT submission, printed FROM (SELECT own.submission,"
        f" EXISTS (SELECT 1 FROM printed WHERE {alike.format('printed')})"
        f" OR EXISTS (SELECT 1 FROM submissions other WHERE {before} < (1, 0, x'', '')) AS printed,"
        f" EXISTS (SELECT 1 FROM submissions other WHERE {before}"
        f" < (own.standing, own.arrived, own.place, own.address)) AS copied"
        f" FROM submissions own WHERE {wanted}) WHERE printed OR copied"
    )
    yield from ((number, bool(printed)) for number, printed in found)


def same_solutions(ledger: Ledger) -> Iterator[Group]:
    """Yield the groups of different puzzles that have one solution, at least one of them submitted.

    Of those that are duplicates of one another only the first is named.
    """
    keys = ledger.rows(
        f"WITH firsts AS (SELECT filling, alike, max(printed) AS printed, min(place) AS place FROM ({_ALL})"
        " WHERE filling IS NOT NULL GROUP BY filling, alike) SELECT filling, count(*) FROM firsts"
        " GROUP BY filling HAVING count(*) > 1 AND NOT min(printed) ORDER BY min(place)"
    )
    for filling, number in keys:
        members = tuple(islice(_firsts(ledger, filling), _MOST_NAMED))
        yield Group(members, number - len(members))


_ALL = (
    "SELECT address, id, 1 AS printed, -1 AS standing, 0 AS arrived, address AS place, content, turned,"
    " coalesce(structure, turned) AS alike, filling FROM printed"
    " UNION ALL SELECT address, id, standing = 0, standing, arrived, place, content, turned,"
    f" coalesce(structure, turned), filling FROM submissions WHERE {COUNTED}"
)
"""Each puzzle, with a key that is the same for all its disguises."""

_ORDER = "standing, arrived, place, address"
"""Of puzzles that are alike; the first is what the others repeat."""


def _members(ledger: Ledger, alike: str) -> Iterator[Like]:
    rows = ledger.rows(
        f"SELECT address, id, printed, content, turned FROM ({_ALL}) WHERE alike = ? ORDER BY {_ORDER}",
        (alike,),
    )
    first: Likeness | None = None
    for address, puzzle_id, printed, content, turned in rows:
        own = Likeness(content, turned)
        first = first or own
        yield Like(address, puzzle_id, bool(printed), own.guise_of(first) or Guise.DISGUISED)


def _firsts(ledger: Ledger, filling: str) -> Iterator[Like]:
    """Yield the first of those that are alike, for all that have a solution."""
    rows = ledger.rows(
        "SELECT address, id, printed FROM (SELECT *, row_number() OVER"
        f" (PARTITION BY alike ORDER BY {_ORDER}) AS turn FROM ({_ALL})"
        f" WHERE filling = ?) WHERE turn = 1 ORDER BY {_ORDER}",
        (filling,),
    )
    how = Guise.SAME
    for address, puzzle_id, printed in rows:
        yield Like(address, puzzle_id, bool(printed), how)
        how = Guise.SOLUTION

"""What the ledger says, for people: counts and lists."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from verifier.intake.ledger.entries import unpacked_verdict
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.papers.duplicates import NOTHING_REPEATED, Repeated, repeated_by, repeating
from verifier.verdict.ends import counted_ends
from verifier.verdict.reading import remarks_in
from verifier.verdict.remarks import MARKS_ALIKE
from verifier.verdict.verdict import Remark

__all__ = [
    "STATES",
    "Counts",
    "ListedSubmission",
    "compared_with",
    "counts_of",
    "judged_by_another_style",
    "listed_in",
    "printed_unread",
    "worth_a_look",
]

STATES = ("accepted", "rejected", "undecided", "unreadable", "waiting", "not judged")
"""In the order in which they are told."""


_VERDICTS = f"SELECT verdict FROM submissions WHERE state = 'accepted' AND {COUNTED}"


@dataclass(frozen=True, slots=True)
class Counts:
    """How many submissions are in which state, are there for which reason, and of which tier.

    Parameters
    ----------
    states : tuple of (str, int)
        Those that occur, in the order of `STATES`.
    reasons : tuple of (str, int)
        The commonest first. A submission may have several.
    tiers : tuple of (int, str, int)
        Tier, name and number, of the accepted ones.
    remarked : int
        How many accepted ones are worth a look all the same.
    printed_before, copies : int
        How many accepted ones repeat a puzzle that was printed, and how many others one of the box.
    """

    states: tuple[tuple[str, int], ...]
    reasons: tuple[tuple[str, int], ...]
    tiers: tuple[tuple[int, str, int], ...]
    remarked: int = 0
    printed_before: int = 0
    copies: int = 0

    @property
    def total(self) -> int:
        """The number of submissions."""
        return sum(number for _, number in self.states)


@dataclass(frozen=True, slots=True)
class ListedSubmission:
    """One submission as a list tells it.

    Parameters
    ----------
    address, state : str
        Which it is, and what became of it.
    id, title, setter : str or None
        Its credits, where it could be read.
    says : tuple of str
        The reasons, in words.
    remarks : tuple of Remark
        What rejects nothing, but wants a look.
    repeats : Repeated
        What it repeats.
    """

    address: str
    state: str
    id: str | None
    title: str | None
    setter: str | None
    says: tuple[str, ...]
    remarks: tuple[Remark, ...] = ()
    repeats: Repeated = NOTHING_REPEATED


def counts_of(ledger: Ledger) -> Counts:
    """Return the counts over the whole ledger."""
    reasons = Counter[str]()

    def puzzles() -> Iterator[tuple[str, tuple[int, str] | None]]:
        # Row by row: the database would sort the whole table to count, and take memory as it grows.
        rows = ledger.rows(f"SELECT state, tier, tier_name, reasons FROM submissions WHERE {COUNTED}")
        for state, tier, name, told in rows:
            reasons.update({reason["code"] for reason in json.loads(told)})
            yield state, None if tier is None else (tier, name)

    states, tiers = counted_ends(puzzles())
    repeats = Counter(printed for _, printed in repeating(ledger, "standing IN (1, 2) AND NOT refused"))
    return Counts(
        tuple((state, states[state]) for state in STATES if state in states),
        tuple(sorted(reasons.items(), key=lambda counted: (-counted[1], counted[0]))),
        tuple((tier, name, number) for (tier, name), number in sorted(tiers.items())),
        printed_before=repeats[True],
        copies=repeats[False],
        remarked=sum(bool(worth_a_look(_remarks_in(packed))) for (packed,) in ledger.rows(_VERDICTS)),
    )


def worth_a_look(remarks: Sequence[Remark]) -> list[Remark]:
    """Return the remarks that an editor should look at before an accepted puzzle goes to print.

    Marks that look alike are none: that one was taken for the other, and exactly one solution is left all the
    same, is next to impossible.
    """
    return [remark for remark in remarks if remark.code != MARKS_ALIKE]


def listed_in(ledger: Ledger, state: str) -> Iterator[ListedSubmission]:
    """Yield the submissions in a state, in the order of addresses."""
    yield from _listed(ledger, f"WHERE state = ? AND {COUNTED} ORDER BY place, address", (state,))


def printed_unread(ledger: Ledger) -> list[str]:
    """Return the addresses of printed puzzles that could not be read: nothing is compared with them."""
    rows = ledger.rows("SELECT address FROM printed WHERE content IS NULL ORDER BY address")
    return [address for (address,) in rows]


def compared_with(ledger: Ledger) -> list[tuple[str, str, int]]:
    """Return for each folder of printed puzzles the day on which it was last read, and how many it holds."""
    rows = ledger.rows(
        "SELECT folder, max(day), count(*) FROM printed WHERE content IS NOT NULL GROUP BY folder"
    )
    return list(rows)


def judged_by_another_style(ledger: Ledger, content: str) -> int:
    """Return how many submissions that count have a verdict under another house style, by its rules."""
    held = f"verdict IS NOT NULL AND {COUNTED}"
    makers = Counter(key for (key,) in ledger.rows(f"SELECT maker FROM submissions WHERE {held}"))
    return sum(number for key, number in makers.items() if ledger.maker(key).get("style_content") != content)


def _listed(ledger: Ledger, wanted: str, values: tuple[str, ...]) -> Iterator[ListedSubmission]:
    columns = "submission, address, state, id, title, setter, reasons, verdict"
    for number, *which, reasons, packed in ledger.submissions(columns, wanted, values):
        says = tuple(reason["says"] for reason in json.loads(reasons))
        address, state, puzzle_id, title, setter = which
        remarks, repeats = _remarks_in(packed), repeated_by(ledger, number)
        yield ListedSubmission(address, state, puzzle_id, title, setter, says, remarks, repeats)


def _remarks_in(packed: bytes | None) -> tuple[Remark, ...]:
    return () if packed is None else remarks_in(unpacked_verdict(packed))

"""The plan of a page from the ledger: what is in stock, what is chosen, and taking it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from verifier.intake.ledger.corrections import claimed_corrections
from verifier.intake.ledger.ledger import Ledger
from verifier.intake.ledger.placements import Placement, mark_printed, placements, release, schedule
from verifier.intake.ledger.schema import COUNTED
from verifier.intake.papers.duplicates import repeating
from verifier.intake.plan import wording
from verifier.intake.plan.choice import choose
from verifier.intake.plan.reasons import to_ask_for, why_empty, wishes_left
from verifier.intake.plan.slots import Candidate, Page
from verifier.puzzle.printable import counted

__all__ = ["Plan", "Stock", "last_page", "plan_page", "print_until", "release_page", "stock_of", "take"]

_COLUMNS = (
    "submission, id, title, setter, kind, grid, tier, effort, hardest,"
    " coalesce(structure, turned, content), filling"
)
_ACCEPTED = f"state = 'accepted' AND tier IS NOT NULL AND effort IS NOT NULL AND {COUNTED}"
_WEEK = 7  # days


@dataclass(frozen=True, slots=True)
class Stock:
    """What may be printed, what came first coming first, and why some of what is accepted may not.

    Parameters
    ----------
    puzzles : tuple of Candidate
        Accepted, and neither scheduled nor printed; no repeats.
    left_out : tuple of str
        What is accepted and left out all the same, in words.
    """

    puzzles: tuple[Candidate, ...]
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """What stands on a page, and what is to be said of it.

    Parameters
    ----------
    page : Page
        What was asked for.
    puzzles : tuple of Candidate or None
        By slot.
    taken : tuple of str or None
        By slot: whether its puzzle is ``scheduled`` there already, or ``printed``.
    empty : mapping of int to str
        Why a slot stays empty.
    wishes : tuple of str
        What to look at: what is scheduled and accepted no more, wishes that could not be met.
    asked_for : tuple of str
        What to ask setters for.
    stock : Stock
        What there was to choose from.
    """

    page: Page
    puzzles: tuple[Candidate | None, ...]
    taken: tuple[str | None, ...]
    empty: Mapping[int, str]
    wishes: tuple[str, ...]
    asked_for: tuple[str, ...]
    stock: Stock


def stock_of(ledger: Ledger) -> Stock:
    """Return what may be printed."""
    repeats = {number for number, _ in repeating(ledger)}
    doubted = {number for one in claimed_corrections(ledger) for number in (one.newer, one.older)}
    rows = ledger.rows(
        f"SELECT {_COLUMNS} FROM submissions WHERE {_ACCEPTED} AND page IS NULL"
        " ORDER BY arrived, place, address"
    )
    found = [_candidate(row) for row in rows]
    left_out = [
        (sum(int(puzzle.key) in barred for puzzle in found), says)
        for barred, says in ((repeats, wording.REPEATS_LEFT_OUT), (doubted, wording.DOUBTED_LEFT_OUT))
    ]
    return Stock(
        tuple(puzzle for puzzle in found if int(puzzle.key) not in repeats | doubted),
        tuple(says.format(puzzles=counted(number, "puzzle")) for number, says in left_out if number),
    )


def plan_page(ledger: Ledger, page: Page) -> Plan:
    """Choose what stands on a page; what is scheduled for its days stays where it is."""
    stock = stock_of(ledger)
    placed = {}
    for one in placements(ledger):
        where = [at for at, day in enumerate(page.days) if day == one.day and page.slots[at].name == one.slot]
        if where:
            placed[where[0]] = one
    taken = {at: _candidate_of(ledger, one.submission) for at, one in sorted(placed.items())}
    choice = choose(page, stock.puzzles, taken)
    puzzles = choice.puzzles
    wishes = [*_alarms(ledger, page, placed), *wishes_left(page, puzzles)]
    wishes += [] if choice.best else [wording.NOT_PROVED]
    return Plan(
        page,
        puzzles,
        tuple(placed[at].page if at in placed else None for at in range(len(puzzles))),
        {at: why_empty(page, stock.puzzles, puzzles, at) for at, one in enumerate(puzzles) if one is None},
        tuple(wishes),
        tuple(to_ask_for(page, stock.puzzles, puzzles)),
        stock,
    )


def take(ledger: Ledger, plan: Plan) -> int:
    """Schedule what was chosen for its days, and return how many puzzles that are."""
    days: dict[date, dict[int, str]] = {}
    for slot, day, puzzle, taken in zip(
        plan.page.slots, plan.page.days, plan.puzzles, plan.taken, strict=True
    ):
        if day is not None and puzzle is not None and taken is None:
            days.setdefault(day, {})[int(puzzle.key)] = slot.name
    for day, slots in days.items():
        schedule(ledger, day, slots)
    return sum(map(len, days.values()))


def release_page(ledger: Ledger, page: Page) -> int:
    """Take back what is scheduled for the days of a page, and return how many puzzles that are."""
    return sum(release(ledger, day) for day in sorted({day for day in page.days if day is not None}))


def print_until(ledger: Ledger, day: date) -> int:
    """Enter that what is scheduled for a day or before was printed; return how many puzzles that are."""
    days = sorted({one.day for one in placements(ledger, "scheduled") if one.day <= day})
    return sum(mark_printed(ledger, one) for one in days)


def last_page(ledger: Ledger, page: Page) -> Iterator[Placement]:
    """Yield what stood on the page before this one: in the week before it, or as many days as it has."""
    first, span = page.first, max(_WEEK, page.days_apart * len(page.slots))
    if first is not None:
        yield from (one for one in placements(ledger) if first - timedelta(days=span) <= one.day < first)


def _candidate(row: tuple[Any, ...]) -> Candidate:
    number, puzzle_id, title, setter, kind, grid, tier, effort, *likeness = row
    hardness = (tier or 0, int(effort or 0))  # effort is a fraction in ledgers of earlier versions
    return Candidate(str(number), puzzle_id, title, setter, kind, grid, *hardness, *likeness)


def _candidate_of(ledger: Ledger, number: int) -> Candidate:
    return _candidate(
        next(ledger.rows(f"SELECT {_COLUMNS} FROM submissions WHERE submission = ?", (number,)))
    )


def _alarms(ledger: Ledger, page: Page, placed: Mapping[int, Placement]) -> Iterator[str]:
    """Yield what must be looked at before it is printed: what is scheduled and accepted no more."""
    for at, one in sorted(placed.items()):
        wanted = "SELECT state FROM submissions WHERE submission = ? AND state <> 'accepted'"
        for (state,) in ledger.rows(wanted, (one.submission,)):
            yield wording.NO_LONGER_ACCEPTED.format(slot=page.slots[at].name, state=state)

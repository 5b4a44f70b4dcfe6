"""Why a slot stays empty, which wishes could not be met, and what to ask setters for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from verifier.intake.plan import wording
from verifier.intake.plan.choice import falls, repeated_break_ins
from verifier.intake.plan.slots import Candidate, Degree, Page, Slot
from verifier.intake.setters import same_setter
from verifier.puzzle.printable import listed, printable

__all__ = ["to_ask_for", "why_empty", "wishes_left"]

_Puzzles = Sequence[Candidate | None]


def why_empty(page: Page, stock: Sequence[Candidate], puzzles: _Puzzles, at: int) -> str:
    """Say why a slot stays empty.

    Parameters
    ----------
    page : Page
        What is asked for.
    stock : sequence of Candidate
        What was there to choose from.
    puzzles : sequence of Candidate or None
        What was chosen, by slot.
    at : int
        The empty slot.

    Examples
    --------
    >>> print(why_empty(Page((Slot("Monday", kinds=("killer",)),)), [], [None], 0))
    There is no killer in stock.
    """
    slot = page.slots[at]
    of_size = [puzzle for puzzle in stock if slot.takes_size(puzzle)]
    of_tier = [puzzle for puzzle in of_size if not slot.tiers or puzzle.tier in slot.tiers]
    fitting = [puzzle for puzzle in of_tier if slot.takes(puzzle)]
    if fitting:
        bars = [_told(page, puzzles, at, puzzle) for puzzle in fitting]
        return wording.ALL_BARRED.format(bars=wording.bars_in_words(bars))
    if of_tier:
        nearest = min((puzzle.effort for puzzle in of_tier), key=lambda effort: _off(slot, effort))
        return wording.NONE_OF_EFFORT.format(
            **wording.there_are(len(of_tier)), effort=wording.effort_in_words(slot), nearest=nearest
        )
    if of_size:
        found = wording.found_by_tier(Counter(puzzle.tier for puzzle in of_size))
        tiers = wording.tiers_in_words(slot)
        return wording.NONE_OF_TIER.format(**wording.there_are(len(of_size)), tiers=tiers, found=found)
    return wording.NONE_OF_SIZE.format(asked=wording.size_in_words(slot))


def wishes_left(page: Page, puzzles: _Puzzles) -> list[str]:
    """Say which wishes for the page as a whole could not be met."""
    names = [slot.name for slot in page.slots]
    told = []
    if page.rising is not Degree.NO:
        for earlier, later in falls(puzzles):
            low, high = puzzles[later], puzzles[earlier]
            assert low is not None
            assert high is not None
            facts = {"later": names[later], "earlier": names[earlier], "low": low.effort, "high": high.effort}
            told.append(wording.FALL.format_map(facts))
    if page.varied is not Degree.NO:
        for technique, places in repeated_break_ins(puzzles).items():
            slots = listed(names[at] for at in places)
            told.append(wording.SAME_BREAK_IN.format(slots=slots, technique=technique))
    return told


def to_ask_for(page: Page, stock: Sequence[Candidate], puzzles: _Puzzles) -> list[str]:
    """Say what to ask setters for: what empty slots lack, and what is lacking for the next page."""
    return [*_for_empty(page, stock, puzzles), *_for_next(page, stock, puzzles)]


def _for_empty(page: Page, stock: Sequence[Candidate], puzzles: _Puzzles) -> Iterator[str]:
    for at, slot in enumerate(page.slots):
        if puzzles[at] is not None:
            continue
        asked = wording.asked_in_words(slot)
        fitting = [puzzle for puzzle in stock if slot.takes(puzzle)]
        if fitting and all(_bar(page, puzzles, at, puzzle)[0] == "setter" for puzzle in fitting):
            setters = listed(
                dict.fromkeys(printable(puzzle.setter or "") for puzzle in fitting), "or", most=4
            )
            yield wording.ASK_SOMEBODY_ELSE.format(asked=asked, setters=setters, slot=slot.name)
        else:
            yield wording.ASK_FOR_EMPTY.format(asked=asked, slot=slot.name)


def _for_next(page: Page, stock: Sequence[Candidate], puzzles: _Puzzles) -> Iterator[str]:
    used = {puzzle.alike for puzzle in puzzles if puzzle is not None}
    left = [puzzle for puzzle in stock if puzzle.alike not in used and not puzzle.lacking(page.credits)]
    lacking: dict[str, list[str]] = {}
    for slot, puzzle in zip(page.slots, puzzles, strict=True):
        if puzzle is not None and not any(map(slot.takes, left)):
            lacking.setdefault(wording.asked_in_words(slot), []).append(slot.name)
    for asked, slots in lacking.items():
        yield wording.ASK_FOR_NEXT.format(asked=asked, slots=listed(slots))


def _told(page: Page, puzzles: _Puzzles, at: int, puzzle: Candidate) -> str:
    code, other = _bar(page, puzzles, at, puzzle)
    return wording.BARS[code].format(
        puzzle=wording.name_of(puzzle),
        slot=None if other is None else page.slots[other].name,
        lacking=listed(puzzle.lacking(page.credits)),
        setter=printable(puzzle.setter or "", 60),
        effort=puzzle.effort,
    )


def _bar(page: Page, puzzles: _Puzzles, at: int, puzzle: Candidate) -> tuple[str, int | None]:
    """Return what keeps a puzzle that fits a slot from standing there, and the slot with which it clashes."""
    if puzzle.lacking(page.credits):
        return "credits", None
    setter, met = same_setter(puzzle.setter or ""), 0
    for place, other in enumerate(puzzles):
        if other is None:
            continue
        if other.key == puzzle.key:
            return "elsewhere", place
        if other.alike == puzzle.alike:
            return "alike", place
        if other.solution is not None and other.solution == puzzle.solution:
            return "solution", place
        if setter and same_setter(other.setter or "") == setter:
            met += 1
            if met >= page.per_setter:
                return "setter", place
        if page.varied is Degree.MUST and other.break_in is not None and other.break_in == puzzle.break_in:
            return "break-in", place
    tried = [puzzle if place == at else other for place, other in enumerate(puzzles)]
    return ("rising" if page.rising is Degree.MUST and falls(tried) else "unknown"), None


def _off(slot: Slot, effort: int) -> int:
    """Return how far an effort is from what a slot asks for."""
    below = 0 if slot.least_effort is None else slot.least_effort - effort
    above = 0 if slot.most_effort is None else effort - slot.most_effort
    return max(below, above, 0)

"""What the plan of a page says to people."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from verifier.intake.plan.slots import Candidate, Slot
from verifier.puzzle.printable import counted, in_figures, listed, printable
from verifier.puzzle.wording import Wording

__all__ = ["SLOT_FAULTS"]

SLOT_FAULTS = {
    "cannot-open": Wording("{reason}", "a file that can be read", "Correct the name after --slots."),
    "no-slots": Wording(
        "{what}",
        "a list of slots",
        "Write 'slots:' and below it one line a slot, such as '- {{name: Monday, kind: killer, tier: 1}}'.",
    ),
    "many-slots": Wording("{count:,} slots", "at most {most}", "Plan the page in parts."),
    "no-slot": Wording(
        "{what}", "keys and values", "Write a slot as '- {{name: Monday, kind: killer, tier: 1}}'."
    ),
    "slot-twice": Wording("'{word}' again", "a name of its own for each slot", "Give it another name."),
    "said-twice": Wording("'{one}' and this", "one of the two", "Keep one of them; it may hold a list."),
}
"""What to say about each fault of a file of slots."""

BARS = {
    "credits": "{puzzle} does not say its {lacking}",
    "elsewhere": "{puzzle} stands on the page for {slot}",
    "alike": "{puzzle} repeats the puzzle in {slot}",
    "solution": "{puzzle} has the same solution as the puzzle in {slot}",
    "setter": "{puzzle} is by {setter}, who has {slot}",
    "break-in": "{puzzle} gives way as the puzzle in {slot} does",
    "rising": "{puzzle} takes an effort of {effort}, which would not rise from slot to slot",
    "unknown": "{puzzle} was not tried, for want of time",
}
"""Why a puzzle that fits a slot does not stand there."""

NONE_OF_SIZE = "There is no {asked} in stock."
NONE_OF_TIER = "In stock there {is_are} {number} of that kind and size, but none of {tiers}: {found}."
NONE_OF_EFFORT = (
    "In stock there {is_are} {number} of that kind and tier, but none with {effort}; the nearest has "
    "{nearest}."
)
ALL_BARRED = "What fits cannot stand there: {bars}."

FALL = "{later} takes less effort ({low}) than {earlier} ({high})."
SAME_BREAK_IN = "The puzzles in {slots} give way by the same technique, {technique}."
NO_LONGER_ACCEPTED = (
    "What is scheduled for {slot} is no longer accepted: it is {state}. Do not print it; --release takes the "
    "page back."
)
NOT_PROVED = "There was no time to try every choice: a better one may exist."

REPEATS_LEFT_OUT = "{puzzles} that came before, here or in print"
DOUBTED_LEFT_OUT = (
    "{puzzles} of which it must be said which one counts: a correction with another solution. "
    "'intake --forget ADDRESS' takes one out"
)
"""What is accepted, and not in stock."""

PLAN = "The plan of the page"
FILLED = "{filled} of {slots} filled; {stock} in stock to choose from."
STAYS_EMPTY = "This slot stays empty: it asks for a {asked}."
HARD = "{kind} {grid}, tier {tier}, {name}; effort {effort}"
TAKEN = {"scheduled": "Scheduled for this day.", "printed": "Printed on this day."}
LOOK = "Look at it before it goes to print: {says}"
WISHES, ASK, LEFT_OUT = "To look at", "Ask setters for", "Accepted, but left out"
"""Headings of the lists below the slots."""

ASK_FOR_EMPTY = "{asked}, for {slot}, which is empty"
ASK_SOMEBODY_ELSE = "{asked}, by somebody else than {setters}, for {slot}, which is empty"
ASK_FOR_NEXT = "{asked}: for {slots}, nothing is left for the next page"


def name_of(puzzle: Candidate) -> str:
    """Return what a puzzle is called in a sentence."""
    return f"'{printable(puzzle.title or puzzle.id or 'untitled', 60)}'"


def asked_in_words(slot: Slot) -> str:
    """Return what a slot asks for.

    Examples
    --------
    >>> asked_in_words(Slot("Sunday", ("killer",), ("9x9",), (4, 5), least_effort=200))
    'killer of 9x9, tier 4 or 5, effort at least 200'
    >>> asked_in_words(Slot("any day"))
    'puzzle of any kind'
    """
    kind = listed(slot.kinds, "or") or "puzzle"
    sizes = f" of {listed(slot.grids, 'or')}" if slot.grids else ""
    tiers = tiers_in_words(slot) if slot.tiers else ""
    words = ", ".join(filter(None, (kind + sizes, tiers, effort_in_words(slot))))
    return words if words != "puzzle" else "puzzle of any kind"


def size_in_words(slot: Slot) -> str:
    """Return the kind and size that a slot asks for."""
    return asked_in_words(Slot(slot.name, slot.kinds, slot.grids))


def tiers_in_words(slot: Slot) -> str:
    """Return the tiers that a slot asks for."""
    return f"tier {listed(map(str, slot.tiers), 'or', most=20)}"


def effort_in_words(slot: Slot) -> str:
    """Return the range of effort that a slot asks for; empty for none."""
    least, most = slot.least_effort, slot.most_effort
    if least is None:
        return "" if most is None else f"effort at most {most}"
    return f"effort at least {least}" if most is None else f"effort {least} to {most}"


def there_are(number: int) -> dict[str, str]:
    """Return how a sentence says that there are so many.

    Examples
    --------
    >>> there_are(1), there_are(20)
    ({'is_are': 'is', 'number': 'one'}, {'is_are': 'are', 'number': '20'})
    """
    return {"is_are": "is" if number == 1 else "are", "number": in_figures(number)}


def found_by_tier(numbers: Mapping[int, int]) -> str:
    """Return how many puzzles are of which tier.

    Examples
    --------
    >>> found_by_tier({2: 12, 1: 1})
    'one of tier 1 and twelve of tier 2'
    """
    return listed(f"{in_figures(number)} of tier {tier}" for tier, number in sorted(numbers.items()))


def bars_in_words(bars: Sequence[str], most: int = 4) -> str:
    """Return some of the reasons why what fits cannot stand in a slot."""
    more = len(bars) - most
    told = [*bars[:most], *([f"{counted(more, 'puzzle')} more for reasons like these"] if more > 0 else [])]
    return "; ".join(told)

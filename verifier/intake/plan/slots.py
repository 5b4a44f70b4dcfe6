"""What a page asks for: its slots, and the rules over all of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum

__all__ = ["Candidate", "Degree", "Page", "Slot"]


class Degree(Enum):
    """How much is asked for."""

    MUST = "must"
    """A slot rather stays empty."""
    WISH = "wish"
    """As far as it can be had; where it cannot, the plan says so."""
    NO = "no"


@dataclass(frozen=True, slots=True)
class Candidate:
    """A puzzle that could be printed.

    Parameters
    ----------
    key : str
        Which submission of the ledger it is.
    id, title, setter : str or None
        Its credits.
    kind, grid : str
        Such as ``killer`` and ``9x9``.
    tier, effort : int
        How hard it is.
    break_in : str or None
        The id of its hardest technique.
    alike : str
        Equal for puzzles that repeat one another, in any disguise.
    solution : str or None
        Equal for puzzles with the same solution; None where that was not looked for.
    """

    key: str
    id: str | None
    title: str | None
    setter: str | None
    kind: str
    grid: str
    tier: int
    effort: int
    break_in: str | None
    alike: str
    solution: str | None

    def lacking(self, credits: tuple[str, ...]) -> tuple[str, ...]:
        """Return which of these credits it lacks."""
        return tuple(name for name in credits if not getattr(self, name))


@dataclass(frozen=True, slots=True)
class Slot:
    """A place on the page. What is None or empty asks for nothing.

    Parameters
    ----------
    name : str
        What the house calls it, such as ``Monday``.
    kinds, grids : tuple of str
        Kinds of puzzle and sizes that may stand there.
    tiers : tuple of int
        Tiers that may stand there.
    least_effort, most_effort : int or None
        The range of effort.
    """

    name: str
    kinds: tuple[str, ...] = ()
    grids: tuple[str, ...] = ()
    tiers: tuple[int, ...] = ()
    least_effort: int | None = None
    most_effort: int | None = None

    def takes_size(self, puzzle: Candidate) -> bool:
        """Whether kind and size of a puzzle are those asked for."""
        return (not self.kinds or puzzle.kind in self.kinds) and (not self.grids or puzzle.grid in self.grids)

    def takes(self, puzzle: Candidate) -> bool:
        """Whether a puzzle is what is asked for, by itself.

        Examples
        --------
        >>> puzzle = Candidate("1", "ebb", None, "Wren", "killer", "9x9", 3, 140, None, "a", None)
        >>> Slot("Monday", tiers=(3, 4)).takes(puzzle), Slot("Sunday", least_effort=150).takes(puzzle)
        (True, False)
        """
        return (
            self.takes_size(puzzle)
            and (not self.tiers or puzzle.tier in self.tiers)
            and (self.least_effort is None or puzzle.effort >= self.least_effort)
            and (self.most_effort is None or puzzle.effort <= self.most_effort)
        )


@dataclass(frozen=True, slots=True)
class Page:
    """The slots of a week, in the order in which they are printed, and what holds for all of them.

    Parameters
    ----------
    slots : tuple of Slot
        At least one.
    name : str
        What the page is called; may be empty.
    first : date or None
        The day of the first slot.
    days_apart : int
        Days from one slot to the next; 0 for a page that appears on one day.
    per_setter : int
        Most puzzles of one setter.
    credits : tuple of str
        What a puzzle must state: ``title``, ``setter``.
    rising : Degree
        Whether no puzzle may take less effort than one before it.
    varied : Degree
        Whether no two may give way by the same technique.
    """

    slots: tuple[Slot, ...]
    name: str = ""
    first: date | None = None
    days_apart: int = 1
    per_setter: int = 1
    credits: tuple[str, ...] = ("title", "setter")
    rising: Degree = Degree.WISH
    varied: Degree = Degree.WISH

    @property
    def days(self) -> tuple[date | None, ...]:
        """The day of each slot; None where the first one's is not known.

        Examples
        --------
        >>> page = Page((Slot("one"), Slot("two")), first=date(2026, 3, 31))
        >>> [str(day) for day in page.days]
        ['2026-03-31', '2026-04-01']
        """
        if self.first is None:
            return (None,) * len(self.slots)
        return tuple(self.first + timedelta(days=self.days_apart * at) for at in range(len(self.slots)))

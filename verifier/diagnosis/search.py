"""A search that goes through its stages as far as the budget lasts, and knows what it has not looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from enum import Enum
from typing import TypeVar

from verifier.diagnosis.purse import OutOfBudgetError

__all__ = ["Look", "looked_through"]

_Found = TypeVar("_Found")


class Look(Enum):
    """What a stage of the search looks for; the values are how people are told of it."""

    CLAIM = "the solution in the file"
    SEEN = "cages in pieces and forgotten marks"
    CONFLICT = "what contradicts what"
    VALUES = "other totals and givens"
    EXCHANGES = "totals that changed places"
    MOVES = "cells in the wrong cage"
    CELLS = "cells that changed places"
    PARTED = "cages to be split"
    PAIRS = "two slips at once"
    IDLE = "what the puzzle can do without"
    GROUPS = "which cells swing together"
    GIVENS = "extra givens"
    RECUTS = "cages to be split, added or joined"


def looked_through(
    stages: Sequence[tuple[Look, Iterable[_Found]]], take: Callable[[_Found], object]
) -> tuple[Look, ...]:
    """Go through the stages in order, and hand on what each finds as soon as it is found.

    Parameters
    ----------
    stages : sequence of (Look, iterable)
        What is looked for, and a search that begins when its turn comes.
    take : callable
        Takes what is found.

    Returns
    -------
    tuple of Look
        What was not looked at, or not to its end, when the budget was spent; empty if it lasted.

    Examples
    --------
    >>> def spent():
    ...     yield "half"
    ...     raise OutOfBudgetError
    >>> found = []
    >>> left = looked_through([(Look.CLAIM, ["all"]), (Look.MOVES, spent()), (Look.PAIRS, [])], found.append)
    >>> found, [look.value for look in left]
    (['all', 'half'], ['cells in the wrong cage', 'two slips at once'])
    """
    for number, (_, search) in enumerate(stages):
        try:
            for found in search:
                take(found)
        except OutOfBudgetError:
            return tuple(look for look, _ in stages[number:])
    return ()

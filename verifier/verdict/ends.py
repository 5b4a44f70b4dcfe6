"""Counting a box: what became of its puzzles, and of which tier the accepted ones are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable
from typing import Generic, NamedTuple, TypeVar

__all__ = ["Ends", "counted_ends"]

_Tier = TypeVar("_Tier", bound=Hashable)


class Ends(NamedTuple, Generic[_Tier]):
    """How many puzzles came to which end."""

    states: Counter[str]
    tiers: Counter[_Tier]


def counted_ends(puzzles: Iterable[tuple[str, _Tier | None]]) -> Ends[_Tier]:
    """Count puzzles by their states, and those that can be printed, the accepted ones, by their tiers.

    Everything that counts tiers counts them here, so that a terminal, a page and a report say the same.

    Parameters
    ----------
    puzzles : iterable of (str, tier or None)
        The state of each, and its tier where it was graded: a rejected one may be.

    Examples
    --------
    >>> counted_ends([("accepted", 3), ("rejected", 5), ("accepted", 3), ("unreadable", None)])
    Ends(states=Counter({'accepted': 2, 'rejected': 1, 'unreadable': 1}), tiers=Counter({3: 2}))
    """
    ends: Ends[_Tier] = Ends(Counter(), Counter())
    for state, tier in puzzles:
        ends.states[state] += 1
        if state == "accepted" and tier is not None:
            ends.tiers[tier] += 1
    return ends

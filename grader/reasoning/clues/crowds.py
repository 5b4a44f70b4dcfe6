"""Cells that all differ: what they make together at the least and at the most."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from grader.board.layout import Layout
from grader.reasoning.clues.clue import Clue

__all__ = ["Crowd", "Reach", "crowd_in", "least_of", "most_of", "reach_of"]


class Crowd(NamedTuple):
    """Cells that all differ, and why.

    Parameters
    ----------
    cells : tuple of int
        The cells; one alone needs no reason.
    rules : tuple of int
        The number of the rule by which they differ.
    """

    cells: tuple[int, ...]
    rules: tuple[int, ...] = ()


@lru_cache(maxsize=1 << 10)
def _crowdings(layout: Layout, cells: tuple[int, ...]) -> tuple[tuple[Crowd, ...], ...]:
    """Return ways to share cells out to crowds: each by itself, then by the houses of each kind."""
    found = [tuple(Crowd((cell,)) for cell in cells)]
    for kind in dict.fromkeys(house.kind for house in layout.houses):
        members: dict[object, list[int]] = {}
        for cell in cells:
            homes = [house for house in layout.houses_of[cell] if layout.houses[house].kind == kind]
            members.setdefault(homes[0] if homes else (cell,), []).append(cell)
        crowds = tuple(
            Crowd(tuple(some), (home,)) if isinstance(home, int) and len(some) > 1 else Crowd((cell,))
            for home, some in members.items()
            for cell in ([some[0]] if isinstance(home, int) and len(some) > 1 else some)
        )
        if any(crowd.rules for crowd in crowds):
            found.append(crowds)
    return tuple(found)


def crowd_in(layout: Layout, cells: tuple[int, ...]) -> Crowd:
    """Return the largest crowd among some cells that one house holds."""
    return max(
        (crowd for crowds in _crowdings(layout, cells) for crowd in crowds),
        key=lambda crowd: len(crowd.cells),
    )


def least_of(lows: Iterable[int]) -> int:
    """Return the least that cells make which all differ, each no less than its low.

    Examples
    --------
    >>> least_of([1, 1, 5])
    8
    """
    least = below = 0
    for one in sorted(lows):
        below = max(one, below + 1)
        least += below
    return least


def most_of(highs: Sequence[int], digits: int) -> int:
    """Return the most that cells make which all differ, each no more than its high.

    Examples
    --------
    >>> most_of([9, 9, 5], 9)
    22
    """
    return len(highs) * (digits + 1) - least_of(digits + 1 - one for one in highs)


class Reach(NamedTuple):
    """What some cells make together.

    Parameters
    ----------
    least, most : int
        At the least, and at the most.
    low_rules, high_rules : tuple of int
        The rules by which cells differ, where that raises the least, or lowers the most.
    """

    least: int = 0
    most: int = 0
    low_rules: tuple[int, ...] = ()
    high_rules: tuple[int, ...] = ()


def reach_of(clue: Clue, cells: Sequence[int]) -> Reach:
    """Return what some cells of a clue make, where those that see each other differ.

    Of the ways to see which of them differ, that counts which says most; a plain sum where none says more.
    """
    lows, highs = [], []
    for crowds in _crowdings(clue.layout, tuple(cells)) if cells else ():
        rules = tuple(sorted(rule for crowd in crowds for rule in crowd.rules))
        least = sum(least_of(clue.low(cell) for cell in crowd.cells) for crowd in crowds)
        most = sum(most_of([clue.high(cell) for cell in crowd.cells], clue.digits) for crowd in crowds)
        lows.append((-least, len(rules), rules))
        highs.append((most, len(rules), rules))
    if not lows:
        return Reach()
    (less, _, low_rules), (most, _, high_rules) = min(lows), min(highs)
    return Reach(-less, most, low_rules, high_rules)

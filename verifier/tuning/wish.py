"""A setter's wish, and how far a puzzle is from it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from typing import Protocol

from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.style.checks import style_checks
from verifier.verdict.style.style import PLAIN, HouseStyle
from verifier.verdict.style.symmetry import unmatched

__all__ = [
    "THIRDS",
    "Gap",
    "Hardness",
    "Wish",
    "WishPart",
    "asks_of_layout",
    "gaps",
    "layout_gaps",
    "wish_in_style",
]


THIRDS: Mapping[str, int] = {"early": 0, "middle": 1, "late": 2}
"""In which third of the rounds the break-in can be wished for, counted from 0."""


class _Placed(Protocol):
    @property
    def round(self) -> int:
        """Its round, counted from 1."""


class Hardness(Protocol):
    """How hard a puzzle is: a grade, or the difficulty in a verdict. None where it was not worked through."""

    @property
    def tier(self) -> int | None:
        """From 1, the easiest."""

    @property
    def effort(self) -> int | None:
        """Expected work; 100 is the median of the classics with published human times."""

    @property
    def rounds(self) -> int:
        """Rounds of the replay."""

    @property
    def by_technique(self) -> Mapping[str, int]:
        """Steps by technique id."""

    @property
    def break_in(self) -> _Placed | None:
        """The first step of the hardest technique."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a puzzle should be. Every part may be left out; None or empty asks for nothing.

    Parameters
    ----------
    tiers : tuple of int
        It should be of one of these.
    effort : (int, int) or None
        The least and the most.
    without, having : tuple of str
        Ids of techniques that it should not need, and that it should.
    break_in : str or None
        In which third of the rounds its break-in should come, one of `THIRDS`.
    most_givens, most_cages : int or None
        It should have no more. Without a word on givens, no puzzle gets more than it has.
    symmetry : str or None
        What its givens should have, see `verifier.verdict.style.symmetry`.
    style : HouseStyle
        It should keep to this; `wish_in_style` has its tiers and techniques count too.
    """

    tiers: tuple[int, ...] = ()
    effort: tuple[int, int] | None = None
    without: tuple[str, ...] = ()
    having: tuple[str, ...] = ()
    break_in: str | None = None
    most_givens: int | None = None
    most_cages: int | None = None
    symmetry: str | None = None
    style: HouseStyle = PLAIN


def wish_in_style(wish: Wish) -> Wish:
    """Return a wish with what its house style asks for of tiers and techniques.

    Examples
    --------
    >>> style = HouseStyle("Harbour Page", tiers=(1, 2, 3), techniques_not_accepted=("swordfish",))
    >>> found = wish_in_style(Wish(effort=(100, 200), style=style))
    >>> found.tiers, found.without
    ((1, 2, 3), ('swordfish',))
    """
    without = tuple(dict.fromkeys((*wish.without, *wish.style.techniques_not_accepted)))
    return replace(wish, tiers=wish.tiers or wish.style.tiers, without=without)


class WishPart(Enum):
    """A part of a wish that can be missed."""

    TIERS = "tier"
    EFFORT = "effort"
    WITHOUT = "without"
    HAVING = "with"
    BREAK_IN = "break-in"
    GIVENS = "givens"
    CAGES = "cages"
    SYMMETRY = "symmetry"
    STYLE = "style"
    BEYOND = "beyond"
    """It was not worked through: that takes more than the wish allows."""


@dataclass(frozen=True, slots=True)
class Gap:
    """One part of a wish that a puzzle does not meet.

    Parameters
    ----------
    part : WishPart
        Which.
    far : float
        How far it is from that; a tier, a given, a cage, a pair of cells, a technique, a third of the rounds
        each count 1.
    facts : mapping of str to object
        What is asked for and what was found, for the sentence that says so.
    """

    part: WishPart
    far: float
    facts: Mapping[str, object]


def gaps(wish: Wish, puzzle: Puzzle, hardness: Hardness | None) -> tuple[Gap, ...]:
    """Return every part of a wish that a puzzle with one solution does not meet.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> [(gap.part.value, gap.far) for gap in gaps(Wish(most_givens=4, tiers=(3,)), puzzle, None)]
    [('givens', 2), ('beyond', 1)]
    """
    if hardness is None or hardness.tier is None:
        return (*layout_gaps(wish, puzzle), Gap(WishPart.BEYOND, 1, {}))
    return (*layout_gaps(wish, puzzle), *_gaps_of_hardness(wish, hardness))


def layout_gaps(wish: Wish, puzzle: Puzzle) -> Iterator[Gap]:
    """Yield the parts of a wish that a puzzle does not meet, as far as nothing is solved for that."""
    for part, most, found in (
        (WishPart.GIVENS, wish.most_givens, len(puzzle.givens)),
        (WishPart.CAGES, wish.most_cages, len(puzzle.cages)),
    ):
        if most is not None and found > most:
            yield Gap(part, found - most, {"most": most, "found": found})
    if wish.symmetry is not None:
        lacking = unmatched(wish.symmetry, puzzle.grid, [cell for cell, _ in puzzle.givens])
        if lacking:
            cells = [puzzle.grid.cell_name(cell) for cell, _ in lacking]
            yield Gap(WishPart.SYMMETRY, len(lacking), {"symmetry": wish.symmetry, "cells": cells})
    failed = [check.says for check in style_checks(wish.style, puzzle, None) if not check.passed]
    if failed:
        yield Gap(WishPart.STYLE, len(failed), {"says": " ".join(failed)})


def asks_of_layout(wish: Wish, puzzle: Puzzle) -> bool:
    """Whether changes that bring no more givens than wished for can still miss it without a solve."""
    fewer_givens = wish.most_givens is not None and len(puzzle.givens) > wish.most_givens
    return fewer_givens or wish.most_cages is not None or wish.symmetry is not None or wish.style != PLAIN


_LEAST_FAR = 0.01


def _gaps_of_hardness(wish: Wish, found: Hardness) -> Iterator[Gap]:
    tier, effort = found.tier, found.effort
    if wish.tiers and tier is not None and tier not in wish.tiers:
        far = min(abs(tier - wished) for wished in wish.tiers)
        yield Gap(WishPart.TIERS, far, {"tiers": wish.tiers, "found": tier})
    if wish.effort is not None and effort is not None:
        low, high = wish.effort
        if not low <= effort <= high:
            off = abs(math.log(max(effort, 1) / (low if effort < low else max(high, 1))))
            yield Gap(WishPart.EFFORT, off, {"low": low, "high": high, "found": effort})
    used = [name for name in wish.without if name in found.by_technique]
    if used:
        yield Gap(WishPart.WITHOUT, len(used), {"techniques": used})
    lacking = [name for name in wish.having if name not in found.by_technique]
    if lacking:
        yield Gap(WishPart.HAVING, len(lacking), {"techniques": lacking})
    if wish.break_in is not None and found.break_in is not None:
        third, number = THIRDS[wish.break_in], found.break_in.round
        place = 3 * (number - 0.5) / found.rounds  # the middle of its round, in thirds
        if not third <= place < third + 1:
            facts = {"place": wish.break_in, "round": number, "rounds": found.rounds}
            yield Gap(WishPart.BREAK_IN, max(third - place, place - third - 1, _LEAST_FAR), facts)

"""The rule of 45: what houses and the cages that straddle their border leave over.

Houses that share no cell add up to a known total. Cages wholly inside hold a known part of it. For each
cage that straddles the border a person has two choices: leave the cage out, so that its cells inside
(*innies*) are left over, or count it in, so that its cells outside (*outies*) are too much. Each set of
choices gives a sum over the cells left over::

    innies - outies = total of the houses - cages inside - straddling cages that were counted in

Cells of the houses in no cage are innies in every choice.

Which choices are worth making depends only on which cells still lack a digit. A group remembers its answer
for each such pattern, since one placed digit leaves most groups as they were.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from grader.board import Board, Layout, bits
from grader.steps import DerivedSum
from verifier.puzzle.parts import LinearSum

__all__ = ["HOUSES_AT_MOST", "LEFT_AT_MOST", "STRADDLING_AT_MOST", "Leftover", "Shape", "fresh_leftovers"]

HOUSES_AT_MOST = 4
"""A person adds up no more houses at once."""
STRADDLING_AT_MOST = 6
"""A person keeps track of no more cages across one border."""
LEFT_AT_MOST = 4
"""A person reasons about no more unknown cells at once."""


class Shape(Enum):
    """What a sum leaves unknown."""

    ONE = "one cell"
    TWO = "two innies or two outies"
    UP_TO_FOUR = "three or four innies, or outies"
    BOTH_SIDES = "innies and outies"


_UNKNOWN_AT_MOST = {
    Shape.ONE: 1,
    Shape.TWO: 2,
    Shape.UP_TO_FOUR: LEFT_AT_MOST,
    Shape.BOTH_SIDES: LEFT_AT_MOST,
}


@dataclass(frozen=True, slots=True, eq=False)
class _Straddle:
    """A cage across the border of a group: its cells inside and outside, as masks."""

    cage: int
    inside: int
    outside: int
    total: int


@dataclass(frozen=True, slots=True, eq=False)
class _Group:
    """Houses of one kind that straddling cages link, and the cages that touch them."""

    houses: tuple[int, ...]
    total: int
    whole: tuple[int, ...]
    straddles: tuple[_Straddle, ...]
    uncaged: int
    border: int
    known: dict[tuple[Shape, int], list[Leftover]]


@dataclass(frozen=True, slots=True, eq=False)
class Leftover:
    """A sum over the cells left over, with the cells that lack a digit named.

    Parameters
    ----------
    houses : tuple of int
        The houses added up.
    cages : tuple of int
        The cages subtracted: wholly inside, then those counted in.
    plus, minus : int
        Masks of all innies and all outies, with or without a digit.
    total : int
        Innies less outies.
    unknown_plus, unknown_minus : int
        Masks of those without a digit.
    """

    houses: tuple[int, ...]
    cages: tuple[int, ...]
    plus: int
    minus: int
    total: int
    unknown_plus: int
    unknown_minus: int

    @property
    def shape(self) -> Shape:
        """How many unknown cells there are, and on which sides."""
        if self.unknown_plus and self.unknown_minus:
            return Shape.BOTH_SIDES
        count = (self.unknown_plus | self.unknown_minus).bit_count()
        return (Shape.ONE, Shape.TWO, Shape.UP_TO_FOUR, Shape.UP_TO_FOUR)[count - 1]

    def rest(self, board: Board) -> int:
        """Return what the unknown cells (innies less outies) add up to on this board."""
        candidates, placed = board.candidates, board.placed
        total = self.total
        for cell in bits(self.plus & placed):
            total -= candidates[cell].bit_length() - 1
        for cell in bits(self.minus & placed):
            total += candidates[cell].bit_length() - 1
        return total

    @property
    def cells(self) -> tuple[int, ...]:
        """All cells left over, with or without a digit, in reading order."""
        return tuple(bits(self.plus | self.minus))

    def derived(self) -> DerivedSum:
        """Return the sum with its premises; outies alone are written with weight 1."""
        sign = 1 if self.plus else -1
        weights = tuple((cell, sign if self.plus >> cell & 1 else -sign) for cell in self.cells)
        return DerivedSum(LinearSum(weights, sign * self.total), self.houses, tuple(sorted(self.cages)))


def fresh_leftovers(
    board: Board, shape: Shape, *, single: bool = True, several: bool = True
) -> Iterator[Leftover]:
    """Yield the sums of one shape that a fresh cell has a part in.

    Parameters
    ----------
    board : Board
        Read, never changed.
    shape : Shape
        How many unknown cells, on which side of the border.
    single, several : bool, optional
        Whether to look at single houses, and at groups of 2 to `HOUSES_AT_MOST` linked ones.

    Yields
    ------
    Leftover
        Single houses first, then groups by their houses.

    Examples
    --------
    >>> from grader.board import board_from_text
    >>> from verifier.puzzle.parts import Cage
    >>> cages = [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)]
    >>> board = board_from_text("", cages)
    >>> [(s.cells, s.total) for s in fresh_leftovers(board, Shape.ONE) if s.houses == (0,)]
    [((17,), -1)]
    >>> [(s.cells, s.total) for s in fresh_leftovers(board, Shape.TWO) if s.houses == (0,)]
    [((7, 8), 15)]
    """
    ones, more = _groups(board.layout)
    fresh, placed = board.fresh, board.placed
    for group in (*(ones if single else ()), *(more if several else ())):
        if group.border & fresh:
            pattern = shape, placed & group.border
            if pattern not in group.known:
                group.known[pattern] = [s for s in _choices(group, *pattern) if s.shape is shape]
            yield from group.known[pattern]


def _choices(group: _Group, shape: Shape, placed: int) -> Iterator[Leftover]:
    """Yield the sum for every set of choices that leaves no more unknown cells than the shape has."""
    sides = [
        ((s.inside & ~placed).bit_count(), (s.outside & ~placed).bit_count(), s) for s in group.straddles
    ]
    # What the straddling cages leave over at the least; the cells of different cages are different.
    at_least = sum(min(inside, outside) for inside, outside, _ in sides)
    room = _UNKNOWN_AT_MOST[shape] - (group.uncaged & ~placed).bit_count() - at_least
    if room < 0:
        return
    picks = [(room, group.uncaged, 0, group.total, group.whole)]
    for inside, outside, straddle in sides:
        grown = []
        for room, plus, minus, total, cages in picks:
            # A side whose digits are all known costs nothing, so the other side is no choice then.
            if (not inside or outside) and inside - min(inside, outside) <= room:
                left = room - (inside - min(inside, outside))
                grown.append((left, plus | straddle.inside, minus, total, cages))
            if inside and outside - min(inside, outside) <= room:
                left = room - (outside - min(inside, outside))
                rest = total - straddle.total
                grown.append((left, plus, minus | straddle.outside, rest, (*cages, straddle.cage)))
        picks = grown
    for _, plus, minus, total, cages in picks:
        if (plus | minus) & ~placed:
            yield Leftover(group.houses, cages, plus, minus, total, plus & ~placed, minus & ~placed)


@lru_cache(maxsize=4)
def _groups(layout: Layout) -> tuple[tuple[_Group, ...], tuple[_Group, ...]]:
    """Return the single houses, and the linked groups of more, that few enough cages straddle."""
    if not layout.cages:
        return (), ()
    singles: list[_Group] = []
    more: list[_Group] = []
    for kind in ("row", "column", "box"):
        houses = [index for index, house in enumerate(layout.houses) if house.kind == kind]
        touched = _touched(layout, houses)
        for members in _linked(len(houses), touched):
            group = _group(layout, houses, touched, members)
            if group is not None:
                (more if members & (members - 1) else singles).append(group)
    return tuple(singles), tuple(more)


def _touched(layout: Layout, houses: list[int]) -> list[int]:
    """Return, for each cage, the mask of the places in `houses` of those it touches."""
    place_of = {cell: place for place, house in enumerate(houses) for cell in layout.houses[house].cells}
    touched = []
    for cage in layout.cages:
        mask = 0
        for cell in cage.cells:
            if cell in place_of:
                mask |= 1 << place_of[cell]
        touched.append(mask)
    return touched


def _linked(count: int, touched: list[int]) -> list[int]:
    """Return every set of at most `HOUSES_AT_MOST` houses that cages link, as masks of places."""
    neighbours = [0] * count
    for mask in touched:
        if mask & (mask - 1):
            for place in bits(mask):
                neighbours[place] |= mask
    found = {1 << place for place in range(count)}
    layer = found
    for _ in range(HOUSES_AT_MOST - 1):
        grown: set[int] = set()
        for members in layer:
            around = 0
            for place in bits(members):
                around |= neighbours[place]
            grown.update(members | 1 << place for place in bits(around & ~members))
        layer = grown
        found = found | layer
    return sorted(found, key=lambda members: (members.bit_count(), tuple(bits(members))))


def _group(layout: Layout, houses: list[int], touched: list[int], members: int) -> _Group | None:
    """Work out the cages of one group; None if too many of them straddle its border."""
    straddling = [k for k, mask in enumerate(touched) if mask & members and mask & ~members]
    if len(straddling) > STRADDLING_AT_MOST:
        return None
    chosen = tuple(houses[place] for place in bits(members))
    cells = 0
    for house in chosen:
        cells |= layout.house_masks[house]
    whole = [k for k, mask in enumerate(touched) if mask and not mask & ~members]
    uncaged = cells
    total = len(chosen) * layout.grid.house_total
    for cage in whole:
        uncaged &= ~layout.cage_masks[cage]
        total -= layout.cages[cage].total
    straddles = []
    border = 0
    for cage in straddling:
        mask = layout.cage_masks[cage]
        uncaged &= ~mask
        border |= mask
        straddles.append(_Straddle(cage, mask & cells, mask & ~cells, layout.cages[cage].total))
    return _Group(chosen, total, tuple(whole), tuple(straddles), uncaged, border | uncaged, {})

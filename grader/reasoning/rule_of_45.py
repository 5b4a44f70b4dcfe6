"""The rule of 45: what houses and the cages that straddle their border leave over.

Houses that share no cell add up to a known total. Cages wholly inside hold a known part of it. For each
cage that straddles the border a person has two choices: leave the cage out, so that its cells inside
(*innies*) are left over, or count it in, so that its cells outside (*outies*) are too much. Each set of
choices gives a sum over the cells left over::

    innies - outies = total of the houses - cages inside - straddling cages that were counted in

Cells of the houses in no cage are innies in every choice. A sum is read from the board: a digit that stands
is taken off, and so is a cage inside that is full, digit by digit; its printed total is not asked for.

Which choices are worth making depends only on which cells still lack a digit. A group remembers its answer
for each such pattern, since one placed digit leaves most groups as they were.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum
from functools import lru_cache, reduce
from itertools import chain
from operator import or_
from typing import NamedTuple

from grader.board.board import Board
from grader.board.layout import Layout, cages_cross
from grader.board.steps import DerivedSum
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.house import disjoint_kinds
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = [
    "BOUNDED_AT_MOST",
    "HOUSES_AT_MOST",
    "LEFT_AT_MOST",
    "STRADDLING_AT_MOST",
    "InnieOutieSum",
    "SumKind",
    "fresh_sums",
    "simplest_sums",
]

HOUSES_AT_MOST = 4
"""A person adds up no more houses at once."""
STRADDLING_AT_MOST = 4
"""A person keeps track of no more cages across one border: of a single house, of no more that have an empty
cell on both sides of it."""
LEFT_AT_MOST = 4
"""A person reasons about no more unknown cells at once."""
BOUNDED_AT_MOST = 6
"""Of no more unknown cells does a person ask how little or how much they can make."""


class SumKind(IntEnum):
    """What a sum leaves unknown."""

    ONE = 1
    """One cell."""
    TWO = 2
    """Two innies, or two outies."""
    UP_TO_FOUR = 3
    """Three or four innies, or outies."""
    BOTH_SIDES = 4
    """Innies and outies, two to four together."""
    MORE = 5
    """Five or six cells, on one side or both."""


_UNKNOWN_AT_MOST = {
    SumKind.ONE: 1,
    SumKind.TWO: 2,
    SumKind.UP_TO_FOUR: LEFT_AT_MOST,
    SumKind.BOTH_SIDES: LEFT_AT_MOST,
    SumKind.MORE: BOUNDED_AT_MOST,
}


class _Straddle(NamedTuple):
    """A cage across the border of a group: its cells inside and outside, as masks."""

    cage: int
    inside: int
    outside: int
    total: int


class _Group(NamedTuple):
    """Houses of one kind that straddling cages link, and the cages that touch them.

    `whole` are the cages inside, each with its cells and its total, `inner` all cells of these; `border` are
    all other cells of the houses and of the cages that touch them. `known` remembers, for each kind, the sums
    by the cells that have a digit.
    """

    houses: tuple[int, ...]
    total: int
    whole: list[tuple[int, int, int]]
    straddles: list[_Straddle]
    uncaged: int
    inner: int
    border: int
    known: dict[int, dict[int, list[InnieOutieSum]]]


@dataclass(frozen=True, slots=True, eq=False)
class InnieOutieSum:
    """A sum over the cells left over, with the cells that lack a digit named.

    Parameters
    ----------
    houses : tuple of int
        The houses added up.
    cages : tuple of int
        The cages subtracted: wholly inside, then those counted in. None of them is full.
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
    def kind(self) -> SumKind:
        """How many unknown cells there are, and on which sides."""
        count = (self.unknown_plus | self.unknown_minus).bit_count()
        if count > LEFT_AT_MOST:
            return SumKind.MORE
        if self.unknown_plus and self.unknown_minus:
            return SumKind.BOTH_SIDES
        return (SumKind.ONE, SumKind.TWO, SumKind.UP_TO_FOUR, SumKind.UP_TO_FOUR)[count - 1]

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

    @property
    def premise_count(self) -> int:
        """How many houses, cages and cells the sum is made of."""
        return len(self.houses) + len(self.cages) + (self.plus | self.minus).bit_count()

    def derived(self) -> DerivedSum:
        """Return the sum with its premises; outies alone are written with weight 1."""
        sign = 1 if self.plus else -1
        weights = tuple((cell, sign if self.plus >> cell & 1 else -sign) for cell in self.cells)
        return DerivedSum(LinearSum(weights, sign * self.total), (*self.houses, *sorted(self.cages)))


def fresh_sums(
    board: Board, kind: SumKind, *, houses: Iterable[int] = range(1, HOUSES_AT_MOST + 1)
) -> Iterator[InnieOutieSum]:
    """Yield the sums of one kind that a fresh cell has a part in.

    Parameters
    ----------
    board : Board
        Read, never changed.
    kind : SumKind
        How many unknown cells, on which side of the border.
    houses : iterable of int, optional
        Of how many linked houses, from 1 to `HOUSES_AT_MOST`, to look at groups.

    Yields
    ------
    InnieOutieSum
        Single houses first, then groups of two, and so on.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage((0, 1, 2, 3), 12), Cage((4, 5, 6), 18), Cage((7, 8, 17), 16)]
    >>> board = board_from_text("", cages)
    >>> [(s.cells, s.total) for s in fresh_sums(board, SumKind.ONE) if s.houses == (0,)]
    [((17,), -1)]
    >>> [(s.cells, s.total) for s in fresh_sums(board, SumKind.TWO) if s.houses == (0,)]
    [((7, 8), 15)]
    """
    fresh, placed = board.fresh, board.placed
    full_cages = _full_cages(board.layout, placed)
    full = reduce(or_, full_cages, 0)
    just_full = reduce(or_, [mask for mask in full_cages if mask & fresh], 0)
    for group in chain.from_iterable(_groups(board.layout, count) for count in houses):
        if group.border & fresh or group.inner & just_full:
            known = (placed & group.border) | (full & group.inner)
            sums = group.known[kind].get(known)
            if sums is None:
                sums = group.known[kind][known] = [s for s in _choices(group, kind, known) if s.kind is kind]
            yield from sums


def simplest_sums(board: Board, *kinds: SumKind) -> list[InnieOutieSum]:
    """Return the sums of some kinds, fresh or not; of those over the same cells, one with fewest premises.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("", [Cage((0, 1, 2, 3, 4, 5, 6), 29), Cage((7, 8, 17), 18)])
    >>> [(list(bits(left.unknown_plus)), left.total) for left in simplest_sums(board, SumKind.TWO)]
    [([7, 8], 16)]
    """
    found: dict[tuple[int, int], InnieOutieSum] = {}
    everywhere = board.looking_at(board.layout.all_cells)
    for kind in kinds:
        for left in fresh_sums(everywhere, kind):
            known = found.setdefault((left.unknown_plus, left.unknown_minus), left)
            if left.premise_count < known.premise_count:
                found[left.unknown_plus, left.unknown_minus] = left
    return list(found.values())


def _choices(group: _Group, kind: SumKind, known: int) -> Iterator[InnieOutieSum]:
    """Yield the sum for every set of choices that leaves no more unknown cells than the kind has.

    `known` are the cells with a digit, of cages inside only where they are full.
    """
    room = _UNKNOWN_AT_MOST[kind] - (group.uncaged & ~known).bit_count()
    sides = []
    open_straddles = 0
    for straddle in group.straddles:
        inside, outside = (straddle.inside & ~known).bit_count(), (straddle.outside & ~known).bit_count()
        open_straddles += bool(inside and outside)
        room -= inside if inside < outside else outside  # what this cage leaves over at the least
        if room < 0 or open_straddles > STRADDLING_AT_MOST:
            return
        sides.append((inside, outside, straddle))
    if room < 0:
        return
    taken_off = group.inner & known
    whole = tuple([cage for cage, mask, _ in group.whole if not mask & known])
    total = group.total - sum(total for _, mask, total in group.whole if not mask & known)
    picks = [(room, group.uncaged | taken_off, 0, total, whole)]
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
        if (plus | minus) & ~known:
            yield InnieOutieSum(group.houses, cages, plus, minus, total, plus & ~known, minus & ~known)


@lru_cache(maxsize=8)
def _full_cages(layout: Layout, placed: int) -> tuple[int, ...]:
    """Return the cells of each cage that has all its digits."""
    return tuple([mask for _, mask in layout.summed_masks if not mask & ~placed])


@lru_cache(maxsize=4 * HOUSES_AT_MOST)
def _groups(layout: Layout, count: int) -> tuple[_Group, ...]:
    """Return the groups of so many linked houses; of several houses, those that few enough cages straddle."""
    if not layout.summed or cages_cross(layout):
        return ()  # where cages overlap, their totals cannot be taken away
    cages = [(number, mask, layout.cage(number).total) for number, mask in layout.summed_masks]
    found = []
    for houses, links in _kinds(layout):
        for members in _linked(links, len(houses), count):
            straddling = [1 for touched in links if touched & members and touched & ~members]
            if count == 1 or len(straddling) <= STRADDLING_AT_MOST:
                found.append(_group(layout, cages, [houses[place] for place in bits(members)]))
    return tuple(found)


@lru_cache(maxsize=4)
def _kinds(layout: Layout) -> tuple[tuple[list[int], list[int]], ...]:
    """Return the houses of each kind, and the links that cages are between them.

    A link is the mask of the houses that a cage lies in, numbered by their place in the kind; the bit that
    follows the last of them stands for cells in none.
    """
    numbers = {house: number for number, house in enumerate(layout.houses)}
    kinds = []
    for alike in disjoint_kinds(layout.houses):
        houses = [numbers[house] for house in alike]
        masks = [layout.house_masks[house] for house in houses]
        masks.append(layout.all_cells & ~reduce(or_, masks))
        links = [
            mask_of([place for place, mask in enumerate(masks) if mask & cells])
            for _, cells in layout.summed_masks
        ]
        kinds.append((houses, [link for link in links if link & (link - 1)]))
    return tuple(kinds)


def _linked(links: list[int], houses: int, count: int) -> list[int]:
    """Return every set of so many out of some houses that are linked, as masks of places; in order."""
    around_of = [0] * houses
    if count > 1:
        for link in links:
            for place in bits(link & (1 << houses) - 1):
                around_of[place] |= link & (1 << houses) - 1
    layer = {1 << place: around for place, around in enumerate(around_of)}
    for _ in range(count - 1):
        grown: dict[int, int] = {}
        for members, around in layer.items():
            for place in bits(around & ~members):
                grown[members | 1 << place] = around | around_of[place]
        layer = grown
    return sorted(layer)


def _group(layout: Layout, cages: list[tuple[int, int, int]], houses: list[int]) -> _Group:
    """Work out which cages, each with its cells and its total, belong to a group."""
    cells = 0
    for house in houses:
        cells |= layout.house_masks[house]
    whole, straddles = [], []
    inner = border = 0
    for cage in cages:
        number, mask, total = cage
        inside = mask & cells
        if inside == mask:
            whole.append(cage)
            inner |= mask
        elif inside:
            straddles.append(_Straddle(number, inside, mask ^ inside, total))
            border |= mask
    uncaged = cells & ~inner & ~border
    return _Group(
        houses=tuple(houses),
        total=len(houses) * layout.grid.house_total,
        whole=whole,
        straddles=straddles,
        uncaged=uncaged,
        inner=inner,
        border=border | uncaged,
        known={kind: {} for kind in _UNKNOWN_AT_MOST},
    )

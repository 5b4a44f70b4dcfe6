"""Arithmetic conflicts: houses that add up to one thing, and cages in and around them to another.

This is the rule of 45 used to find fault. It needs no search, and a setter can check it with a pencil.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from itertools import combinations

from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House, disjoint_kinds
from verifier.puzzle.run_layout import parts

__all__ = ["Comparison", "Imbalance", "imbalances"]

_ALL_GROUPS_UP_TO = 9
"""With more houses of a kind than this, only neighbouring ones are added up."""


class Comparison(Enum):
    """What is compared with what."""

    CAGE = "cage"
    """A cage with a total that its number of cells cannot make."""
    ACROSS = "across"
    """Runs across and runs down over the same cells, with other totals."""
    EXACT = "exact"
    """Houses that consist of whole cages, whose totals do not add up to theirs."""
    INNIES = "innies"
    """Houses and the cages inside: too much or too little remains for the cells left over."""
    OUTIES = "outies"
    """Houses and the cages that cover them: too much or too little sticks out."""


@dataclass(frozen=True, slots=True)
class Imbalance:
    """Houses and cages whose totals contradict each other.

    Parameters
    ----------
    compared : Comparison
        What is compared.
    houses : tuple of House
        Of one kind; empty for `Comparison.CAGE` and `Comparison.ACROSS`.
    cages : tuple of Cage
        The cages counted in.
    whole, made : int
        What the houses add up to, and what the cages do; or the runs across, and those down.
    cells : tuple of int
        The cells left over, inside or outside.
    least, most : int
        What these cells can make.
    """

    compared: Comparison
    houses: tuple[House, ...]
    cages: tuple[Cage, ...]
    whole: int = 0
    made: int = 0
    cells: tuple[int, ...] = ()
    least: int = 0
    most: int = 0

    @property
    def rules(self) -> tuple[House | Cage, ...]:
        """The houses and cages that contradict each other."""
        return (*self.houses, *self.cages)

    @property
    def left(self) -> int:
        """What the cells left over would have to make."""
        return abs(self.whole - self.made)


def imbalances(puzzle: Puzzle) -> tuple[Imbalance, ...]:
    """Return the arithmetic conflicts of a puzzle, those with the fewest rules first.

    Parameters
    ----------
    puzzle : Puzzle
        Where cages overlap, only their own totals are looked at.

    Notes
    -----
    Own derivation. Let G be N houses of one kind: they share no cell, so they add up to N times the total
    of a house. The cages wholly inside add up to what they say, so the rest of G adds up to the difference.
    That must be something so many cells can make, digits different within a house. Where the cages that
    straddle the border of G cover this rest, what sticks out of them adds up to all these cages less G, and
    that must be something so many cells can make, digits different within a cage.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((2, 3), 6), Cage((12, 13), 5)]
    >>> first = imbalances(make_puzzle("killer", Grid.square(4), cages=cages))[0]
    >>> first.compared.value, [house.name for house in first.houses], first.whole, first.made
    ('exact', ['row 1'], 10, 9)
    """
    found = [*_impossible_cages(puzzle), *_across_and_down(puzzle)]
    if not _overlap(puzzle.cages):
        masks = [(mask_of(cage.cells), cage) for cage in puzzle.cages]
        for houses in _groups(puzzle.full_houses):
            found += _of_group(puzzle, houses, masks)
    return tuple(sorted(found, key=lambda one: (len(one.rules), len(one.cells), one.cells)))


def _impossible_cages(puzzle: Puzzle) -> Iterator[Imbalance]:
    for cage in puzzle.cages:
        least, most = _range([len(cage.cells)], puzzle.grid.digits)
        if len(cage.cells) > puzzle.grid.digits or not least <= cage.total <= most:
            yield Imbalance(Comparison.CAGE, (), (cage,), made=cage.total, least=least, most=most)


def _across_and_down(puzzle: Puzzle) -> Iterator[Imbalance]:
    for part in parts(puzzle) if puzzle.kind == KAKURO else ():
        if part.across is not None and part.down is not None and part.across != part.down:
            inside = tuple(cage for cage in puzzle.cages if cage.cells[0] in part.cells)
            yield Imbalance(Comparison.ACROSS, (), inside, part.across, part.down)


def _overlap(cages: tuple[Cage, ...]) -> bool:
    cells = [cell for cage in cages for cell in cage.cells]
    return len(set(cells)) < len(cells)


def _groups(houses: tuple[House, ...]) -> Iterator[tuple[House, ...]]:
    """Yield groups of houses of one kind that share no cell."""
    for alike in disjoint_kinds(houses):
        for size in range(1, len(alike) + 1):
            if len(alike) <= _ALL_GROUPS_UP_TO:
                yield from combinations(alike, size)
            else:
                yield from (alike[start : start + size] for start in range(len(alike) - size + 1))


def _of_group(
    puzzle: Puzzle, houses: tuple[House, ...], masks: list[tuple[int, Cage]]
) -> Iterator[Imbalance]:
    """Yield what is wrong with one group: with its rest, or with what sticks out of it."""
    digits = puzzle.grid.digits
    group = rest = mask_of(cell for house in houses for cell in house.cells)
    around = made = made_around = 0
    inside, straddling = [], []
    for mask, cage in masks:
        if not mask & ~group:
            rest &= ~mask
            made += cage.total
            inside.append(cage)
        elif mask & group:
            around |= mask
            made_around += cage.total
            straddling.append((mask, cage))
    if not inside and not straddling:
        return
    whole = len(houses) * puzzle.grid.house_total
    least, most = _range([(mask_of(house.cells) & rest).bit_count() for house in houses], digits)
    if inside and not least <= whole - made <= most:
        compared = Comparison.INNIES if rest else Comparison.EXACT
        yield Imbalance(compared, houses, tuple(inside), whole, made, tuple(bits(rest)), least, most)
    if straddling and not rest & ~around:
        least, most = _range([(mask & ~group).bit_count() for mask, _ in straddling], digits)
        if not least <= made + made_around - whole <= most:
            cages = (*inside, *(cage for _, cage in straddling))
            outside = tuple(bits(around & ~group))
            yield Imbalance(Comparison.OUTIES, houses, cages, whole, made + made_around, outside, least, most)


def _range(sizes: Iterable[int], digits: int) -> tuple[int, int]:
    """Return the least and the most that groups of so many different digits add up to together."""
    least = most = 0
    for size in sizes:
        least += size * (size + 1) // 2
        most += size * (2 * digits + 1 - size) // 2
    return least, most

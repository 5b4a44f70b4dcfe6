"""What never changes while a puzzle is solved: its rules, which of them each cell is in, who sees whom."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import cast

from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = ["Layout", "cages_cross", "layout_of"]


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """What never changes while a puzzle is solved: the rules, which of them each cell is in, who sees whom.

    A rule is spoken of by its number, its place in `rules`; so is a house, since houses come first.

    Parameters
    ----------
    grid : Grid
        Size, boxes and digits.
    rules : tuple of Rule
        As `Puzzle.premises` orders them.
    masks : tuple of int
        Their cells, as masks.
    houses : tuple of House
        Those in which every digit stands: the first of `rules`.
    house_masks : tuple of int
        The first of `masks`.
    cage_numbers : range
        The numbers of the cages whose digits differ.
    summed : range
        The numbers of all cages with a total: of those that may repeat digits, then of the others.
    cage_masks, summed_masks : tuple of (int, int)
        These numbers, each with the mask of its cells.
    all_houses, all_different : int
        Masks of the numbers of the houses, and of the rules whose cells all differ.
    houses_of, cages_of, apart_of : tuple of tuple of int
        For each cell, the houses and the cages it is in, and all other rules than houses whose cells differ,
        cages first.
    partners : tuple of (int, tuple of int)
        For each rule whose pairs never hold equal digits, its number and the mask of each cell's partners,
        less those with which the cell shares a rule anyway.
    sees : tuple of int
        For each cell, the mask of the cells that share such a rule with it, or are its partners.
    peers : tuple of tuple of int
        The same as tuples, in reading order.
    all_digits : int
        Mask of every digit.
    all_cells : int
        Mask of every cell.
    """

    grid: Grid
    rules: tuple[Rule, ...]
    masks: tuple[int, ...]
    houses: tuple[House, ...]
    house_masks: tuple[int, ...]
    cage_numbers: range
    summed: range
    cage_masks: tuple[tuple[int, int], ...]
    summed_masks: tuple[tuple[int, int], ...]
    all_houses: int
    all_different: int
    houses_of: tuple[tuple[int, ...], ...]
    cages_of: tuple[tuple[int, ...], ...]
    apart_of: tuple[tuple[int, ...], ...]
    partners: tuple[tuple[int, tuple[int, ...]], ...]
    sees: tuple[int, ...]
    peers: tuple[tuple[int, ...], ...]
    all_digits: int
    all_cells: int

    def cage(self, number: int) -> Cage | LinearSum:
        """Return the cage of a number."""
        return cast("Cage | LinearSum", self.rules[number])

    def houses_among(self, numbers: Iterable[int]) -> tuple[int, ...]:
        """Return those of some rules that are houses."""
        return tuple([number for number in numbers if number < len(self.houses)])

    def cages_among(self, numbers: Iterable[int]) -> tuple[int, ...]:
        """Return those of some rules that are cages with a total."""
        return tuple([number for number in numbers if number in self.summed])

    def link(self, one: int, other: int) -> tuple[int, ...]:
        """Return the premise that two cells differ, a house or else another rule that holds both; or none."""
        for number in (*self.houses_of[one], *self.apart_of[one]):
            if self.masks[number] >> other & 1:
                return (number,)
        return tuple([number for number, masks in self.partners if masks[one] >> other & 1][:1])


def layout_of(puzzle: Puzzle) -> Layout:
    """Work out the layout of a puzzle once, for all its boards."""
    count = puzzle.grid.cell_count
    houses = puzzle.full_houses
    house_masks, houses_of, house_sees, house_peers = _house_tables(houses, count)
    apart_of: list[tuple[int, ...]] = [()] * count
    sees = list(house_sees)
    rules = puzzle.premises
    masks = [*house_masks, *(mask_of(rule.cells) for rule in rules[len(houses) :])]
    first = len(houses) + len(puzzle.repeating_cages)
    cage_numbers, summed = (range(start, first + len(puzzle.cages)) for start in (first, len(houses)))
    apart = sum(type(rule) in (House, Cage, Different) for rule in rules)
    apart_numbers = range(first, first + apart - len(houses))
    for number in apart_numbers:
        for cell in bits(masks[number]):
            apart_of[cell] += (number,)
            sees[cell] |= masks[number] & ~(1 << cell)
    partners = _partners(rules, sees, puzzle.grid)
    return Layout(
        grid=puzzle.grid,
        rules=rules,
        masks=tuple(masks),
        houses=houses,
        house_masks=house_masks,
        cage_numbers=cage_numbers,
        summed=summed,
        cage_masks=tuple((number, masks[number]) for number in cage_numbers),
        summed_masks=tuple((number, masks[number]) for number in summed),
        all_houses=(1 << len(house_masks)) - 1,
        all_different=(1 << apart_numbers.stop) - 1 ^ mask_of(range(len(houses), first)),
        houses_of=houses_of,
        cages_of=tuple([tuple([n for n in numbers if n in cage_numbers]) for numbers in apart_of]),
        apart_of=tuple(apart_of),
        partners=partners,
        sees=tuple(sees),
        peers=tuple(
            peers if mask == by_house else tuple(bits(mask))
            for mask, by_house, peers in zip(sees, house_sees, house_peers, strict=True)
        ),
        all_digits=mask_of(puzzle.grid.all_digits),
        all_cells=(1 << count) - 1,
    )


def _partners(rules: Sequence[Rule], sees: list[int], grid: Grid) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Return the partners of each cell by each rule of pairs that differ, and add them to what it sees."""
    found = []
    for number, rule in enumerate(rules):
        if isinstance(rule, PairRule) and not any(rule.fits(digit, digit) for digit in grid.all_digits):
            masks = [0] * grid.cell_count
            for one, other in rule.pairs:
                if not sees[one] >> other & 1:
                    masks[one] |= 1 << other
                    masks[other] |= 1 << one
            if any(masks):
                found.append((number, tuple(masks)))
    for _, masks_of in found:
        for cell, mask in enumerate(masks_of):
            sees[cell] |= mask
    return tuple(found)


@lru_cache(maxsize=32)
def _house_tables(
    houses: tuple[House, ...], count: int
) -> tuple[tuple[int, ...], tuple[tuple[int, ...], ...], tuple[int, ...], tuple[tuple[int, ...], ...]]:
    """Return what houses alone say, the same for all such grids.

    Returns
    -------
    tuple
        The masks of the houses; for each cell the houses it is in, the mask of the cells it shares one
        with, and these cells.
    """
    masks = tuple(mask_of(house.cells) for house in houses)
    of: list[list[int]] = [[] for _ in range(count)]
    sees = [0] * count
    for index, house in enumerate(houses):
        for cell in house.cells:
            of[cell].append(index)
            sees[cell] |= masks[index] & ~(1 << cell)
    return masks, tuple(tuple(h) for h in of), tuple(sees), tuple(tuple(bits(mask)) for mask in sees)


@lru_cache(maxsize=8)
def cages_cross(layout: Layout) -> bool:
    """Whether a cell lies in two cages with a total, as in a kakuro."""
    seen = 0
    for _, mask in layout.summed_masks:
        if seen & mask:
            return True
        seen |= mask
    return False

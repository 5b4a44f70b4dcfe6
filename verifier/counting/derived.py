"""Cages that the rule of 45 adds to those of the puzzle: innies and outies with a known total.

They say nothing new, so no solution is gained or lost; they let the solver see at once what it would
otherwise have to find by search.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House, disjoint_kinds

__all__ = ["derived_cages"]

_HOUSES_TOGETHER = 4  # more houses in a row add time to build and hardly any insight
_LARGEST = 3  # cells of a derived cage; larger ones have too many combinations to tell much

_Mask = int
"""A set of cells: bit ``c`` stands for cell ``c``."""


def derived_cages(puzzle: Puzzle) -> tuple[Cage, ...]:
    """Return small cages that follow from the houses and cages of `puzzle`.

    Parameters
    ----------
    puzzle : Puzzle
        Its cages may overlap, and may contradict each other or the houses.

    Returns
    -------
    tuple of Cage
        In reading order, without those that the puzzle has already. The total is what the digits
        must add up to, even where no digits can: then the puzzle has no solution.

    Notes
    -----
    Own derivation. Let G be houses without a common cell, N of them, in each of which every digit stands:
    their digits add up to N times the total of a house. Let I be cages that lie wholly in G, no two with a
    common cell. What is left of G, the *innies*, adds up to the total of G less the totals of I. Let S be
    further cages, no two with a common cell, whose part in G is exactly the innies: their part outside G,
    the *outies*, adds up to the totals of S less the total of the innies. Cells that lie in one house are
    all different, so with their total they are a cage.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> puzzle = make_puzzle("killer", grid, cages=[Cage((0, 1), 3)])
    >>> derived_cages(puzzle)  # row 1 and box 1 add up to 10: what is left of each makes 7
    (Cage(cells=(2, 3), total=7), Cage(cells=(4, 5), total=7))
    """
    cages = [(_mask(cage.cells), cage.total) for cage in puzzle.cages]
    if not cages:
        return ()  # as in every classic
    apart = [_mask(house.cells) for house in puzzle.houses]
    found = {
        (cells, total)
        for alike in _kinds(puzzle.full_houses)
        for group, count in _groups_with_little_left(alike, cages)
        for cells, total in _leftovers(group, count * puzzle.grid.house_total, cages)
        if cells.bit_count() <= _LARGEST and any(cells & ~house == 0 for house in apart)
    }
    return tuple(Cage(_cells(cells), total) for cells, total in sorted(found.difference(cages)))


def _leftovers(group: _Mask, total: int, cages: list[tuple[_Mask, int]]) -> Iterator[tuple[_Mask, int]]:
    """Yield the innies of a group of houses with their total, then its outies."""
    innies = group
    straddling, straddling_total, apart = 0, 0, True
    for cells, cage_total in cages:
        if not cells & group:
            continue
        if cells & ~innies == 0:
            innies &= ~cells
            total -= cage_total
        else:
            apart = apart and not cells & straddling
            straddling |= cells
            straddling_total += cage_total
    if innies:
        yield innies, total
    if apart and straddling and straddling & group == innies:
        yield straddling & ~group, straddling_total - total


@lru_cache(maxsize=64)
def _kinds(houses: tuple[House, ...]) -> tuple[tuple[_Mask, ...], ...]:
    """Return the houses of each kind, where no two of them have a cell in common."""
    return tuple(tuple(_mask(house.cells) for house in alike) for alike in disjoint_kinds(houses))


def _groups_with_little_left(
    houses: tuple[_Mask, ...], cages: list[tuple[_Mask, int]]
) -> Iterator[tuple[_Mask, int]]:
    """Yield runs of houses, each with their number, that can have few enough innies or outies.

    To take the cages off each run takes longer; most runs have far too much left over.
    """
    ending: list[list[tuple[int, _Mask]]] = [[] for _ in houses]  # by the last house, cages and their first
    reached = [0] * len(houses)  # for each house, the cells of all cages that have one in it
    for cells, _ in cages:
        touched = [place for place, house in enumerate(houses) if cells & house]
        if touched:
            ending[touched[-1]].append((touched[0], cells))
        for place in touched:
            reached[place] |= cells
    for first in range(len(houses)):
        group = inside = around = 0
        for count, last in enumerate(range(first, min(first + _HOUSES_TOGETHER, len(houses))), 1):
            group |= houses[last]
            around |= reached[last]
            for begins, cells in ending[last]:
                if begins >= first:
                    inside |= cells
            if (group & ~inside).bit_count() <= _LARGEST or (around & ~group).bit_count() <= _LARGEST:
                yield group, count


def _mask(cells: tuple[int, ...]) -> _Mask:
    mask = 0
    for cell in cells:
        mask |= 1 << cell
    return mask


def _cells(mask: _Mask) -> tuple[int, ...]:
    cells = []
    while mask:
        lowest = mask & -mask
        cells.append(lowest.bit_length() - 1)
        mask ^= lowest
    return tuple(cells)

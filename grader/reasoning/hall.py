"""Hall sets: so many things that fit into no more than as many places use those places up.

The idea is Philip Hall's (*On representatives of subsets*, Journal of the London Mathematical Society
10, 1935; cited from memory). Cells that hold only as many digits, digits that fit only into as many
cells, and houses in which a digit lies only on as many lines are the same pattern.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import Fish
from grader.board.steps import Step
from verifier.puzzle.masks import bits, mask_of

__all__ = ["confined_digits", "hall_sets", "houses_met", "union_of"]

_Houses = tuple[int, ...]


def hall_sets(
    sets: Sequence[tuple[int, int]], size: int, spare: int = 0
) -> Iterator[tuple[tuple[int, ...], int]]:
    """Yield every choice of `size` sets that together hold exactly `size` members.

    Parameters
    ----------
    sets : sequence of (int, int)
        Pairs of a name and a mask of members.
    size : int
        How many sets to choose, at least 1.
    spare : int, optional
        So many members more than sets are allowed, and wanted.

    Yields
    ------
    names : tuple of int
        The names of the sets chosen, in the order given.
    members : int
        Mask of the members they hold together.

    Examples
    --------
    >>> list(hall_sets([(7, 0b0110), (8, 0b1110), (9, 0b0110)], 2))
    [((7, 9), 6)]
    """
    return _grown((), 0, sets, size, size + spare)


def _grown(
    names: tuple[int, ...], members: int, sets: Sequence[tuple[int, int]], missing: int, room: int
) -> Iterator[tuple[tuple[int, ...], int]]:
    for at, (name, mask) in enumerate(sets):
        together = members | mask
        if missing == 1:
            if together.bit_count() == room:
                yield (*names, name), together
        elif together.bit_count() <= room:
            # What would hold too many members goes at once: on large grids this is what keeps quads cheap.
            fitting = [other for other in sets[at + 1 :] if (together | other[1]).bit_count() <= room]
            if len(fitting) >= missing - 1:
                yield from _grown((*names, name), together, fitting, missing - 1, room)


def confined_digits(
    board: Board, technique: str, size: int, ways: Sequence[tuple[str, str]]
) -> Iterator[Step]:
    """Find every digit that lies, in `size` houses of one kind, on `size` houses of another kind.

    Parameters
    ----------
    board : Board
        Read, never changed.
    technique : str
        The id that the steps bear.
    size : int
        How many houses of each kind, at least 2.
    ways : sequence of (str, str)
        Pairs of kinds of house: where the digit is confined, and to what. Houses of the first kind
        must not overlap.

    Yields
    ------
    Step
        In the order of `ways`, digits, houses. Its `rules` are first the `size` houses in which the
        digit is confined, then those it is confined to; its `focus` is where it can stand in them.

    Notes
    -----
    Sound in every solution: each house of the first kind holds the digit once, all in different cells,
    all of them on the houses of the second kind. Each of these holds it once, so it has no other place
    there. A house in which the digit meets only one house of the second kind is left out: that is a
    single or a locked candidate, and simpler.
    """
    places = board.places()
    for confined, to in ways:
        for digit in board.layout.grid.all_digits:
            lines, found = _confined(board.layout, places[digit], confined, to, size)
            for base, cover in found if lines & board.fresh else ():  # else what they tell has been told
                yield _confinement(board, technique, digit, places[digit], base, cover)


@lru_cache(maxsize=1 << 9)
def _confined(
    layout: Layout, places: int, kind: str, other: str, size: int
) -> tuple[int, tuple[tuple[_Houses, _Houses], ...]]:
    """Return in which houses a digit is confined, and to which: those that remove something.

    All that counts is where the digit is open. So nothing is looked for again as long as that stays as it is,
    whatever happens to other digits.

    Returns
    -------
    int
        Mask of the cells of all houses that were looked at.
    tuple of (tuple of int, tuple of int)
        The houses in which it is confined, and those it is confined to.
    """
    masks = layout.house_masks
    sets = [
        (house, met) for house, met in houses_met(layout, places, kind, other) if 2 <= met.bit_count() <= size
    ]
    found = []
    for base, met in hall_sets(sets, size):
        cover = tuple(bits(met))
        if places & union_of(masks, cover) & ~union_of(masks, base):
            found.append((base, cover))
    return union_of(masks, [house for house, _ in sets]), tuple(found)


@lru_cache(maxsize=256)
def houses_met(layout: Layout, places: int, kind: str, other: str) -> tuple[tuple[int, int], ...]:
    """Return which houses of another kind the places of a digit meet, for each house of one kind.

    Fish of every size ask it of the same board.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    places : int
        Mask of the cells in which the digit is open.
    kind, other : str
        The kinds of house: ``row``, ``column`` or ``box``.

    Returns
    -------
    tuple of (int, int)
        The houses of the first kind with several places, each with the mask of the others it meets.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> houses_met(board_from_text("", size=4).layout, 0b1001, "row", "column") == ((0, 1 << 4 | 1 << 7),)
    True
    """
    masks = layout.house_masks
    base = [index for index, house in enumerate(layout.houses) if house.kind == kind]
    cover = [index for index, house in enumerate(layout.houses) if house.kind == other]
    met = []
    for index in base:
        found = places & masks[index]
        if found & (found - 1):
            met.append((index, mask_of([house for house in cover if found & masks[house]])))
    return tuple(met)


def _confinement(
    board: Board, technique: str, digit: int, places: int, base: tuple[int, ...], cover: tuple[int, ...]
) -> Step:
    masks = board.layout.house_masks
    inside = union_of(masks, base)
    covered = union_of(masks, cover)
    return Step(
        technique,
        removes=tuple((cell, 1 << digit) for cell in bits(places & covered & ~inside)),
        rules=base + cover,
        looks=tuple(bits(inside & ~covered)),
        focus=tuple(bits(places & inside)),
        digits=1 << digit,
        pattern=Fish(base, cover),
    )


def union_of(masks: Sequence[int], indices: Iterable[int]) -> int:
    """Return all cells of some of the houses, or cages, whose masks are given.

    Examples
    --------
    >>> union_of([0b001, 0b010, 0b100], (0, 2)) == 0b101
    True
    """
    union = 0
    for index in indices:
        union |= masks[index]
    return union

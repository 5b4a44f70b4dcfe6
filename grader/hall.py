"""Hall sets: so many things that fit into no more than as many places use those places up.

The idea is Philip Hall's (*On representatives of subsets*, Journal of the London Mathematical Society
10, 1935; cited from memory). Cells that hold only as many digits, digits that fit only into as many
cells, and houses in which a digit lies only on as many lines are the same pattern.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from grader.board import Board, bits
from grader.steps import Step

__all__ = ["confined_digits", "hall_sets", "union_of"]


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
        In the order of `ways`, digits, houses. Its `houses` are first the `size` houses in which the
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
        base = _of_kind(board, confined)
        cover = _of_kind(board, to)
        for digit in board.layout.grid.all_digits:
            sets = _meetings(board, places[digit], base, cover, size)
            for names, met in hall_sets(sets, size):
                step = _confinement(board, technique, digit, places[digit], names, tuple(bits(met)))
                if step.removes:
                    yield step


def _of_kind(board: Board, kind: str) -> list[int]:
    return [index for index, house in enumerate(board.layout.houses) if house.kind == kind]


def _meetings(
    board: Board, places: int, base: list[int], cover: list[int], size: int
) -> list[tuple[int, int]]:
    """Return the base houses that may take part, each with the mask of the cover houses it meets."""
    masks = board.layout.house_masks
    sets = []
    changed = False
    for index in base:
        found = places & masks[index]
        if found & (found - 1):
            met = 0
            for other in cover:
                if found & masks[other]:
                    met |= 1 << other
            if 2 <= met.bit_count() <= size:
                sets.append((index, met))
                changed = changed or bool(masks[index] & board.fresh)
    return sets if changed else []  # base houses that all stayed as they were have been told before


def _confinement(
    board: Board, technique: str, digit: int, places: int, base: tuple[int, ...], cover: tuple[int, ...]
) -> Step:
    masks = board.layout.house_masks
    inside = union_of(masks, base)
    covered = union_of(masks, cover)
    return Step(
        technique,
        removes=tuple((cell, 1 << digit) for cell in bits(places & covered & ~inside)),
        houses=base + cover,
        looks=tuple(bits(inside & ~covered)),
        focus=tuple(bits(places & inside)),
        digits=1 << digit,
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

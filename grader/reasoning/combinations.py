"""Which digits make a total: the combinations of a cage, and those still open in it.

A combination is a mask of digits: bit ``d`` stands for digit ``d``. The counting has a table of its own;
this one is worked out by another route, so that one slip cannot deceive both witnesses.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, reduce
from itertools import product
from operator import or_

from grader.board.board import Board
from verifier.puzzle.masks import bits, digits_of

__all__ = [
    "LISTED_AT_MOST",
    "arrangements",
    "assignments",
    "combinations_by_total",
    "combinations_of",
    "every_assignment",
    "how_many",
    "open_combinations",
    "open_digits",
    "rest_of_cage",
]

LISTED_AT_MOST = 1000
"""A person lists no more combinations than this, and neither does the grader: wider cages (they occur on
16x16 and 25x25 grids only) are left to the rule of 45 and to subtraction."""


@lru_cache(maxsize=1 << 13)
def how_many(total: int, size: int, digits: int) -> int:
    """Return the number of combinations of `size` different digits from ``1..digits`` that make `total`.

    Examples
    --------
    >>> how_many(25, 5, 9), how_many(10, 4, 9), how_many(99, 2, 9)
    (12, 1, 0)
    """
    if size == 0:
        return int(total == 0)
    if digits < size or total <= 0:
        return 0
    return how_many(total, size, digits - 1) + how_many(total - digits, size - 1, digits - 1)


@lru_cache(maxsize=4096)
def combinations_of(total: int, size: int, digits: int) -> tuple[int, ...]:
    """Return the combinations of `size` different digits from ``1..digits`` that make `total`.

    Parameters
    ----------
    total : int
        What they add up to.
    size : int
        Number of cells.
    digits : int
        The largest digit.

    Returns
    -------
    tuple of int
        Masks, in the order in which people list them (``4789`` before ``5689``); empty if the total
        cannot be made.

    Notes
    -----
    Either the largest digit is in the combination or it is not, and both cases are smaller ones.

    Examples
    --------
    >>> [list(bits(mask)) for mask in combinations_of(28, 4, 9)]
    [[4, 7, 8, 9], [5, 6, 8, 9]]
    """
    return tuple(sorted(_any_order(total, size, digits), key=lambda mask: list(bits(mask))))


def _any_order(total: int, size: int, digits: int) -> list[int]:
    if not how_many(total, size, digits):
        return []
    if size == 0:
        return [0]
    with_largest = [mask | 1 << digits for mask in _any_order(total - digits, size - 1, digits - 1)]
    return with_largest + _any_order(total, size, digits - 1)


@lru_cache(maxsize=1 << 13)
def open_combinations(masks: tuple[int, ...], total: int, digits: int) -> tuple[int, ...]:
    """Return the combinations that cells with these candidates can still hold.

    A combination is open while each of its digits has a place in one of the cells and each cell can take
    one of its digits. (Whether they can all stand at once is another question: see `arrangements`.)

    Parameters
    ----------
    masks : tuple of int
        The candidates of the cells, which must all differ.
    total : int
        What the cells add up to.
    digits : int
        The largest digit of the grid.

    Returns
    -------
    tuple of int
        Masks of digits. Not to be asked for where there are more than `LISTED_AT_MOST`.

    Examples
    --------
    >>> five_or_six, low = 1 << 5 | 1 << 6, 0b11110
    >>> [list(bits(mask)) for mask in open_combinations((five_or_six, low), 8, 9)]
    [[2, 6], [3, 5]]
    """
    union = 0
    for mask in masks:
        union |= mask
    found = [c for c in combinations_of(total, len(masks), digits) if not c & ~union]
    for mask in masks:
        found = [c for c in found if c & mask]
    return tuple(found)


@lru_cache(maxsize=1 << 13)
def open_digits(masks: tuple[int, ...], total: int, digits: int) -> int:
    """Return the mask of the digits in any open combination; 0 where none is open.

    Parameters
    ----------
    masks, total, digits
        As for `open_combinations`; everything is taken to be open where there are too many to list.
    """
    if how_many(total, len(masks), digits) > LISTED_AT_MOST:
        return (2 << digits) - 2
    return reduce(or_, open_combinations(masks, total, digits), 0)


@lru_cache(maxsize=1 << 13)
def arrangements(masks: tuple[int, ...], total: int, digits: int) -> tuple[int, ...]:
    """Return what is left in each cell when only whole arrangements count.

    Returns
    -------
    tuple of int
        For each cell, the mask of the digits that some arrangement of some combination puts there.

    Examples
    --------
    Two cells that take only 1 and 2 leave no 1 or 2 for the third:

    >>> left = arrangements((0b110, 0b110, 0b11110), 6, 9)
    >>> [list(bits(mask)) for mask in left]
    [[1, 2], [1, 2], [3]]
    """
    order = sorted(range(len(masks)), key=lambda i: masks[i].bit_count())
    held = [masks[i] for i in order]
    left = [0] * len(masks)
    for combination in open_combinations(masks, total, digits):
        _arrange(held, combination, 0, left, {})
    back = [0] * len(masks)
    for place, i in enumerate(order):
        back[i] = left[place]
    return tuple(back)


def _arrange(held: list[int], rest: int, place: int, left: list[int], known: dict[int, bool]) -> bool:
    """Put the digits of `rest` into the cells from `place` on; note in `left` each digit that fits."""
    if place == len(held):
        return True
    if rest in known:  # the same digits for the same cells, reached by another order
        return known[rest]
    fits = 0
    for digit in digits_of(held[place] & rest):
        if _arrange(held, rest & ~(1 << digit), place + 1, left, known):
            fits |= 1 << digit
    left[place] |= fits
    known[rest] = bool(fits)
    return known[rest]


def every_assignment(masks: tuple[int, ...], total: int) -> Iterator[tuple[int, ...]]:
    """Yield every arrangement of different digits in a few cells that makes a total.

    Parameters
    ----------
    masks : tuple of int
        The candidates of the cells, two or three: all ways are gone through.
    total : int
        What the cells add up to.

    Examples
    --------
    >>> list(every_assignment((1 << 5 | 1 << 6, 0b11110), 8))
    [(5, 3), (6, 2)]
    """
    for chosen in product(*map(digits_of, masks[:-1])):
        last = total - sum(chosen)
        if last > 0 and masks[-1] >> last & 1 and len({*chosen, last}) == len(masks):
            yield (*chosen, last)


@lru_cache(maxsize=1 << 13)
def assignments(masks: tuple[int, ...], total: int) -> tuple[tuple[int, ...], ...]:
    """Return what `every_assignment` yields."""
    return tuple(every_assignment(masks, total))


def combinations_by_total(board: Board, cage: int) -> list[int]:
    """Return the combinations for the rest of a cage that its total allows, whatever is open in its cells.

    Digits that stand in the cage already are not used again.
    """
    cells, total, used = rest_of_cage(board, cage)
    listed = combinations_of(total, len(cells), board.layout.grid.digits)
    return [combination for combination in listed if not combination & used]


def rest_of_cage(board: Board, cage: int) -> tuple[list[int], int, int]:
    """Return what is left to fill in a cage.

    Returns
    -------
    cells : list of int
        Its cells without a digit, in reading order.
    total : int
        What they add up to.
    used : int
        Mask of the digits that stand in the cage already.
    """
    written = board.layout.cage(cage)
    total = written.total
    cells = []
    used = 0
    placed, candidates = board.placed, board.candidates
    for cell in written.cells:
        if placed >> cell & 1:
            used |= candidates[cell]
            total -= candidates[cell].bit_length() - 1
        else:
            cells.append(cell)
    return cells, total, used

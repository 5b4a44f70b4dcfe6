"""Which digits a sum over a few cells leaves in each of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce
from operator import or_

from grader.board.board import Board
from grader.board.layout import Layout
from verifier.puzzle.masks import bits, digits_of, mask_of

__all__ = ["LeftBySum", "differing", "left_by_sum", "others_if_alone"]


@dataclass(frozen=True, slots=True)
class LeftBySum:
    """What a sum leaves.

    Parameters
    ----------
    cells : tuple of int
        The cells of the sum, in reading order.
    removes : tuple of (int, int)
        Pairs of cell and mask of the digits without partners, in reading order.
    digits : int
        Mask of all digits that stay.
    rules : tuple of int
        Why those of the cells differ that see each other; empty where nothing rests on that.
    """

    cells: tuple[int, ...]
    removes: tuple[tuple[int, int], ...]
    digits: int
    rules: tuple[int, ...]


def left_by_sum(board: Board, plus: int, minus: int, total: int) -> LeftBySum:
    """Work out what is left when the cells `plus` less the cells `minus` make `total`.

    Parameters
    ----------
    board : Board
        Read, never changed.
    plus, minus : int
        Masks of cells without a digit.
    total : int
        What they make. Cells that see each other hold different digits; others may hold the same.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("5789 3789")
    >>> [(cell, list(bits(gone))) for cell, gone in left_by_sum(board, 0b11, 0, 16).removes]
    [(0, [5, 8]), (1, [3, 8])]
    """
    cells = (*bits(plus), *bits(minus))
    masks = tuple(board.candidates[cell] for cell in cells)
    conflicts = _conflicts(board.layout, cells)
    kept = _supported(masks, plus.bit_count(), conflicts, total)
    removes = tuple(
        sorted(
            (cell, mask & ~keep) for cell, mask, keep in zip(cells, masks, kept, strict=True) if mask & ~keep
        )
    )
    alike = removes and _supported(masks, plus.bit_count(), ((),) * len(cells), total) == kept
    rules = differing(board.layout, cells) if removes and not alike else ()
    return LeftBySum(tuple(sorted(cells)), removes, reduce(or_, kept), rules)


def others_if_alone(cells: Iterable[int], removes: Sequence[tuple[int, int]]) -> tuple[int, ...]:
    """Return the cells in reading order, without the one that loses digits if it is the only one.

    What goes from a cell rests on what the others can hold, not on what else is open in the cell itself.
    """
    alone = removes[0][0] if len(removes) == 1 else None
    return tuple(sorted(cell for cell in cells if cell != alone))


def _conflicts(layout: Layout, cells: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return, for each cell, the places of the earlier cells that it sees."""
    return tuple(
        tuple(earlier for earlier in range(place) if layout.sees[cell] >> cells[earlier] & 1)
        for place, cell in enumerate(cells)
    )


@lru_cache(maxsize=1 << 12)
def differing(layout: Layout, cells: tuple[int, ...]) -> tuple[int, ...]:
    """Return the houses and cages that make those of the cells differ that see each other.

    One is enough where it holds all the cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> layout = board_from_text("").layout
    >>> differing(layout, (0, 1, 80)), differing(layout, (0, 1, 9))  # row 1; box 1
    ((0,), (18,))
    """
    together = mask_of(cells)
    for house in layout.houses_of[cells[0]]:
        if not together & ~layout.house_masks[house]:
            return (house,)
    rules: set[int] = set()
    for place, cell in enumerate(cells):
        for other in cells[:place]:
            rules.update(layout.link(cell, other))
    return tuple(sorted(rules))


@lru_cache(maxsize=1 << 13)
def _supported(
    masks: tuple[int, ...], plus: int, conflicts: tuple[tuple[int, ...], ...], total: int
) -> tuple[int, ...]:
    """Return, for each cell, its digits that occur in some assignment that makes the total.

    Parameters
    ----------
    masks : tuple of int
        Candidates: first of the cells that are added, then of those that are subtracted.
    plus : int
        How many cells are added.
    conflicts : tuple of tuple of int
        For each cell, the places of the earlier cells whose digit it must not repeat.
    total : int
        Cells added less cells subtracted.
    """
    kept = [0] * len(masks)
    if all(masks):
        _assign(masks, plus, conflicts, _reaches(masks, plus), total, [], kept)
    return tuple(kept)


def _reaches(masks: tuple[int, ...], plus: int) -> list[tuple[int, int]]:
    """Return, for each place, the least and the most that the cells behind it can make."""
    least = most = 0
    reaches = [(0, 0)]
    for place in range(len(masks) - 1, 0, -1):
        low, high = (masks[place] & -masks[place]).bit_length() - 1, masks[place].bit_length() - 1
        least, most = (least + low, most + high) if place < plus else (least - high, most - low)
        reaches.append((least, most))
    return reaches[::-1]


def _assign(
    masks: tuple[int, ...],
    plus: int,
    conflicts: tuple[tuple[int, ...], ...],
    reaches: list[tuple[int, int]],
    total: int,
    chosen: list[int],
    kept: list[int],
) -> bool:
    """Assign the cells from the first unchosen one on; note the digits of every assignment in `kept`."""
    place = len(chosen)
    sign = 1 if place < plus else -1
    allowed = masks[place]
    for earlier in conflicts[place]:
        allowed &= ~(1 << chosen[earlier])
    if place == len(masks) - 1:
        digit = total * sign
        if digit < 1 or not allowed >> digit & 1:
            return False
        kept[place] |= 1 << digit
        return True
    least, most = reaches[place]
    fits = 0
    for digit in digits_of(allowed):
        rest = total - sign * digit
        if least <= rest <= most:
            chosen.append(digit)
            if _assign(masks, plus, conflicts, reaches, rest, chosen, kept):
                fits |= 1 << digit
            chosen.pop()
    kept[place] |= fits
    return bool(fits)

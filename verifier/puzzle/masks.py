"""Sets as bit masks: bit ``d`` stands for digit ``d``, bit ``c`` for cell ``c``, in reading order from 0."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

__all__ = ["bits", "digits_of", "mask_of", "union"]


def bits(mask: int) -> Iterator[int]:
    """Yield the positions of the bits of a mask, smallest first: its digits, or its cells.

    Examples
    --------
    >>> list(bits(0b10110))
    [1, 2, 4]
    """
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


@lru_cache(maxsize=4096)
def digits_of(mask: int) -> tuple[int, ...]:
    """Return the digits of a mask of digits, smallest first."""
    return tuple(bits(mask))


def mask_of(positions: Iterable[int]) -> int:
    """Return the mask of some digits, or of some cells.

    Examples
    --------
    >>> mask_of([1, 2, 4]) == 0b10110
    True
    """
    mask = 0
    for position in positions:
        mask |= 1 << position
    return mask


def union(masks: Iterable[int]) -> int:
    """Return the mask of all that is in any of some masks."""
    found = 0
    for mask in masks:
        found |= mask
    return found

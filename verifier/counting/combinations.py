"""The combinations of a cage: which sets of different digits make a total.

Of the witnesses, the count alone has this table. The replay has one of its own and the recount has none, so a
combination missing here cannot be missing from every witness at once.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

__all__ = ["combinations_of", "how_many"]


def combinations_of(total: int, size: int, digits: int) -> Iterator[tuple[int, ...]]:
    """Yield every set of `size` different digits from ``1..digits`` that adds up to `total`.

    Parameters
    ----------
    total : int
        The cage's total.
    size : int
        Number of cells in the cage, at least 1.
    digits : int
        The largest digit of the grid.

    Yields
    ------
    tuple of int
        Digits from small to large; the sets in lexicographic order.

    See Also
    --------
    how_many : their number, without listing them.

    Examples
    --------
    >>> list(combinations_of(22, 3, 9))
    [(5, 8, 9), (6, 7, 9)]
    >>> list(combinations_of(46, 9, 9)), list(combinations_of(55, 10, 9))
    ([], [])
    """
    yield from _continued(total, size, 1, digits)


def _continued(total: int, size: int, lowest: int, digits: int) -> Iterator[tuple[int, ...]]:
    """Yield the sets whose digits are all at least `lowest`."""
    if size == 0:
        if total == 0:
            yield ()
        return
    for digit in range(lowest, digits - size + 2):
        smallest = size * (2 * digit + size - 1) // 2  # digit, digit + 1, ..., one for each cell
        if smallest > total:
            return
        largest = digit + (size - 1) * (2 * digits - size + 2) // 2  # digit and the largest of all
        if largest >= total:
            for rest in _continued(total - digit, size - 1, digit + 1, digits):
                yield (digit, *rest)


def how_many(total: int, size: int, digits: int) -> int:
    """Return the number of combinations of a total, without listing them.

    Returns
    -------
    int
        0 where no combination makes the total.

    Examples
    --------
    >>> how_many(25, 5, 9), how_many(156, 12, 25), how_many(10**9, 3, 9)
    (12, 110780, 0)
    """
    if not 1 <= size <= digits or not 0 < total <= size * digits:
        return 0  # also keeps absurd totals out of the cache
    return _chosen(total, size, digits)


@lru_cache(maxsize=1 << 16)
def _chosen(total: int, size: int, digits: int) -> int:
    """Count the sets with the largest digit plus those without it."""
    if size == 0 or total <= 0 or size > digits:
        return int(size == 0 and total == 0)
    return _chosen(total - digits, size - 1, digits - 1) + _chosen(total, size, digits - 1)

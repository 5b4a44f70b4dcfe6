"""Which totals a number of different digits can make."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

__all__ = ["possible_totals", "spans"]


@lru_cache(maxsize=1024)
def possible_totals(cells: int, digits: tuple[int, ...]) -> frozenset[int]:
    """Return the totals that `cells` different digits out of `digits` can make.

    Examples
    --------
    >>> sorted(possible_totals(2, (1, 2, 5)))
    [3, 6, 7]
    >>> sorted(possible_totals(4, (1, 2, 5)))
    []
    """
    sums: list[set[int]] = [{0}, *(set() for _ in range(cells))]
    for digit in digits:
        for size in range(cells, 0, -1):
            sums[size] |= {total + digit for total in sums[size - 1]}
    return frozenset(sums[cells])


def spans(numbers: Iterable[int]) -> list[str]:
    """Return whole numbers as people write them, neighbours drawn together.

    Examples
    --------
    >>> spans({3, 4, 5, 9, 11, 12})
    ['3 to 5', '9', '11 to 12']
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [f"{run[0]} to {run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs]

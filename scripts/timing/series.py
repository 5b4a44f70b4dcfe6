"""Seconds, and what is said of a series of them."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

__all__ = ["Series", "Stopwatch"]

T = TypeVar("T")


@dataclass(frozen=True)
class Series:
    """The seconds that one part of the work took, puzzle by puzzle.

    Examples
    --------
    >>> series = Series((0.001, 0.002, 0.006))
    >>> [round(1000 * figure, 3) for figure in (series.mean, series.median, series.p95)]
    [3.0, 2.0, 6.0]
    """

    seconds: tuple[float, ...]

    @property
    def mean(self) -> float:
        """The mean; 0 for an empty series."""
        return statistics.fmean(self.seconds or (0.0,))

    @property
    def median(self) -> float:
        """The median; 0 for an empty series."""
        return statistics.median(self.seconds or (0.0,))

    @property
    def p95(self) -> float:
        """The smallest of the seconds that 95 in 100 of them do not exceed."""
        ordered = sorted(self.seconds or (0.0,))
        return ordered[math.ceil(0.95 * len(ordered)) - 1]


class Stopwatch:
    """Takes the seconds of each part of the work on one puzzle: processor time of this process.

    Examples
    --------
    >>> watch = Stopwatch()
    >>> watch.take("adding", lambda: 1 + 1), list(watch.seconds)
    (2, ['adding'])
    """

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    def take(self, part: str, work: Callable[[], T]) -> T:
        """Do the work, note its seconds as those of `part`, return its result."""
        started = time.process_time()
        result = work()
        self.seconds[part] = time.process_time() - started
        return result

    def add_up(self, part: str, *parts: str) -> None:
        """Note what some parts took together; those that were not taken count as nothing."""
        self.seconds[part] = sum(self.seconds.get(name, 0.0) for name in parts)

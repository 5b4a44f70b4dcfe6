"""A clock for whoever looks for puzzles in a file: what a stranger sent must not keep a box waiting."""

from __future__ import annotations

import io
import time
from collections.abc import Callable
from typing import BinaryIO

__all__ = ["Clock", "Clocked", "TookTooLongError"]


class TookTooLongError(Exception):
    """No puzzle was found in a file within the time there is for it."""


class Clock:
    """Time in which the next puzzle of a file must be found.

    Examples
    --------
    >>> times = iter([0.0, 9.0, 11.0])
    >>> clock = Clock(10, now=lambda: next(times))
    >>> clock.look()
    >>> clock.look()
    Traceback (most recent call last):
        ...
    verifier.intake.sources.clock.TookTooLongError
    """

    def __init__(self, seconds: float, now: Callable[[], float] = time.monotonic) -> None:
        self._seconds, self._now = seconds, now
        self.restart()

    def restart(self) -> None:
        """Give the whole time again: a puzzle was found, and time went by until the next one is wanted."""
        self._end = self._now() + self._seconds

    def look(self) -> None:
        """Look at it.

        Raises
        ------
        TookTooLongError
            If the time is over.
        """
        if self._now() > self._end:
            raise TookTooLongError


class Clocked(io.RawIOBase):
    """A stream that looks at the clock before each block, so that nothing is lost where the time is over."""

    def __init__(self, stream: BinaryIO, clock: Clock) -> None:
        super().__init__()
        self._stream, self._clock = stream, clock

    def readable(self) -> bool:
        """Whether it can be read: yes."""
        return True

    def readinto(self, buffer: bytearray | memoryview) -> int:  # type: ignore[override]
        """Fill a buffer as far as there is something at once."""
        self._clock.look()
        return self._stream.readinto1(buffer)  # type: ignore[attr-defined, no-any-return]

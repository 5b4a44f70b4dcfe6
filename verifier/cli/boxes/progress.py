"""How far a run of the intake is: a bar on a terminal, else a line now and then."""

from __future__ import annotations

import sys
import time
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager

from verifier.cli import wording
from verifier.cli.telling.console import say

__all__ = ["Pace", "progress_shown"]

_LOOK_BACK = 30.0  # seconds over which the rate is taken
_LINE_EVERY = 15.0  # seconds between two lines where there is no terminal

_Shown = Callable[[Mapping[str, int], "Pace"], None]


class Pace:
    """How fast a run is, of late.

    Parameters
    ----------
    total : int or None
        Bytes to read in all; None where nobody knows.

    Examples
    --------
    >>> now = iter([0.0, 10.0])
    >>> pace = Pace(3000, clock=lambda: next(now))
    >>> pace.note(0, 0)
    >>> pace.note(50, 1000)
    >>> pace.rate, pace.seconds_left
    (5.0, 20.0)
    """

    def __init__(self, total: int | None, clock: Callable[[], float] = time.monotonic) -> None:
        self._total, self._clock = total, clock
        self._noted: deque[tuple[float, int, int]] = deque()
        self.bytes_read = 0

    def note(self, puzzles: int, bytes_read: int) -> None:
        """Note how far the run is now."""
        now = self._clock()
        self.bytes_read = bytes_read
        self._noted.append((now, puzzles, bytes_read))
        while len(self._noted) > 2 and now - self._noted[0][0] > _LOOK_BACK:
            self._noted.popleft()

    @property
    def rate(self) -> float:
        """Puzzles a second."""
        seconds, puzzles, _ = self._of_late()
        return puzzles / seconds if seconds else 0.0

    @property
    def seconds_left(self) -> float | None:
        """Seconds to the end, should it go on like that; None where nobody knows."""
        seconds, _, read = self._of_late()
        if self._total is None or not read or self.bytes_read >= self._total:
            return None  # all is read, but how long the last ones take, nobody knows
        return (self._total - self.bytes_read) * seconds / read

    def _of_late(self) -> tuple[float, int, int]:
        if len(self._noted) < 2:
            return 0.0, 0, 0
        (start, puzzles, read), (end, puzzles_now, read_now) = self._noted[0], self._noted[-1]
        return end - start, puzzles_now - puzzles, read_now - read


@contextmanager
def progress_shown(total: int | None) -> Iterator[_Shown]:
    """Show how far a run is, on standard error, while it lasts.

    Yields
    ------
    callable
        Takes the number of puzzles that came to each end, and the pace.
    """
    if not sys.stderr.isatty():
        yield _lines()
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, SpinnerColumn, TextColumn

    columns = (SpinnerColumn(), BarColumn(bar_width=30), TextColumn("{task.description}"))
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(wording.READING, total=total)
        yield lambda states, pace: bar.update(
            task, completed=pace.bytes_read, description=_text(states, pace)
        )


def _lines() -> _Shown:
    last = time.monotonic()

    def show(states: Mapping[str, int], pace: Pace) -> None:
        nonlocal last
        if time.monotonic() - last >= _LINE_EVERY:
            last = time.monotonic()
            say(f"{time.strftime('%H:%M:%S')} {_text(states, pace)}")

    return show


def _text(states: Mapping[str, int], pace: Pace) -> str:
    return wording.at_work(states, pace.rate, pace.seconds_left)

"""The processes that look at candidates and judge them; what they say comes in the order of the tasks."""

from __future__ import annotations

import multiprocessing
import signal
import time
from collections.abc import Callable, Iterator, Sequence
from typing import Self, TypeVar

__all__ = ["Crew"]

_Task = TypeVar("_Task")
_Said = TypeVar("_Said")

_GRACE = 30.0
"""Seconds after the time is up within which a process must have noticed; one that has not is lost."""


class Crew:
    """So many processes; with one, everything is done in this one.

    Parameters
    ----------
    jobs : int
        How many.
    """

    def __init__(self, jobs: int) -> None:
        # A process that begins from nothing shares no lock with this one.
        spawning = multiprocessing.get_context("spawn")
        self._pool = spawning.Pool(jobs, _deaf_to_ctrl_c) if jobs > 1 else None

    def __enter__(self) -> Self:
        """Return the crew itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the processes, also those that are at work."""
        if self._pool is not None:
            self._pool.terminate()
            self._pool.join()

    def said(self, do: Callable[[_Task], _Said], tasks: Sequence[_Task], until: float) -> Iterator[_Said]:
        """Yield what becomes of each task, in order.

        Parameters
        ----------
        do : callable
            A function that another process can import; it must look at the clock itself.
        tasks : sequence
            Whatever it takes.
        until : float
            When the time is up, on the clock of `time.time`.

        Raises
        ------
        TimeoutError
            If nothing comes long after that: a process died.
        """
        if self._pool is None:
            yield from map(do, tasks)
            return
        coming = self._pool.imap(do, tasks)
        for _ in tasks:
            try:
                yield coming.next(timeout=max(until - time.time(), 0) + _GRACE)
            except multiprocessing.TimeoutError as error:
                raise TimeoutError("a process that judges candidates does not answer") from error


def _deaf_to_ctrl_c() -> None:
    """Leave Ctrl-C to whoever started this process."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)

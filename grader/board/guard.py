"""A guard on the wall clock that long searches look at, without being handed it.

Techniques are pure functions of a board: what they find does not depend on the guard, only whether they come
to their end. So it is not among their arguments.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from time import monotonic

__all__ = ["OutOfTimeError", "guarded", "look_at_clock"]

_DEADLINE: ContextVar[float | None] = ContextVar("deadline", default=None)


class OutOfTimeError(TimeoutError):
    """The guard has run out in the midst of a search; what it has found so far is not all."""


@contextmanager
def guarded(deadline: float | None) -> Iterator[None]:
    """Let the searches within look at a guard.

    Parameters
    ----------
    deadline : float or None
        On the clock of `time.monotonic`; None for none.

    Raises
    ------
    OutOfTimeError
        Where a search looks at the clock after the deadline.

    Examples
    --------
    >>> with guarded(monotonic() + 60):
    ...     look_at_clock()
    >>> with guarded(monotonic() - 1):
    ...     look_at_clock()
    Traceback (most recent call last):
    grader.board.guard.OutOfTimeError
    """
    before = _DEADLINE.set(deadline)
    try:
        yield
    finally:
        _DEADLINE.reset(before)


def look_at_clock() -> None:
    """End the search if its guard has run out; to be called at least every second or so of one."""
    deadline = _DEADLINE.get()
    if deadline is not None and monotonic() > deadline:
        raise OutOfTimeError

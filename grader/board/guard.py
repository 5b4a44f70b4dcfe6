"""A guard that long searches look at, without being handed it: the wall clock, and whoever asked.

Techniques are pure functions of a board: what they find does not depend on the guard, only whether they come
to their end. So it is not among their arguments.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from time import monotonic

__all__ = ["OutOfTimeError", "guarded", "look_at_clock"]

_Ended = Callable[[], bool]

_GUARD: ContextVar[tuple[float | None, _Ended | None]] = ContextVar("guard", default=(None, None))


class OutOfTimeError(TimeoutError):
    """The guard has run out in the midst of a search; what it has found so far is not all."""


@contextmanager
def guarded(deadline: float | None, ended: _Ended | None = None) -> Iterator[None]:
    """Let the searches within look at a guard.

    Parameters
    ----------
    deadline : float or None
        On the clock of `time.monotonic`; None for none.
    ended : callable, optional
        Says whether whoever asked wants no answer any more.

    Raises
    ------
    OutOfTimeError
        Where a search looks at the guard after the deadline, or after it was ended.

    Examples
    --------
    >>> with guarded(monotonic() + 60):
    ...     look_at_clock()
    >>> with guarded(monotonic() - 1):
    ...     look_at_clock()
    Traceback (most recent call last):
    grader.board.guard.OutOfTimeError
    """
    before = _GUARD.set((deadline, ended))
    try:
        yield
    finally:
        _GUARD.reset(before)


def look_at_clock() -> None:
    """End the search if its guard has run out; to be called at least every second or so of one."""
    deadline, ended = _GUARD.get()
    if (deadline is not None and monotonic() > deadline) or (ended is not None and ended()):
        raise OutOfTimeError

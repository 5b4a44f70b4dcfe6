"""Exit codes. They are part of the interface: scripts that call ``gridproof`` look at them."""

from __future__ import annotations

from collections.abc import Collection
from enum import IntEnum

__all__ = ["CODES", "Exit", "worst"]


class Exit(IntEnum):
    """What a run came to."""

    ACCEPTED = 0
    """Every puzzle was accepted; or the command did what it was asked."""
    REJECTED = 1
    """Something was rejected; for ``sums``: no digits make the total."""
    UNREADABLE = 2
    """Something could not be read or written, or the call is wrong."""
    UNDECIDED = 3
    """Something is undecided."""
    BUG = 70
    """A bug of ours; the trace is in a file."""
    INTERRUPTED = 130
    """Ctrl-C."""
    PIPE_CLOSED = 141
    """Whoever read the output went away."""


CODES = {
    "accepted": Exit.ACCEPTED,
    "rejected": Exit.REJECTED,
    "undecided": Exit.UNDECIDED,
    "unreadable": Exit.UNREADABLE,
    "not judged": Exit.BUG,
}
"""The exit code for what became of a submission."""

_GRAVITY = (Exit.INTERRUPTED, Exit.BUG, Exit.UNREADABLE, Exit.UNDECIDED, Exit.REJECTED)
"""The first of these that occurred is the exit code: what an editor must look at first."""


def worst(occurred: Collection[Exit]) -> Exit:
    """Return the exit code of a run in which all of these occurred.

    Examples
    --------
    >>> worst({Exit.ACCEPTED, Exit.REJECTED, Exit.UNDECIDED}).name, worst(()).name
    ('UNDECIDED', 'ACCEPTED')
    """
    return next((code for code in _GRAVITY if code in occurred), Exit.ACCEPTED)

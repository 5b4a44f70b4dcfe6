"""The end of a process when the one that started it is gone, whatever it is doing then."""

from __future__ import annotations

import signal
import sys

__all__ = ["end_with_parent"]

_PR_SET_PDEATHSIG = 1
"""From ``linux/prctl.h``; see prctl(2)."""


def end_with_parent() -> None:
    """Have the system end this process as soon as the thread that started it ends; on Linux only.

    Elsewhere, and where it had ended before, nothing happens: whoever needs to know must watch a pipe as
    well. A pipe alone is not enough, as a process that is stopped, or deep in a library, does not look at it.
    """
    if sys.platform != "linux":
        return
    import ctypes  # takes a while, and is of no use elsewhere

    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, int(signal.SIGKILL), 0, 0, 0)

"""Ctrl-C at a terminal reaches every process there; only one of them can tell a person about it."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["ctrl_c_held_back"]


@contextmanager
def ctrl_c_held_back() -> Iterator[None]:
    """Hold Ctrl-C back while processes and threads are started: they inherit that, and keep it.

    Processes in a group of their own would not get it either, but would outlive a kill of the whole group.
    """
    if not hasattr(signal, "pthread_sigmask"):  # not on every system
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)

"""Ctrl-C in a run: the first finishes what is under way, the second ends it at once."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from types import FrameType

from verifier.files.submissions import Submission

__all__ = ["ctrl_c_heard"]


class _StopReadingError(Exception):
    """Ctrl-C was pressed while the next submission was looked for."""


class CtrlC:
    """Whether Ctrl-C was pressed: `stop`; at the first time, `told` is called."""

    def __init__(self, told: Callable[[], None]) -> None:
        self.stop = False
        self._told, self._reading = told, False

    def note(self, _number: int, _frame: FrameType | None) -> None:
        """Hear the signal, wherever the run is."""
        if self.stop:
            raise KeyboardInterrupt
        self.stop = True
        self._told()
        if self._reading:
            self._reading = False
            raise _StopReadingError

    def until_pressed(self, sent: Iterable[Submission]) -> Iterator[Submission]:
        """Yield submissions; end where Ctrl-C is pressed while the next one is looked for.

        A reader can be busy for long between two submissions, or wait for whoever types: so the signal breaks
        into it.
        """
        submissions = iter(sent)
        while not self.stop:
            try:
                self._reading = True
                found = next(submissions, None)
            except _StopReadingError:
                return
            finally:
                self._reading = False
            if found is None:
                return
            yield found


@contextmanager
def ctrl_c_heard(told: Callable[[], None]) -> Iterator[CtrlC]:
    """Let the first Ctrl-C ask for an end, and the second one bring it about."""
    pressed = CtrlC(told)
    before = signal.signal(signal.SIGINT, pressed.note)
    try:
        yield pressed
    finally:
        signal.signal(signal.SIGINT, before)

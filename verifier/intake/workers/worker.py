"""The process that judges: tasks come in by standard input, what it says goes out by standard output.

    python -P -m verifier.intake.workers.worker

It ends when whoever started it does, in the middle of a task too, however that came about: nobody is left to
hear it then. On Linux the system sees to that; everywhere its standard input tells, which ends as well.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
import threading
from queue import SimpleQueue
from typing import BinaryIO

from verifier.evidence.witnesses import load_solvers
from verifier.intake.workers.frames import receive, send
from verifier.intake.workers.parent import end_with_parent
from verifier.intake.workers.task import RunSettings, Task, work

__all__ = ["DONE", "OUT_OF_MEMORY", "READY", "main"]

READY, DONE = "ready", "done"
"""Said before the first task, and after each."""

OUT_OF_MEMORY = 71
"""Exit code where Python got no more memory."""

_LOOK_AFTER = 20_000
"""Objects made before Python looks for what can go: steps and boards hardly ever form rings."""


def main() -> None:
    """Do tasks until there are no more."""
    end_with_parent()  # had it ended before this, there would be nothing to receive
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for whoever started this
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what a library prints must not get between the frames
    tasks: SimpleQueue[Task] = SimpleQueue()
    settings: RunSettings = receive(sys.stdin.buffer)
    threading.Thread(target=_take_in, args=(sys.stdin.buffer, tasks), daemon=True).start()
    load_solvers()  # the time of the first task is not for that
    gc.freeze()  # what has been imported stays: nobody needs to look through it for what can go
    gc.set_threshold(_LOOK_AFTER)
    send(out, READY)
    while True:
        _do(tasks.get(), settings, out)


def _do(task: Task, settings: RunSettings, out: BinaryIO) -> None:
    try:
        for said in work(task, settings):
            send(out, said)
        send(out, DONE)
    except MemoryError:
        os._exit(OUT_OF_MEMORY)


def _take_in(pipe: BinaryIO, tasks: SimpleQueue[Task]) -> None:
    """Pass tasks on; end the process, whatever it is doing, when there is no more to come."""
    try:
        while True:
            tasks.put(receive(pipe))
    except EOFError:
        os._exit(0)


if __name__ == "__main__":
    main()

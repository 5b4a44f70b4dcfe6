"""What a command takes: time, processors, and the memory of it and of the processes that it starts."""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass

import psutil

__all__ = ["GRIDPROOF", "Figures", "measured", "measured_while"]

GRIDPROOF = (sys.executable, "-c", "from verifier.cli import main; main()")
"""The command of this checkout."""

_LOOK_EVERY = 0.2  # seconds between two looks at the memory


@dataclass(frozen=True)
class Figures:
    """What was taken: seconds on the clock and of processors; most bytes of the process and of a child."""

    seconds: float
    processors: float
    parent: int = 0
    worker: int = 0


def measured(*words: object) -> Figures:
    """Run a command to its end, whatever its exit code, and return what it took."""
    parent = worker = 0

    def run() -> None:
        nonlocal parent, worker
        quiet = subprocess.DEVNULL
        process = psutil.Popen([str(word) for word in words], stdout=quiet, stderr=quiet)
        for of_parent, of_worker in _looks(process):
            parent, worker = max(parent, of_parent), max(worker, of_worker)

    figures = measured_while(run)
    return Figures(figures.seconds, figures.processors, parent, worker)


def measured_while(done: Callable[[], object]) -> Figures:
    """Return what a function took, and what the processes took that ended meanwhile."""
    started, before = time.perf_counter(), _processors()
    done()
    return Figures(time.perf_counter() - started, _processors() - before)


def _looks(process: psutil.Popen) -> Iterator[tuple[int, int]]:
    """Yield the memory of a process, and of the largest of its children, again and again until it ends."""
    while process.poll() is None:
        with suppress(psutil.Error):  # one of them has just ended
            children = (child.memory_info().rss for child in process.children())
            yield process.memory_info().rss, max(children, default=0)
        with suppress(psutil.TimeoutExpired):
            process.wait(_LOOK_EVERY)


def _processors() -> float:
    """Return the processor time of all processes that this one has started and that have ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime

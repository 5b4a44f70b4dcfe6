"""Judging puzzles over several processes, in the order in which they come.

What is judged, and what is written, never depends on the number of processes. A process that dies costs
its puzzle alone.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
import traceback
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import chain, islice
from typing import TypeAlias

from verifier.puzzle.faults import Fault
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.reading import Entry
from verifier.verdict.judge import DEFAULT_SETTINGS, Settings, judge, lost
from verifier.verdict.report import write_verdict
from verifier.verdict.style import PLAIN, HouseStyle
from verifier.verdict.verdict import Verdict

__all__ = ["Judged", "cores", "judge_entries", "judge_entry"]

_WAITING_PER_WORKER = 4  # enough to keep workers busy, little enough to keep memory flat

_FEW, _SMALL = 8, 81
"""Entries, and cells of a grid, up to which starting processes would take longer than the judging."""


@dataclass(frozen=True, slots=True)
class Judged:
    """What became of one entry: faults, or a verdict, or a bug of ours.

    Parameters
    ----------
    address : str
        The entry's address.
    faults : tuple of Fault
        Why it could not be read.
    verdict : Verdict or None
        The verdict, if it could be read.
    text : str
        The verdict as YAML.
    trace : str
        What Python says about a bug of ours; there is no verdict then.
    """

    address: str
    faults: tuple[Fault, ...] = ()
    verdict: Verdict | None = None
    text: str = ""
    trace: str = ""


_Future: TypeAlias = "Future[Judged] | None"


def cores() -> int:
    """Return the number of cores that this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1


def judge_entries(
    entries: Iterable[Entry], style: HouseStyle = PLAIN, settings: Settings = DEFAULT_SETTINGS, jobs: int = 1
) -> Iterator[Judged]:
    """Judge entries, over `jobs` processes, and yield what became of them in the order in which they came.

    Parameters
    ----------
    entries : iterable of Entry
        Read as they are needed.
    style, settings
        See `verifier.verdict.judge.judge`. Other witnesses than the real ones must be functions that
        another process can import.
    jobs : int, optional
        Processes. Where one is asked for, or there is little to do, all is done in this process.

    Yields
    ------
    Judged
        One for each entry.
    """
    entries = iter(entries)
    first = list(islice(entries, max(jobs, _FEW + 1)))
    if jobs == 1 or _is_little(first):
        for entry in chain(first, entries):
            yield judge_entry(entry, style, settings)
        return
    crew = _Crew(min(jobs, len(first)), style, settings)
    try:
        yield from _in_order(chain(first, entries), crew, jobs * _WAITING_PER_WORKER)
    finally:
        crew.close()


def _is_little(entries: list[Entry]) -> bool:
    small = all(entry.puzzle is None or entry.puzzle.grid.cell_count <= _SMALL for entry in entries)
    return len(entries) < 2 or (small and len(entries) <= _FEW)


def judge_entry(entry: Entry, style: HouseStyle = PLAIN, settings: Settings = DEFAULT_SETTINGS) -> Judged:
    """Judge one entry in this process. A bug of ours is told in `Judged.trace`, so that others go on."""
    if entry.puzzle is None:
        return Judged(entry.address, entry.faults)
    try:
        verdict = judge(entry.puzzle, style, settings)
        return Judged(entry.address, verdict=verdict, text=write_verdict(verdict))
    except Exception:
        return Judged(entry.address, trace=traceback.format_exc())


def _in_order(entries: Iterable[Entry], crew: _Crew, most: int) -> Iterator[Judged]:
    waiting: deque[tuple[Entry, _Future]] = deque()
    for entry in entries:
        waiting.append((entry, crew.submit(entry) if entry.puzzle else None))
        if len(waiting) == most:
            yield crew.result(*waiting.popleft())
    while waiting:
        yield crew.result(*waiting.popleft())


class _Crew:
    """The worker processes: replaced as a whole when one of them dies."""

    def __init__(self, jobs: int, style: HouseStyle, settings: Settings) -> None:
        self._jobs, self._style, self._settings = jobs, style, settings
        self._pool = _pool(jobs)

    def submit(self, entry: Entry) -> _Future:
        with _ctrl_c_held_back():
            try:
                return self._pool.submit(judge_entry, entry, self._style, self._settings)
            except BrokenProcessPool:
                self._pool = _pool(self._jobs)
                return self._pool.submit(judge_entry, entry, self._style, self._settings)

    def result(self, entry: Entry, future: _Future) -> Judged:
        """Return what became of an entry; if its process died, try once more in a process of its own."""
        if future is None:
            return judge_entry(entry)  # it could not be read: nothing to judge
        try:
            return future.result()
        except BrokenProcessPool:
            return self._alone(entry)

    def _alone(self, entry: Entry) -> Judged:
        with _pool(1) as pool:
            try:
                return pool.submit(judge_entry, entry, self._style, self._settings).result()
            except BrokenProcessPool:
                return _lost(entry.address, entry.puzzle, self._style)

    def close(self) -> None:
        """End the workers, also those that are still at work."""
        self._pool.shutdown(wait=False, cancel_futures=True)
        for worker in multiprocessing.active_children():
            worker.terminate()


def _lost(address: str, puzzle: Puzzle | None, style: HouseStyle) -> Judged:
    assert puzzle is not None
    verdict = lost(puzzle, style)
    return Judged(address, verdict=verdict, text=write_verdict(verdict))


def _pool(jobs: int) -> ProcessPoolExecutor:
    # Fresh interpreters: a solver's threads do not survive a fork.
    return ProcessPoolExecutor(jobs, multiprocessing.get_context("spawn"), initializer=_start_worker)


@contextmanager
def _ctrl_c_held_back() -> Iterator[None]:
    """Hold Ctrl-C back while workers start: they inherit that, so it reaches the parent alone."""
    if not hasattr(signal, "pthread_sigmask"):  # not on every system
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _start_worker() -> None:
    """Leave Ctrl-C to the parent, and end with it, however it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)

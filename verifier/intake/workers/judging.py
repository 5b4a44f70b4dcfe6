"""Judging puzzles over several processes, in the order in which they come.

What is judged, and what is written, never depends on the number of processes. A process that dies, hangs or
takes too much memory costs its puzzle alone.
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Iterable, Iterator
from itertools import chain, islice
from typing import TYPE_CHECKING

from verifier.files.reading import ReadEntry
from verifier.intake.limits import WORKER_LIMITS, WorkerLimits
from verifier.intake.workers.task import Judged, RunSettings, Task, judge_entry
from verifier.verdict.judge import DEFAULT_SETTINGS, Settings
from verifier.verdict.style.style import PLAIN, HouseStyle

if TYPE_CHECKING:
    from verifier.intake.workers.pool import WorkerPool

__all__ = ["Judged", "cores", "judge_entries", "judge_entry"]

_FEW, _SMALL = 8, 81
"""Entries, and cells of a grid, up to which starting processes would take longer than the judging."""

_PATIENCE = 3600.0  # seconds for one look at the results; there is always one under way


def cores() -> int:
    """Return the number of cores that this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1


def judge_entries(
    entries: Iterable[ReadEntry],
    style: HouseStyle = PLAIN,
    settings: Settings = DEFAULT_SETTINGS,
    jobs: int = 1,
    limits: WorkerLimits = WORKER_LIMITS,
) -> Iterator[tuple[ReadEntry, Judged]]:
    """Judge entries, over `jobs` processes, and yield each with what became of it, in their order.

    Parameters
    ----------
    entries : iterable of ReadEntry
        Read as they are needed.
    style, settings
        See `verifier.verdict.judge.judge`. Other witnesses than the real ones must be functions that
        another process can import.
    jobs : int, optional
        Processes. Where one is asked for, or there is little to do, all is done in this process.
    limits : WorkerLimits, optional
        What one puzzle may cost.

    """
    entries = iter(entries)
    first = list(islice(entries, max(jobs, _FEW + 1)))
    if jobs == 1 or _is_little(first):
        for entry in chain(first, entries):
            yield entry, judge_entry(entry, style, settings)
        return
    from verifier.intake.workers.pool import opened_pool  # a single puzzle is answered sooner without it

    with opened_pool(min(jobs, len(first)), None, RunSettings(style, settings), limits) as pool:
        yield from _in_order(chain(first, entries), pool)


def _is_little(entries: list[ReadEntry]) -> bool:
    small = all(entry.puzzle is None or entry.puzzle.grid.cell_count <= _SMALL for entry in entries)
    return len(entries) < 2 or (small and len(entries) <= _FEW)


def _in_order(entries: Iterable[ReadEntry], pool: WorkerPool) -> Iterator[tuple[ReadEntry, Judged]]:
    """Yield results in the order of the entries; those that come too early wait for their turn."""
    waiting: deque[tuple[int, ReadEntry]] = deque()
    done: dict[int, Judged] = {}
    for ticket, entry in enumerate(entries):
        waiting.append((ticket, entry))
        if entry.puzzle is None:
            done[ticket] = judge_entry(entry)
        else:
            pool.submit(ticket, Task(entry))
        if len(waiting) == pool.window:
            yield _next(*waiting.popleft(), done, pool)
    while waiting:
        yield _next(*waiting.popleft(), done, pool)


def _next(
    ticket: int, entry: ReadEntry, done: dict[int, Judged], pool: WorkerPool
) -> tuple[ReadEntry, Judged]:
    while ticket not in done:
        result = pool.result(_PATIENCE)
        if result is not None:
            done[result[0]] = result[1]
    return entry, done.pop(ticket)

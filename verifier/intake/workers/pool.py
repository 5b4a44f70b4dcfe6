"""Several workers at once: a thread keeps each of them, and results come back in any order."""

from __future__ import annotations

import queue
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Protocol

from verifier.intake.errors import IntakeError
from verifier.intake.limits import WORKER_LIMITS, WorkerLimits
from verifier.intake.workers.supervisor import Supervisor, SupervisorClosedError
from verifier.intake.workers.task import Judged, RunSettings, Task
from verifier.intake.workers.wording import NO_CLUSTER_LIBRARY

__all__ = ["LocalPool", "NoClusterError", "WorkerPool", "opened_pool"]

_WAITING_PER_WORKER = 4  # enough to keep workers busy, little enough to keep memory flat


class NoClusterError(IntakeError):
    """There is no cluster at the address, or none of its workers can judge."""


class WorkerPool(Protocol):
    """Whoever does the tasks: processes of this machine, or a cluster."""

    @property
    def window(self) -> int:
        """How many tasks it should hold at a time."""

    def submit(self, ticket: int, task: Task) -> None:
        """Hand over a task, with a number by which its result is known."""

    def result(self, seconds: float) -> tuple[int, Judged] | None:
        """Return one result, waiting up to so many seconds for it; None where there is none by then.

        Raises
        ------
        WorkerWillNotStartError
            If nobody can do the tasks.
        """

    def close(self) -> None:
        """End all that is under way."""


@contextmanager
def opened_pool(
    jobs: int, cluster: str | None, settings: RunSettings, limits: WorkerLimits = WORKER_LIMITS
) -> Iterator[WorkerPool]:
    """Have a pool of so many processes, or that of a cluster whose address is named.

    Raises
    ------
    NoClusterError
        If it cannot be reached.
    """
    pool = LocalPool(jobs, settings, limits) if not cluster else _joined(cluster, settings, limits)
    try:
        yield pool
    finally:
        pool.close()


def _joined(address: str, settings: RunSettings, limits: WorkerLimits) -> WorkerPool:
    try:
        from verifier.intake.workers.cluster import ClusterPool
    except ImportError as error:
        raise NoClusterError(NO_CLUSTER_LIBRARY) from error
    return ClusterPool(address, settings, limits)


class LocalPool:
    """Worker processes on this machine.

    Parameters
    ----------
    jobs : int
        How many; they are started when there is something to do.
    settings : RunSettings
        How puzzles are judged.
    limits : WorkerLimits, optional
        What one puzzle may cost.
    """

    def __init__(self, jobs: int, settings: RunSettings, limits: WorkerLimits = WORKER_LIMITS) -> None:
        self._tasks: queue.SimpleQueue[tuple[int, Task] | None] = queue.SimpleQueue()
        self._results: queue.SimpleQueue[tuple[int, Judged] | Exception] = queue.SimpleQueue()
        self._supervisors = [Supervisor(settings, limits) for _ in range(jobs)]
        self._threads = [
            threading.Thread(target=self._serve, args=(k,), daemon=True) for k in self._supervisors
        ]
        for thread in self._threads:
            thread.start()

    @property
    def window(self) -> int:
        """How many tasks to hold at a time."""
        return _WAITING_PER_WORKER * len(self._supervisors)

    def submit(self, ticket: int, task: Task) -> None:
        """Hand over a task."""
        self._tasks.put((ticket, task))

    def result(self, seconds: float) -> tuple[int, Judged] | None:
        """Return one result, or None."""
        try:
            result = self._results.get(timeout=seconds)
        except queue.Empty:
            return None
        if isinstance(result, Exception):
            raise result
        return result

    def close(self) -> None:
        """End the workers, also those that are still at work."""
        for _ in self._threads:
            self._tasks.put(None)
        for supervisor in self._supervisors:
            supervisor.close()
        for thread in self._threads:
            thread.join()

    def _serve(self, supervisor: Supervisor) -> None:
        while (given := self._tasks.get()) is not None:
            ticket, task = given
            try:
                self._results.put((ticket, supervisor.do(task)))
            except SupervisorClosedError:
                return
            except Exception as error:  # told where results are asked for
                self._results.put(error)

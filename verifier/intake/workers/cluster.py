"""Workers on other machines, by Dask. Imported only when a cluster is asked for.

What is done with a puzzle is the same as on one machine (`verifier.intake.workers.supervisor`): each thread
of a Dask worker has a worker process of ours, so a puzzle that hangs is ended there, alone, as anywhere else.
A Dask worker that is lost as a whole, with its machine perhaps, costs nothing either: its puzzles are judged
here.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import queue
import re
import threading
from typing import Any

from distributed import Client, LocalCluster

from verifier.intake.limits import WORKER_LIMITS, WorkerLimits
from verifier.intake.workers.ctrl_c import ctrl_c_held_back
from verifier.intake.workers.pool import NoClusterError
from verifier.intake.workers.supervisor import Supervisor, SupervisorClosedError
from verifier.intake.workers.task import Judged, RunSettings, Task
from verifier.intake.workers.wording import NO_CLUSTER
from verifier.puzzle.printable import printable

__all__ = ["ClusterPool"]

_WAITING_PER_WORKER = 4
_LOCAL = re.compile(r"local:([1-9][0-9]{0,3})\Z")
_ANSWER_WITHIN = 30  # seconds for the cluster to answer a call

_supervisors: dict[tuple[str, int], Supervisor] = {}
"""In a Dask worker: the supervisors of its threads. They end with it."""


class ClusterPool:
    """The workers of a Dask cluster.

    Parameters
    ----------
    address : str
        ``local:2`` for two on this machine, ``tcp://host:port`` for a cluster that is there.
    settings : RunSettings
        How puzzles are judged.
    limits : WorkerLimits, optional
        What one puzzle may cost.

    Raises
    ------
    NoClusterError
        If it cannot be reached.
    """

    def __init__(self, address: str, settings: RunSettings, limits: WorkerLimits = WORKER_LIMITS) -> None:
        self._results: queue.SimpleQueue[tuple[int, Task, Any]] = queue.SimpleQueue()
        self._packed = pickle.dumps((settings, limits))
        self._own = Supervisor(settings, limits)
        self._cluster, self._client = _joined(address)
        self._futures: dict[int, Any] = {}
        self._workers: int = max(1, sum(self._client.nthreads().values()))

    @property
    def address(self) -> str:
        """Where others can join the cluster."""
        return str(self._client.scheduler_info()["address"])

    def processes(self) -> dict[str, int]:
        """Return the process number of each Dask worker, by its address."""
        numbers: dict[str, int] = self._client.run(os.getpid)
        return numbers

    @property
    def window(self) -> int:
        """How many tasks to hold at a time."""
        return _WAITING_PER_WORKER * self._workers

    def submit(self, ticket: int, task: Task) -> None:
        """Hand over a task."""
        future = self._client.submit(_judged_here, self._packed, task, pure=False, retries=0)
        self._futures[ticket] = future
        future.add_done_callback(lambda done: self._results.put((ticket, task, done)))

    def result(self, seconds: float) -> tuple[int, Judged] | None:
        """Return one result, or None."""
        try:
            ticket, task, future = self._results.get(timeout=seconds)
        except queue.Empty:
            return None
        del self._futures[ticket]
        if future.status == "finished":
            judged: Judged = future.result()
            return ticket, judged
        return ticket, self._own.do(task)  # the Dask worker is gone, or could not start one of ours

    def close(self) -> None:
        """Give back what was not judged, and leave the cluster; end it if it was ours."""
        self._client.cancel(list(self._futures.values()), force=True)
        self._client.run(_close_supervisors, self._packed)
        self._client.close()
        if self._cluster is not None:
            self._cluster.close()
        self._own.close()


def _joined(address: str) -> tuple[LocalCluster | None, Client]:
    own = _LOCAL.match(address)
    try:
        if own is None:
            return None, Client(address, timeout=_ANSWER_WITHIN)
        with ctrl_c_held_back():  # by the threads of Dask too, and so by all that they start
            cluster = LocalCluster(
                n_workers=int(own[1]), threads_per_worker=1, processes=True, dashboard_address=None
            )
            return cluster, Client(cluster)
    except (TimeoutError, OSError, ValueError) as error:
        says = NO_CLUSTER.format(address=printable(address, 100), says=printable(str(error), 300))
        raise NoClusterError(says) from error


def _judged_here(packed: bytes, task: Task) -> Judged:
    """Do a task on a Dask worker, by the supervisor of this thread."""
    place = (_mark(packed), threading.get_ident())
    if place not in _supervisors:
        _supervisors[place] = Supervisor(*pickle.loads(packed))
    try:
        return _supervisors[place].do(task)
    except SupervisorClosedError:
        _supervisors.pop(place, None)
        raise


def _close_supervisors(packed: bytes) -> None:
    """End the worker processes of a run on a Dask worker."""
    for place in [place for place in _supervisors if place[0] == _mark(packed)]:
        _supervisors.pop(place).close()


def _mark(packed: bytes) -> str:
    return hashlib.sha256(packed).hexdigest()

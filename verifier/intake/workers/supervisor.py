"""One worker process, supervised: a puzzle that kills, hangs or bloats the worker costs only itself."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import suppress
from dataclasses import dataclass, replace
from enum import Enum
from typing import BinaryIO, cast

import psutil

from verifier.intake.limits import WORKER_LIMITS, WorkerLimits
from verifier.intake.workers.ctrl_c import ctrl_c_held_back
from verifier.intake.workers.frames import receive, send
from verifier.intake.workers.shortage import WorkerWillNotStartError
from verifier.intake.workers.task import Judged, RunSettings, Task
from verifier.intake.workers.wording import lost_reading, lost_says
from verifier.intake.workers.worker import DONE, OUT_OF_MEMORY, READY
from verifier.likeness.guises import Likeness
from verifier.verdict.judge import lost
from verifier.verdict.report import write_verdict
from verifier.verdict.verdict import Identity

__all__ = ["Supervisor", "SupervisorClosedError"]

_LOOK_EVERY = 0.2  # seconds between two looks at the clock and the memory of a worker
_WORDS_KEPT = 2000  # characters of what a worker said before it ended
_GONE = (EOFError, OSError, ValueError)
"""What a pipe raises whose other end, or this one, is closed."""

_START_WITHIN = 120.0  # seconds; a busy machine takes long to import a solver


class Cause(Enum):
    """Why a worker was lost."""

    DIED = "died"
    TIME = "time"
    MEMORY = "memory"


class SupervisorClosedError(Exception):
    """The supervisor was closed while a puzzle was under way."""


@dataclass(slots=True)
class _Heard:
    """What a worker has said of a task so far."""

    puzzle: Identity | None = None
    judged: Judged | None = None
    likeness: Likeness | None = None

    def hear(self, said: object) -> None:
        if isinstance(said, Identity):
            self.puzzle = said
        elif isinstance(said, Judged):
            self.judged = said
        elif isinstance(said, Likeness):
            self.likeness = said


@dataclass(frozen=True, slots=True)
class _Watched:
    process: subprocess.Popen[bytes]
    until: float


class _LostError(Exception):
    def __init__(self, cause: Cause) -> None:
        super().__init__(cause.value)
        self.cause = cause


class Supervisor:
    """Keeps one worker process, and starts another in its place when it is lost.

    Parameters
    ----------
    settings : RunSettings
        How puzzles are judged.
    limits : WorkerLimits, optional
        What one puzzle may cost.

    Notes
    -----
    The worker is a process of its own rather than one of `multiprocessing`: those of a cluster run where
    that may not start any. A thread looks at clock and memory from outside, as a solver that hangs hears
    nothing. The worker ends with the thread that first asked for it: see `verifier.intake.workers.parent`.
    """

    def __init__(self, settings: RunSettings, limits: WorkerLimits = WORKER_LIMITS) -> None:
        self._settings, self._limits = settings, limits
        self._process: subprocess.Popen[bytes] | None = None
        self._watched: _Watched | None = None
        self._cause = Cause.DIED
        self._lock = threading.Lock()
        self._closed = threading.Event()
        self._errors: BinaryIO = tempfile.TemporaryFile()  # noqa: SIM115 - as long as the supervisor
        threading.Thread(target=self._watch, daemon=True).start()

    @property
    def worker(self) -> int | None:
        """The number of the worker's process, if one is there."""
        return None if self._process is None else self._process.pid

    def do(self, task: Task) -> Judged:
        """Return what becomes of a puzzle, whatever it does to the worker.

        Raises
        ------
        WorkerWillNotStartError
            If there can be no worker.
        SupervisorClosedError
            If `close` was called meanwhile.
        """
        heard, cause, tries = _Heard(), Cause.DIED, 0
        while heard.judged is None and tries < self._limits.tries:
            tries += 1
            try:
                self._ask(task, heard)
            except _LostError as error:
                cause = error.cause
        if heard.judged is None:
            heard.judged = self._lost(task, heard.puzzle, cause)
        return replace(heard.judged, puzzle=heard.puzzle, likeness=heard.likeness, tries=tries)

    def close(self) -> None:
        """End the worker, also in the middle of a task."""
        self._closed.set()
        with self._lock:
            if self._process is not None:
                self._process.kill()
                self._process.wait()

    def _ask(self, task: Task, heard: _Heard) -> None:
        process = self._started()
        self._expect(process, self._limits.seconds)
        try:
            send(cast(BinaryIO, process.stdin), task)
            while (said := receive(cast(BinaryIO, process.stdout))) != DONE:
                heard.hear(said)
                if isinstance(said, Judged):  # what follows has a time of its own
                    self._expect(process, self._limits.seconds)
        except _GONE as error:
            raise _LostError(self._bury(process)) from error
        finally:
            self._expect_nothing()

    def _started(self) -> subprocess.Popen[bytes]:
        """Return the worker, started if there is none."""
        with self._lock:
            if self._closed.is_set():
                raise SupervisorClosedError
            if self._process is not None:
                return self._process
            try:
                self._process = process = _new_process(self._errors)
            except OSError as error:  # no interpreter, or the machine is at its limits
                raise WorkerWillNotStartError(str(error)) from error
        self._expect(process, _START_WITHIN)
        try:
            send(cast(BinaryIO, process.stdin), self._settings)
            if receive(cast(BinaryIO, process.stdout)) == READY:
                return process
            raise EOFError
        except _GONE as error:
            self._bury(process)
            raise WorkerWillNotStartError(_last_words(self._errors)) from error
        finally:
            self._expect_nothing()

    def _bury(self, process: subprocess.Popen[bytes]) -> Cause:
        """Make sure that a worker is gone, and return why."""
        with self._lock:
            self._watched, cause, self._cause = None, self._cause, Cause.DIED
            self._process = None
        _end(process)
        if self._closed.is_set():
            raise SupervisorClosedError
        return Cause.MEMORY if process.returncode == OUT_OF_MEMORY else cause

    def _expect(self, process: subprocess.Popen[bytes], seconds: float) -> None:
        with self._lock:
            self._watched = _Watched(process, time.monotonic() + seconds)

    def _expect_nothing(self) -> None:
        with self._lock:
            self._watched = None

    def _watch(self) -> None:
        """End the worker when its puzzle takes more than it may."""
        while not self._closed.wait(_LOOK_EVERY):
            watched = self._watched
            cause = None if watched is None else self._too_much(watched)
            with self._lock:
                if cause is not None and watched is self._watched and watched is not None:
                    self._cause, self._watched = cause, None
                    watched.process.kill()

    def _too_much(self, watched: _Watched) -> Cause | None:
        if time.monotonic() > watched.until:
            return Cause.TIME
        try:
            taken: int = psutil.Process(watched.process.pid).memory_info().rss
        except psutil.Error:  # it is just ending
            return None
        return Cause.MEMORY if taken > self._limits.memory_bytes else None

    def _lost(self, task: Task, puzzle: Identity | None, cause: Cause) -> Judged:
        address = task.sent.address
        if puzzle is None:  # what it is, nobody knows: the worker did not come so far
            return Judged(address, (lost_reading(address, cause.value),))
        if not task.verdict:
            return Judged(address)
        verdict = lost(puzzle, self._settings.style, lost_says(cause.value, self._limits))
        return Judged(address, verdict=verdict, text=write_verdict(verdict))


def _new_process(errors: BinaryIO) -> subprocess.Popen[bytes]:
    """Start a worker that finds what this process finds, but for nothing in the folder it runs in."""
    path = os.pathsep.join(place or os.getcwd() for place in sys.path)
    with ctrl_c_held_back():
        return subprocess.Popen(
            [sys.executable, "-P", "-m", "verifier.intake.workers.worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=errors,
            env={**os.environ, "PYTHONPATH": path},
        )


def _last_words(errors: BinaryIO) -> str:
    errors.seek(0, os.SEEK_END)
    errors.seek(max(0, errors.tell() - _WORDS_KEPT))
    return errors.read().decode("utf-8", "replace").strip()


def _end(process: subprocess.Popen[bytes]) -> None:
    process.kill()
    process.wait()
    for pipe in (process.stdin, process.stdout):
        with suppress(OSError):  # what was not read any more
            cast(BinaryIO, pipe).close()

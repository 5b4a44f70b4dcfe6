"""Processes that answer: one question at a time on each bench, and the next one ends the one before.

They are forked from a process that has the solvers loaded, so that a new one is there in a moment and may be
killed at any time; where a system cannot fork, they are started anew. None outlives the desk.
"""

from __future__ import annotations

import multiprocessing
import pickle
import threading
from collections.abc import Callable
from contextlib import suppress
from multiprocessing import forkserver
from multiprocessing.connection import Connection
from multiprocessing.context import BaseContext
from multiprocessing.process import BaseProcess
from typing import NamedTuple

import psutil

from verifier.intake.limits import WORKER_LIMITS
from verifier.intake.workers.parent import end_with_parent

__all__ = ["Bench", "Benches"]

_FORKING = "forkserver"
_LOOK_EVERY = 0.5
"""Seconds between two looks at the memory of a process."""

Hear = Callable[[object], None]


def _ready_context() -> BaseContext:
    """Return the way in which processes are started, with the solvers loaded for all of them."""
    if _FORKING not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context(_FORKING)
    context.set_forkserver_preload(["verifier.desk.answers.preloaded"])
    forkserver.ensure_running()  # by this thread: that process ends with the thread that started it
    return context


class Bench:
    """Where one question is answered at a time, by a process that was waiting for it.

    Parameters
    ----------
    context : BaseContext
        How processes are started.
    """

    def __init__(self, context: BaseContext) -> None:
        self._context = context
        self._lock = threading.Lock()
        self._asked = 0
        self._closed = False
        self._at_work: _Helper | None = None
        self._waiting: _Helper | None = None

    def ask(
        self, question: str, arguments: tuple[object, ...], hear: Hear, ended: Callable[[], None]
    ) -> None:
        """Ask a question in the place of the one before.

        Parameters
        ----------
        question : str
            One of `verifier.desk.answers.questions.QUESTIONS`.
        arguments : tuple
            What it is asked about.
        hear : callable
            Called with each part of the answer, from a thread of its own.
        ended : callable
            Called from there when no more is to come, unless another question was asked.
        """
        number = self.drop()
        asked = pickle.dumps((question, arguments))  # now: puzzles take notes as they are looked at
        threading.Thread(target=self._listen, args=(number, asked, hear, ended), daemon=True).start()

    def drop(self) -> int:
        """End the question, if there is one, and return the number of the next."""
        with self._lock:
            self._asked += 1
            helper, self._at_work = self._at_work, None
            if helper is not None:
                helper.process.kill()
            return self._asked

    def close(self) -> None:
        """End everything."""
        self.drop()
        with self._lock:
            self._closed = True
            if self._waiting is not None:
                self._waiting.process.kill()

    def _listen(self, number: int, asked: bytes, hear: Hear, ended: Callable[[], None]) -> None:
        helper = self._take_on(number)
        if helper is None:
            return
        with suppress(EOFError, OSError):
            helper.line.send_bytes(asked)
            self._have_one_waiting()
            while True:
                said = helper.line.recv()
                if number == self._asked:
                    hear(said)
        helper.process.join()
        if number == self._asked:
            ended()

    def _take_on(self, number: int) -> _Helper | None:
        """Return who answers the question with this number; nobody where another was asked meanwhile."""
        with self._lock:
            helper, self._waiting = self._waiting, None
        helper = helper or self._new()  # without the lock: that takes a moment
        with self._lock:
            if number == self._asked:
                self._at_work = helper
                return helper
        self._keep(helper)
        return None

    def _have_one_waiting(self) -> None:
        if self._waiting is None:
            self._keep(self._new())

    def _keep(self, helper: _Helper) -> None:
        """Have a helper wait, if no other does."""
        with self._lock:
            if self._waiting is None and not self._closed:
                self._waiting = helper
                return
        helper.process.kill()

    def _new(self) -> _Helper:
        mine, theirs = self._context.Pipe()
        process = self._context.Process(target=_answer, args=(theirs,), daemon=True)  # type: ignore[attr-defined]
        process.start()
        theirs.close()
        threading.Thread(target=_end_when_too_much, args=(process,), daemon=True).start()
        return _Helper(process, mine)


class Benches(NamedTuple):
    """Where a desk has its questions answered; each of them does not wait for the others.

    Parameters
    ----------
    judging : Bench
        For what the puzzle is.
    advising : Bench
        For what can be done now.
    showing : Bench
        For the walk, and the way on from the grid of an audience.
    writing : Bench
        For what can be printed or kept.
    """

    judging: Bench
    advising: Bench
    showing: Bench
    writing: Bench

    @classmethod
    def ready(cls) -> Benches:
        """Return benches with the solvers loaded for all of them."""
        context = _ready_context()
        return cls(*(Bench(context) for _ in cls._fields))

    def drop(self) -> None:
        """End all questions about what the puzzle was."""
        for bench in (self.judging, self.advising, self.showing):
            bench.drop()

    def close(self) -> None:
        """End everything."""
        for bench in self:
            bench.close()


class _Helper(NamedTuple):
    """A process, and the line to it."""

    process: BaseProcess
    line: Connection


def _answer(line: Connection) -> None:
    from verifier.desk.answers.questions import QUESTIONS

    end_with_parent()
    with suppress(EOFError):  # nobody is there any more
        question, arguments = line.recv()
        for said in QUESTIONS[question](*arguments):
            line.send(said)


def _end_when_too_much(process: BaseProcess) -> None:
    """End a process that takes more memory, or more of a processor's time, than one puzzle may."""
    with suppress(psutil.Error):
        looked_at = psutil.Process(process.pid)
        while process.is_alive():
            process.join(_LOOK_EVERY)
            took = looked_at.cpu_times()
            if (
                looked_at.memory_info().rss > WORKER_LIMITS.memory_bytes
                or took.user + took.system > WORKER_LIMITS.seconds
            ):
                process.kill()

"""Processes that answer: one question at a time on each bench, and the next one ends the one before.

They are forked from a process that has the solvers loaded, so that a new one is there in a moment and may be
killed at any time; where a system cannot fork, they are started anew. None outlives the desk.
"""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.context import BaseContext
from multiprocessing.process import BaseProcess

import psutil

from verifier.intake.limits import WORKER_LIMITS
from verifier.intake.workers.parent import end_with_parent

__all__ = ["Bench", "ready_context"]

_FORKING = "forkserver"
_LOOK_EVERY = 0.5
"""Seconds between two looks at the memory of a process."""

Hear = Callable[[object], None]


def ready_context() -> BaseContext:
    """Return the way in which processes are started, with the solvers loaded for all of them."""
    if _FORKING not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context(_FORKING)
    context.set_forkserver_preload(["verifier.desk.questions"])
    return context


class Bench:
    """Where one question is answered at a time.

    Parameters
    ----------
    context : BaseContext
        How processes are started.
    """

    def __init__(self, context: BaseContext) -> None:
        self._context = context
        self._lock = threading.Lock()
        self._asked = 0
        self._process: BaseProcess | None = None

    def ask(
        self, question: str, arguments: tuple[object, ...], hear: Hear, ended: Callable[[], None]
    ) -> None:
        """Ask a question in the place of the one before.

        Parameters
        ----------
        question : str
            One of `verifier.desk.questions.QUESTIONS`.
        arguments : tuple
            What it is asked about.
        hear : callable
            Called with each part of the answer, from a thread of its own.
        ended : callable
            Called from there when no more is to come, unless another question was asked.
        """
        self.drop()
        with self._lock:
            number = self._asked
        threading.Thread(
            target=self._listen, args=(number, question, arguments, hear, ended), daemon=True
        ).start()

    def drop(self) -> None:
        """End the question, if there is one."""
        with self._lock:
            self._asked += 1
            process, self._process = self._process, None
        if process is not None:
            process.kill()

    def _listen(
        self, number: int, question: str, arguments: tuple[object, ...], hear: Hear, ended: Callable[[], None]
    ) -> None:
        mine, theirs = self._context.Pipe(duplex=False)
        process = self._context.Process(target=_answer, args=(theirs, question, arguments), daemon=True)  # type: ignore[attr-defined]
        with self._lock:
            if number != self._asked:
                return
            process.start()
            self._process = process
        theirs.close()
        watch = threading.Thread(target=_end_when_too_much, args=(process,), daemon=True)
        watch.start()
        with suppress(EOFError, OSError):
            while True:
                said = mine.recv()
                if number == self._asked:
                    hear(said)
        process.join()
        if number == self._asked:
            ended()


def _answer(pipe: Connection, question: str, arguments: tuple[object, ...]) -> None:
    from verifier.desk.questions import QUESTIONS

    end_with_parent()
    for said in QUESTIONS[question](*arguments):
        pipe.send(said)


def _end_when_too_much(process: BaseProcess) -> None:
    """End a process that takes more memory or time than one puzzle may."""
    waited = 0.0
    while process.is_alive() and waited < WORKER_LIMITS.seconds:
        process.join(_LOOK_EVERY)
        waited += _LOOK_EVERY
        with suppress(psutil.Error, TypeError):
            if psutil.Process(process.pid).memory_info().rss > WORKER_LIMITS.memory_bytes:
                break
    if process.is_alive():
        process.kill()

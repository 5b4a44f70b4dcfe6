"""A pool without processes, for tests of what a run does with results."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tests.evidence.stand_ins import ONE
from verifier.intake.workers.task import Judged, RunSettings, Task, work
from verifier.likeness.guises import Likeness
from verifier.verdict.judge import identity_of, lost
from verifier.verdict.report import write_verdict
from verifier.verdict.verdict import Identity

__all__ = ["InlinePool", "lost_once"]


class InlinePool:
    """Does each task when its result is asked for; the last one handed over first, to be out of order.

    Attributes
    ----------
    done : list of str
        The addresses of the tasks, in the order in which they were done.
    """

    def __init__(
        self, settings: RunSettings, change: Callable[[Judged], Judged] = lambda judged: judged
    ) -> None:
        self._settings, self._change = settings, change
        self._waiting: list[tuple[int, Task]] = []
        self.done: list[str] = []

    @property
    def window(self) -> int:
        return 5

    def submit(self, ticket: int, task: Task) -> None:
        self._waiting.append((ticket, task))

    def result(self, seconds: float) -> tuple[int, Judged] | None:
        assert seconds > 0
        if not self._waiting:
            return None
        ticket, task = self._waiting.pop()
        self.done.append(task.sent.address)
        return ticket, self._change(self._do(task))

    def close(self) -> None:
        self._waiting.clear()

    def _do(self, task: Task) -> Judged:
        said = list(work(task, self._settings))
        judged = next(one for one in said if isinstance(one, Judged))
        puzzle = next((one for one in said if isinstance(one, Identity)), None)
        likeness = next((one for one in reversed(said) if isinstance(one, Likeness)), None)  # all of it
        return replace(judged, puzzle=puzzle, likeness=likeness)


def lost_once(judged: Judged) -> Judged:
    """Return what would be if the worker had been lost."""
    puzzle = judged.puzzle or identity_of(ONE)
    verdict = lost(puzzle)
    return replace(judged, verdict=verdict, text=write_verdict(verdict))

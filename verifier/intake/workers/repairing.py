"""Having repairs looked for by those who judge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from verifier.files.submissions import Submission
from verifier.intake.workers.pool import WorkerPool
from verifier.intake.workers.task import Task

__all__ = ["repairs_found"]

_PATIENCE = 3600.0  # seconds for one look at the results; there is always one under way


def repairs_found(
    pool: WorkerPool, broken: Iterable[tuple[int, Submission]]
) -> Iterator[tuple[int, tuple[str, ...] | None]]:
    """Yield what puts broken puzzles right, as it is found: the number of each, and its repairs in words.

    None stands for a puzzle over which the search was lost.
    """
    under_way = 0
    for number, sent in broken:
        if under_way == pool.window:
            yield _next(pool)
            under_way -= 1
        pool.submit(number, Task(sent, verdict=False, repairs=True))
        under_way += 1
    for _ in range(under_way):
        yield _next(pool)


def _next(pool: WorkerPool) -> tuple[int, tuple[str, ...] | None]:
    while (result := pool.result(_PATIENCE)) is None:
        pass
    number, judged = result
    return number, judged.repairs

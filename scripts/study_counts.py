"""Count every killer and classic of the reference data, and hold number and grid against the record.

    python -m scripts.study_counts                        everything: ten minutes of processor time
    python -m scripts.study_counts --exact-up-to 2000     without the long exact counts: one minute

Both witnesses count every puzzle up to two solutions, within their ordinary budgets: 60 units of
deterministic time, 1,000,000 conflicts, 120 seconds each. Where the exact number is recorded, the recount
counts to the end, too; it is the faster of the two at that (some 10,000 solutions a second, checked and
kept, against 5,000 to 7,000). Up to a few thousand solutions the first count does the same.
Exit 1: a count was wrong or came to no end.
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.progress import track
from rich.table import Table

from tests.reference import as_recorded, load, puzzle_of
from verifier.counting.count import count_solutions
from verifier.puzzle.allowance import USUAL_ALLOWANCE, WorkAllowance
from verifier.puzzle.tally import Stop, Tally
from verifier.recount.recount import recount_solutions

__all__ = ["main"]

FILES = (
    *("killer", "killer_derived", "generated", "killer16"),
    *("classic_hard", "classic_misc", "classic_pe96", "classic_human", "classic_17"),
    *("classic_misprint", "classic_multi_derived"),
)
BOTH_COUNT_TO = 2000
"""Up to so many solutions, the first count counts to the end, too."""

_LONG = WorkAllowance(conflicts=100_000_000, seconds=3600.0)


@dataclass(frozen=True)
class Task:
    """One puzzle for one witness."""

    file: str
    record: dict[str, Any]
    witness: str
    to_the_end: bool = False

    @property
    def line(self) -> tuple[str, str]:
        """The line of the table that it belongs to."""
        return self.file, f"{self.witness}, to the end" if self.to_the_end else self.witness


@dataclass(frozen=True)
class Outcome:
    """What came of a task."""

    task: Task
    right: bool
    ended: bool
    solutions: int
    seconds: float


def main(
    exact_up_to: Annotated[int, typer.Option(help="Count to the end up to so many solutions.")] = 10**6,
    jobs: Annotated[int | None, typer.Option(help="Processes; as many as cores when absent.")] = None,
) -> None:
    """Hold both witnesses against the recorded numbers and solutions."""
    tasks = [task for name in FILES for task in _tasks(name, exact_up_to)]
    tasks.sort(key=lambda task: -(task.record.get("solutions_exact") or 0) * task.to_the_end)  # longest first
    with ProcessPoolExecutor(jobs) as pool:
        outcomes = list(track(pool.map(_done, tasks), total=len(tasks), transient=True))
    console = Console(width=110)
    console.print(_table(outcomes))
    bad = [outcome for outcome in outcomes if not (outcome.right and outcome.ended)]
    for outcome in bad:
        said = "wrong" if outcome.ended else "no end in its budget"
        console.print(f"{outcome.task.record['id']}, {outcome.task.witness}: {said}")
    raise typer.Exit(bool(bad))


def _tasks(name: str, exact_up_to: int) -> Iterator[Task]:
    for record in load(name):
        if record["solutions"] is None:
            continue  # the number could not be settled when the data was collected
        for witness in ("cp-sat", "clingo"):
            yield Task(name, record, witness)
        exact = record.get("solutions_exact")
        if exact is not None and 1 < exact <= exact_up_to:
            yield Task(name, record, "clingo", to_the_end=True)
            if exact <= BOTH_COUNT_TO:
                yield Task(name, record, "cp-sat", to_the_end=True)


def _done(task: Task) -> Outcome:
    started = time.process_time()
    tally = _tally(task)
    right = (
        tally.count == task.record["solutions_exact"] if task.to_the_end else as_recorded(task.record, tally)
    )
    ended = tally.complete if task.to_the_end else tally.stop in (Stop.FINISHED, Stop.ASKED)
    return Outcome(task, right, ended, tally.count, time.process_time() - started)


def _tally(task: Task) -> Tally:
    puzzle = puzzle_of(task.record)
    limit = task.record["solutions_exact"] + 1 if task.to_the_end else 2
    if task.witness == "cp-sat":
        return count_solutions(puzzle, limit)
    return recount_solutions(puzzle, limit, _LONG if task.to_the_end else USUAL_ALLOWANCE)


def _table(outcomes: list[Outcome]) -> Table:
    lines: defaultdict[tuple[str, str], list[Outcome]] = defaultdict(list)
    for outcome in outcomes:
        lines[outcome.task.line].append(outcome)
    table = Table("file", "witness", title="Counts against the record", caption="seconds of processor time")
    for name in ("puzzles", "solutions", "wrong", "no end", "mean s", "most s"):
        table.add_column(name, justify="right")
    for (file, witness), done in sorted(lines.items(), key=lambda item: FILES.index(item[0][0])):
        seconds = [outcome.seconds for outcome in done]
        table.add_row(
            file,
            witness,
            str(len(done)),
            f"{sum(outcome.solutions for outcome in done):,}",
            str(sum(outcome.ended and not outcome.right for outcome in done)),
            str(sum(not outcome.ended for outcome in done)),
            f"{sum(seconds) / len(seconds):.4f}",
            f"{max(seconds):.3f}",
        )
    return table


if __name__ == "__main__":
    typer.run(main)

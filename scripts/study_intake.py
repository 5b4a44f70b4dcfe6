"""What the intake costs: rate, ratio of two jobs to one, memory, against the textbook count in the same run.

    python -m scripts.study_intake                        10,000 killers, 1,000 of them broken
    python -m scripts.study_intake --puzzles 400          the same with fewer
    python -m scripts.study_intake --memory 1000 --memory 10000 --memory 100000
    python -m scripts.study_intake --classics             classics instead
    python -m scripts.study_intake --small --memory ...   4x4 killers, where time is short

The killers are disguises of the reference data's: lines and bands reordered, so that no two are the same
file and every one has its known number of solutions. The goals are for the clock on the wall, on a machine
that has nothing else to do; the processor time, of all processes together, hardly depends on that. Exit 1: a
goal was missed, or a verdict was wrong.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path
from random import Random
from typing import Annotated, Any

import psutil
import typer

from scripts.setting.disguises import disguised
from scripts.timing.textbook import textbook_count
from tests.reference import FOLDER, puzzle_of, read_records
from tests.verdict.hearings import NONE, ONE, TWO
from verifier.intake.ledger import existing_ledger
from verifier.puzzle.puzzle import Credits, Puzzle
from verifier.puzzle.writing import write_puzzle

__all__ = ["main"]

_JOBS = 2
_RATIO_GOAL, _BASELINE_GOAL, _MEMORY_GOAL = 1.8, 1.0, 1.1
_LOOK_EVERY = 0.2  # seconds between two looks at the memory


@dataclass(frozen=True)
class Case:
    """A puzzle and whether it has exactly one solution."""

    puzzle: Puzzle
    sound: bool


_SMALL = [Case(ONE, True), Case(TWO, False), Case(NONE, False)]


@dataclass(frozen=True)
class Figures:
    """What one run took: seconds on the clock and of processors; the most bytes of parent and of a worker."""

    seconds: float
    processors: float
    parent: int = 0
    worker: int = 0


def main(
    puzzles: Annotated[int, typer.Option(help="Killers; one in ten of them is broken.")] = 10_000,
    memory: Annotated[
        list[int] | None, typer.Option(help="Measure memory with so many, again and again.")
    ] = None,
    classics: Annotated[bool, typer.Option(help="Classics instead of killers.")] = False,
    small: Annotated[bool, typer.Option(help="Killers of 4x4, for memory.")] = False,
) -> None:
    """Measure the intake."""
    cases = _SMALL if small else _cases("classic_hard.jsonl" if classics else "generated.jsonl")
    with tempfile.TemporaryDirectory() as folder:
        missed = _memory(cases, memory, Path(folder)) if memory else _rate(cases, puzzles, Path(folder))
    raise typer.Exit(int(missed))


def _rate(cases: list[Case], number: int, folder: Path) -> bool:
    box = folder / "box.yaml"
    chosen = list(islice(_box(cases, number), number))
    _write(box, iter(chosen))
    both = _run(box, folder / "two.db", _JOBS)
    wrong = _wrong(folder / "two.db", chosen)
    one = _run(box, folder / "one.db", 1)
    baseline = _baseline(chosen)
    ratio, against = one.seconds / both.seconds, baseline.seconds / both.seconds
    broken = sum(not case.sound for case in chosen)
    print(f"{number:,} puzzles, {broken:,} of them broken; {wrong} verdicts wrong")
    for name, taken in (
        (f"intake, {_JOBS} jobs", both),
        ("intake, 1 job", one),
        (f"textbook count alone, pool of {_JOBS}", baseline),
    ):
        rate = f"{taken.seconds:8.1f} s  {number / taken.seconds:8.1f} a second"
        print(f"{name:34} {rate}  {1000 * taken.processors / number:6.1f} ms of processors a puzzle")
    print(f"two jobs to one: {ratio:.2f} (goal {_RATIO_GOAL})")
    print(f"intake to the textbook count: {against:.2f} (goal {_BASELINE_GOAL})")
    return wrong > 0 or ratio < _RATIO_GOAL or against < _BASELINE_GOAL


def _memory(cases: list[Case], numbers: list[int], folder: Path) -> bool:
    """Measure memory, duplicates left out; puzzles of the first box are there again in the larger ones."""
    taken = []
    for number in numbers:
        box = folder / f"{number}.yaml"
        _write(box, islice(_box(cases, number), number))
        figures = _run(box, folder / f"{number}.db", _JOBS, "--no-duplicates")
        taken.append(figures)
        parent, worker = figures.parent / 2**20, figures.worker / 2**20
        rate = number / figures.seconds
        memory = f"parent {parent:6.1f} MiB, worker {worker:6.1f} MiB"
        print(f"{number:9,} puzzles: {memory}, {rate:7.1f} a second", flush=True)
    growth: float = max(
        max(getattr(f, who) for f in taken) / getattr(taken[0], who) for who in ("parent", "worker")
    )
    print(f"largest to first: {growth:.2f} (goal at most {_MEMORY_GOAL})")
    return growth > _MEMORY_GOAL


def _run(box: Path, ledger: Path, jobs: int, *more: str) -> Figures:
    command = "from verifier.cli import main; main()"
    words = [
        "intake",
        str(box),
        "--ledger",
        str(ledger),
        "--out",
        f"{ledger}-out",
        "--jobs",
        str(jobs),
        *more,
    ]
    started, before = time.perf_counter(), _processors()
    process = psutil.Popen(
        [sys.executable, "-c", command, *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    parent = worker = 0
    while process.poll() is None:
        try:
            parent = max(parent, process.memory_info().rss)
            worker = max(worker, *(child.memory_info().rss for child in process.children()), 0)
        except psutil.Error:  # one of them has just ended
            pass
        time.sleep(_LOOK_EVERY)
    return Figures(time.perf_counter() - started, _processors() - before, parent, worker)


def _processors() -> float:
    """Return the processor time of all processes that this one has started and that have ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _baseline(cases: list[Case]) -> Figures:
    """Return what a pool takes to count the same puzzles, read already, as a textbook would."""
    puzzles = [case.puzzle for case in cases]
    started, before = time.perf_counter(), _processors()
    with ProcessPoolExecutor(_JOBS) as pool:
        counts = list(pool.map(textbook_count, puzzles, chunksize=20))
    figures = Figures(time.perf_counter() - started, _processors() - before)
    assert [count == 1 for count in counts] == [case.sound for case in cases]
    return figures


def _wrong(ledger: Path, cases: list[Case]) -> int:
    """Return how many verdicts are not what is known of the puzzles, lacking ones included."""
    known = {case.puzzle.credits.id: case.sound for case in cases}
    with existing_ledger(ledger) as opened:
        states = dict(opened.rows("SELECT id, state FROM submissions"))
    return sum(states.get(name) != ("accepted" if sound else "rejected") for name, sound in known.items())


def _box(cases: list[Case], number: int) -> Iterator[Case]:
    """Yield disguises of the cases, one in ten of them broken, each with an id of its own."""
    rng = Random(20261125)
    shelves = ([case for case in cases if case.sound], [case for case in cases if not case.sound])
    for place in range(number):
        shelf = shelves[place % 10 == 9 and bool(shelves[1])]
        case = shelf[place % len(shelf)]
        puzzle = replace(disguised(case.puzzle, rng), credits=Credits(f"d{place}"))
        yield replace(case, puzzle=puzzle)


def _write(box: Path, cases: Iterator[Case]) -> None:
    with box.open("w", encoding="utf-8") as out:
        for case in cases:
            out.write(f"---\n{write_puzzle(case.puzzle)}")


def _cases(name: str) -> list[Case]:
    records: list[dict[str, Any]] = read_records(FOLDER / name)
    wanted = [r for r in records if r["rows"] == 9 and r["solutions"] is not None]
    return [Case(puzzle_of(record), record["solutions"] == 1) for record in wanted]


if __name__ == "__main__":
    typer.run(main)

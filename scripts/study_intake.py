"""What the intake costs: rate, two jobs against one, against the textbook count, memory, and the start.

    python -m scripts.study_intake                        all of it, one after the other
    python -m scripts.study_intake --only killers         one part: killers, classics, memory or start
    python -m scripts.study_intake --puzzles 400 --sample 100 --memory 200 --memory 2000

- *killers*: a box of 10,000 killers, 1,000 of them broken, on two processes; the textbook CP-SAT count alone
  over the same killers with a pool of two; and, over the first thousand of them, one process against two.
- *classics*: the same for 2,000 hard classics, and once more under a house style that stops beyond tier 5.
- *memory*: of parent and workers for 1,000, 10,000 and 100,000 killers of 4x4, duplicates left out. What
  killers of 9x9 take stands with the rates: a thousand in the sample, 10,000 in the box.
- *start*: a whole `check` of one killer against the bare import of ortools.

The goals are for the clock on the wall, on a machine that has nothing else to do; the processor time, of all
processes together, hardly depends on that. Exit 1: a goal was missed, or a verdict was wrong.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from enum import Enum
from itertools import islice
from math import inf, isinf
from pathlib import Path
from statistics import median
from typing import Annotated

import typer

from scripts.timing.boxes import SMALL, Case, cases_in, disguises, write_box, wrong_in
from scripts.timing.runs import GRIDPROOF, Figures, measured, measured_while
from scripts.timing.textbook import textbook_count

__all__ = ["main"]

_JOBS = 2
_RATIO_GOAL, _MEMORY_GOAL, _START_GOAL = 1.8, 1.1, 1.5
_KILLERS_GOAL, _CLASSICS_GOAL, _STOPPED_GOAL = 1.5, 0.15, 0.5
"""How many times as fast as the textbook count."""
_STOPPED_STYLE = "name: up to tier 5\ntiers: [1, 2, 3, 4, 5]\nstop_beyond_tiers: yes\n"
_STARTS = 15
_BARE_IMPORT = (sys.executable, "-c", "from ortools.sat.python import cp_model")


class Part(Enum):
    """What can be measured by itself."""

    KILLERS = "killers"
    CLASSICS = "classics"
    MEMORY = "memory"
    START = "start"


def main(
    only: Annotated[list[Part] | None, typer.Option(help="Parts to measure; all when absent.")] = None,
    puzzles: Annotated[int, typer.Option(help="Killers; one in ten of them is broken.")] = 10_000,
    sample: Annotated[int, typer.Option(help="Those on which one process is compared with two.")] = 1000,
    classics: Annotated[int, typer.Option(help="Classics.")] = 2000,
    memory: Annotated[list[int] | None, typer.Option(help="Sizes of the boxes for memory.")] = None,
) -> None:
    """Measure the intake."""
    met: list[bool] = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for part in only or Part:
            if part is Part.KILLERS:
                met += _rates("generated.jsonl", puzzles, sample, folder)
            elif part is Part.CLASSICS:
                met += _rates("classic_hard.jsonl", classics, min(sample, classics), folder)
            elif part is Part.MEMORY:
                met += _memory(memory or [1000, 10_000, 100_000], folder)
            else:
                met += _start(folder)
    raise typer.Exit(int(not all(met)))


def _rates(name: str, number: int, sample: int, folder: Path) -> Iterator[bool]:
    """Measure and tell the rates; yield whether each goal is met."""
    chosen = list(islice(disguises(cases_in(name)), number))
    broken = sum(not case.sound for case in chosen)
    _say(f"{name}: {number:,} puzzles, {broken:,} of them broken")
    box = write_box(folder / f"{name}.yaml", chosen)
    repairs = ("--repairs", max(1, number // 100))  # of a smaller box as many, for its size, as of 10,000
    whole = _judged(box, folder / f"{name}.db", _JOBS, *repairs)
    _tell(f"intake, {_JOBS} processes", number, whole)
    wrong = wrong_in(folder / f"{name}.db", chosen)
    _say(f"  verdicts wrong: {wrong}")
    yield wrong == 0
    baseline = _baseline(chosen)
    _tell(f"textbook count alone, pool of {_JOBS}", number, baseline)
    goal = _KILLERS_GOAL if chosen[0].puzzle.cages else _CLASSICS_GOAL
    yield _goal("intake to the textbook count", baseline.seconds / whole.seconds, least=goal)
    if not chosen[0].puzzle.cages:
        style = folder / "style.yaml"
        style.write_text(_STOPPED_STYLE, encoding="utf-8")
        stopped = _judged(box, folder / f"{name}-stopped.db", _JOBS, "--style", style, *repairs)
        _tell("intake that stops beyond tier 5", number, stopped)
        yield _goal("that to the textbook count", baseline.seconds / stopped.seconds, least=_STOPPED_GOAL)
    first = write_box(folder / f"{name}-sample.yaml", chosen[:sample])
    repairs = ("--repairs", max(1, sample // 100))
    two, one = (_judged(first, folder / f"{name}-{jobs}.db", jobs, *repairs) for jobs in (_JOBS, 1))
    for jobs, taken in ((_JOBS, two), (1, one)):
        _tell(f"intake of the first {sample:,}, {jobs} process{'es' if jobs > 1 else ''}", sample, taken)
    yield _goal("two processes to one", one.seconds / two.seconds, least=_RATIO_GOAL)


def _memory(numbers: Sequence[int], folder: Path) -> Iterator[bool]:
    """Measure and tell memory; yield whether it is flat from the first box to the largest."""
    _say("memory, killers of 4x4, duplicates left out")
    taken = []
    for number in numbers:
        box = write_box(folder / f"{number}.yaml", islice(disguises(SMALL), number))
        taken.append(_judged(box, folder / f"{number}.db", _JOBS, "--no-duplicates"))
        _tell(f"{number:,} puzzles", number, taken[-1])
    for who in ("parent", "worker"):
        growth = max(getattr(figures, who) for figures in taken) / getattr(taken[0], who)
        yield _goal(f"{who}, largest to first", growth, most=_MEMORY_GOAL)


def _start(folder: Path) -> Iterator[bool]:
    """Measure and tell what a single puzzle takes; yield whether the goal is met."""
    one = write_box(folder / "one.yaml", islice(disguises(cases_in("generated.jsonl")), 1))
    taken: dict[str, list[Figures]] = {"import": [], "check": []}
    for _ in range(_STARTS):  # in turn, so that a busy machine slows both
        taken["import"].append(measured(*_BARE_IMPORT))
        taken["check"].append(measured(*GRIDPROOF, "check", one))
    _say(f"start, medians of {_STARTS}")
    seconds = {name: median(figures.seconds for figures in all_of) for name, all_of in taken.items()}
    processors = {name: median(figures.processors for figures in all_of) for name, all_of in taken.items()}
    for name in taken:
        _say(f"  {name}: {seconds[name]:.3f} s on the clock, {processors[name]:.3f} s of processors")
    yield _goal("check to the bare import of ortools", seconds["check"] / seconds["import"], most=_START_GOAL)


def _judged(box: Path, ledger: Path, jobs: int, *more: object) -> Figures:
    places = ("--ledger", ledger, "--out", f"{ledger}-out")
    return measured(*GRIDPROOF, "intake", box, *places, "--jobs", jobs, *more)


def _baseline(cases: Sequence[Case]) -> Figures:
    """Return what a pool takes to count the same puzzles, read already, as a textbook would."""
    counts: list[int] = []

    def count() -> None:
        with ProcessPoolExecutor(_JOBS) as pool:
            counts.extend(pool.map(textbook_count, (case.puzzle for case in cases), chunksize=20))

    figures = measured_while(count)
    assert [count == 1 for count in counts] == [case.sound for case in cases]
    return figures


def _tell(name: str, number: int, taken: Figures) -> None:
    rate = f"{taken.seconds:8.1f} s  {number / taken.seconds:7.1f} a second"
    work = f"{1000 * taken.processors / number:6.1f} ms of processors each"
    memory = f"  parent {taken.parent / 2**20:.0f} MiB, worker {taken.worker / 2**20:.0f} MiB"
    _say(f"  {name:38} {rate}  {work}{memory if taken.parent else ''}")


def _goal(name: str, ratio: float, *, least: float = 0.0, most: float = inf) -> bool:
    """Tell a ratio and its goal, and return whether it is met."""
    met = least <= ratio <= most
    goal = f"goal at least {least}" if least else "no goal" if isinf(most) else f"goal at most {most}"
    _say(f"  {name}: {ratio:.2f} ({goal}{'' if met else ', missed'})")
    return met


def _say(line: str) -> None:
    print(line, flush=True)  # a study takes long: each line is told as soon as it is known


if __name__ == "__main__":
    typer.run(main)

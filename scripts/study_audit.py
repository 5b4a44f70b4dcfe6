"""Audit steps of every technique over the reference data and drawn killers, and say what they cite too much.

    python -m scripts.study_audit                       20,000 steps: ten minutes of processor time
    python -m scripts.study_audit --drawn 0 --each 1    the reference data alone, a step each: two minutes

Each puzzle is replayed in rounds, and of each technique that occurs in it `--each` steps are taken, `--rare`
of the harder ones, spread over its steps. A technique of which that gives fewer than `--at-least` is looked
for on boards along the way, also where an easier one would do. A step passes if a solver that knows only what
the step cites finds its opposite impossible, and if each of its derived sums follows from its own houses and
cages. Then each premise is left out in turn, and stays out if the step is still proved: houses, cages, sums,
cells.

The table has one line a technique: steps found, steps audited, failed; what an audited step cites on average,
in houses, cages, sums and cells; the share of steps of which something can be left out, and how much of it
on average. Exit 1: a step failed.
"""

from __future__ import annotations

import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, replace
from itertools import islice
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.progress import track
from rich.table import Table

from grader.board.steps import WalkStep
from grader.grading.replay import Replay, replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from scripts.setting.killers import Draft, draw_killer
from tests.reference import load, puzzle_of
from verifier.audit.audit import audit_step, cuttable
from verifier.audit.premises import Premise, premises_of
from verifier.files.reading import read_file
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["Line", "Task", "audited", "main", "top_up"]

ROOT = Path(__file__).resolve().parents[1]
FILES = (
    "killer",
    "killer_derived",
    "generated",
    "classic_hard",
    "classic_misc",
    "classic_human",
    "classic_17",
)
DRAFTS = (
    {2: 2.0, 3: 3.0, 4: 1.0},
    {3: 2.0, 4: 3.0, 5: 1.0},
    {2: 1.0, 4: 2.0, 5: 2.0},
)
"""How large the cages of the drawn killers are."""
RARE_FROM = 4
"""Techniques from this tier on occur so seldom that more of their steps are taken."""
_BOARDS_APART = 3
"""Of so many boards of a solve, one is searched for rare techniques,"""
_OF_A_BOARD = 2
"""and so many steps of each are taken from it."""
KINDS = ("houses", "cages", "sums", "cells")
_PREMISE_KINDS: tuple[type[object], ...] = (House, Cage, LinearSum)


@dataclass
class Line:
    """What was found of one technique."""

    found: int = 0
    audited: int = 0
    failed: list[str] = field(default_factory=list)
    cited: Counter[str] = field(default_factory=Counter)
    cut: Counter[str] = field(default_factory=Counter)
    with_cut: int = 0

    def add(self, other: Line) -> None:
        """Add what was found elsewhere."""
        self.found += other.found
        self.audited += other.audited
        self.failed += other.failed
        self.cited += other.cited
        self.cut += other.cut
        self.with_cut += other.with_cut


@dataclass(frozen=True)
class Task:
    """One puzzle, and how many steps to take of each technique."""

    puzzle: Puzzle
    each: int
    rare: int

    def wanted(self, technique: str) -> int:
        """How many steps to take of a technique."""
        return self.rare if default_tiers().tier_of[technique] >= RARE_FROM else self.each


def main(
    drawn: Annotated[int, typer.Option(help="Killers to draw besides the reference data.")] = 300,
    each: Annotated[int, typer.Option(help="Steps of each technique in each puzzle.")] = 3,
    rare: Annotated[int, typer.Option(help="The same for techniques of tier 4 and above.")] = 40,
    seventeen: Annotated[int, typer.Option(help="Classics with 17 givens to take.")] = 300,
    at_least: Annotated[int, typer.Option(help="Steps of each technique, wherever it is found.")] = 50,
    jobs: Annotated[int | None, typer.Option(help="Processes; as many as cores when absent.")] = None,
) -> None:
    """Print the table."""
    started = time.perf_counter()
    tasks = [Task(puzzle, each, rare) for puzzle in _puzzles(drawn, seventeen)]
    lines: defaultdict[str, Line] = defaultdict(Line)
    with ProcessPoolExecutor(jobs) as pool:
        for found in track(pool.map(audited, tasks, chunksize=4), total=len(tasks), transient=True):
            for technique, line in found.items():
                lines[technique].add(line)
    top_up(lines, tasks, at_least)
    console = Console(width=160)
    console.print(_table(lines))
    for technique, line in lines.items():
        for failed in line.failed[:5]:
            console.print(f"failed: {technique} in {failed}")
    steps = sum(line.audited for line in lines.values())
    console.print(f"{steps:,} steps of {len(tasks)} puzzles in {time.perf_counter() - started:.0f} s")
    raise typer.Exit(any(line.failed for line in lines.values()))


def top_up(lines: dict[str, Line], tasks: Sequence[Task], at_least: int) -> None:
    """Audit steps of techniques of which there are few yet, on any board on the way through a puzzle."""
    for task in track(tasks, description="rare ones", transient=True):
        lacking = [technique for technique in LADDER if lines[technique.id].audited < at_least]
        if not lacking:
            return
        for played in replay(task.puzzle).rounds[::_BOARDS_APART]:
            board = played.board.looking_at(played.board.layout.all_cells)
            for technique in lacking:
                steps = [WalkStep(step, board) for step in islice(technique.find(board), _OF_A_BOARD)]
                line = _line(steps, len(steps), task) if steps else Line()
                lines[technique.id].add(replace(line, found=0))
            lacking = [technique for technique in lacking if lines[technique.id].audited < at_least]


def _puzzles(drawn: int, seventeen: int) -> Iterator[Puzzle]:
    for path in sorted((ROOT / "corpus" / "ladder").iterdir()):
        yield from (entry.puzzle for entry in read_file(path) if entry.puzzle is not None)
    for name in FILES:
        records = [record for record in load(name) if record["solutions"] == 1]
        yield from map(puzzle_of, records[:seventeen] if name == "classic_17" else records)
    grid = Grid.square(9)
    for seed in range(drawn):
        yield draw_killer(grid, Draft(seed, DRAFTS[seed % len(DRAFTS)], 0.1 * (seed % 2)))[0]


def audited(task: Task) -> dict[str, Line]:
    """Replay one puzzle and audit some steps of each technique."""
    found: defaultdict[str, list[WalkStep]] = defaultdict(list)
    for taken in _steps(replay(task.puzzle)):
        found[taken.step.technique].append(taken)
    return {technique: _line(steps, task.wanted(technique), task) for technique, steps in found.items()}


def _steps(played: Replay) -> Iterator[WalkStep]:
    for each in played.rounds:
        for step in each.steps:
            yield WalkStep(step, each.board, each.width)


def _line(steps: list[WalkStep], wanted: int, task: Task) -> Line:
    line = Line(found=len(steps))
    spread = sorted({round(n * (len(steps) - 1) / max(wanted - 1, 1)) for n in range(wanted)})
    for place in spread:
        taken = steps[place]
        line.audited += 1
        if not audit_step(taken).passed:
            line.failed.append(f"{task.puzzle.credits.id}: {taken.step}")
            continue
        line.cited.update(map(_kind, premises_of(taken.step, taken.board)))
        cut = [] if taken.step.technique == "trial" else [_kind(premise) for premise in cuttable(taken)]
        line.cut.update(cut)
        line.with_cut += bool(cut)
    return line


def _kind(premise: Premise) -> str:
    return next((k for k, t in zip(KINDS, _PREMISE_KINDS, strict=False) if isinstance(premise, t)), KINDS[-1])


def _table(lines: dict[str, Line]) -> Table:
    table = Table(title="Steps proved from what they cite", caption="citations: a step, on average")
    table.add_column("technique", no_wrap=True)
    for name in ("found", "audited", "failed", *KINDS, "can be cut", *(f"{kind} cut" for kind in KINDS)):
        table.add_column(name, justify="right")
    for technique in LADDER:
        line = lines.get(technique.id)
        if line is None:
            table.add_row(technique.id, "0", *[""] * (len(table.columns) - 2))
            continue
        proved = max(line.audited - len(line.failed), 1)
        table.add_row(
            technique.id,
            f"{line.found:,}",
            f"{line.audited:,}",
            str(len(line.failed)),
            *(f"{line.cited[kind] / proved:.1f}" for kind in KINDS),
            f"{line.with_cut / proved:.0%}",
            *(f"{line.cut[kind] / proved:.2f}" for kind in KINDS),
        )
    return table


if __name__ == "__main__":
    typer.run(main)

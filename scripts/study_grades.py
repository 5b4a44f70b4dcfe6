"""How the figures of the grade are spread over generated killers and the reference data.

    python -m scripts.study_grades                             2,000 killers and the sets: 25 minutes
    python -m scripts.study_grades --killers 300 --most 200    fewer of each: 4 minutes

The killers are drawn here, with seeds from 1 on: whole grids in 22 to 45 cages, from dominoes to cages of
five, cut or helped by a given until a plain search finds one solution. All times are processor time; the
textbook count of a puzzle runs just before its replay, so that a busy machine slows both alike.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from itertools import chain
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.progress import track
from rich.table import Table

from grader.grading.grade import Grade, grade
from grader.grading.replay import replay
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER
from scripts.setting.killers import Draft, draw_killer
from scripts.timing.series import Series, Stopwatch
from scripts.timing.textbook import textbook_count
from tests.reference import load, puzzle_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["drawn_killer", "main", "measured", "tables"]

DRAWN = "drawn killers"
FILES = ("killer", "generated", "classic_human", "classic_17", "classic_hard", "classic_misc", "classic_pe96")
CAGES = range(22, 46)
MIXES = (
    {1: 1, 2: 3},
    {2: 3, 3: 1},
    {2: 3, 3: 3, 4: 1},
    {2: 2, 3: 3, 4: 2},
    {2: 1, 3: 1, 4: 1, 5: 1},
    {3: 2, 4: 3, 5: 1},
)
"""How often each size of a cage is aimed at; the seeds take turns with them."""

TEXTBOOK, REPLAY = "textbook count", "replay and grade"
ASSUMING = {t.id for t in LADDER if "forcing" in t.id or "contradiction" in t.id}


_SEEDS_APART = 1_000_000


@dataclass(frozen=True)
class Outcome:
    """The grade of one puzzle, and the seconds it took."""

    source: str
    grade: Grade
    seconds: dict[str, float]

    @property
    def without_forcing(self) -> bool:
        """Whether neither trial nor a forcing or contradiction chain was needed."""
        return self.grade.solved_by_logic and not ASSUMING & set(self.grade.by_technique)


Sets = Mapping[str, Sequence[Outcome]]


def main(
    killers: Annotated[int, typer.Option(help="How many killers to draw.")] = 2000,
    most: Annotated[int | None, typer.Option(help="Puzzles of each set, spread evenly over it.")] = None,
    jobs: Annotated[int | None, typer.Option(help="Processes; as many as cores when absent.")] = None,
) -> None:
    """Grade drawn killers and the puzzles with one solution of the reference data."""
    sets = {name: _with_one_solution(name, most) for name in FILES}
    records = [(name, record) for name, chosen in sets.items() for record in chosen]
    with ProcessPoolExecutor(jobs) as pool:
        work = chain(pool.map(_drawn, range(1, killers + 1)), pool.map(_recorded, records))
        outcomes = list(track(work, total=killers + len(records), transient=True))
    console = Console(width=150)
    for table in tables(outcomes):
        console.print(table)


def drawn_killer(number: int) -> Puzzle:
    """Draw the killer of that number: the first of its seeds that gives 22 to 45 cages."""
    for seed in range(number, number + _SEEDS_APART * 100, _SEEDS_APART):
        puzzle, _ = draw_killer(Grid.square(9), Draft(seed, MIXES[number % len(MIXES)]))
        if len(puzzle.cages) in CAGES:
            return puzzle
    raise ValueError(f"no seed of killer {number} gives {CAGES.start} to {CAGES.stop - 1} cages")


def measured(source: str, puzzle: Puzzle) -> Outcome:
    """Grade a puzzle with the clock running."""
    watch = Stopwatch()
    watch.take(TEXTBOOK, lambda: textbook_count(puzzle))
    found = watch.take(REPLAY, lambda: grade(replay(puzzle)))
    return Outcome(source, found, watch.seconds)


def _with_one_solution(name: str, most: int | None) -> list[dict[str, Any]]:
    records = [record for record in load(name) if record["solutions"] == 1]
    return records[:: max(1, -(-len(records) // (most or len(records))))]


def _drawn(number: int) -> Outcome:
    return measured(DRAWN, drawn_killer(number))


def _recorded(named: tuple[str, dict[str, Any]]) -> Outcome:
    return measured(named[0], puzzle_of(named[1]))


def tables(outcomes: Sequence[Outcome]) -> Iterator[Table]:
    """Yield what is shown: the sets, their hardest techniques, effort by tier, and the seconds."""
    sets = {name: [o for o in outcomes if o.source == name] for name in (DRAWN, *FILES)}
    sets = {name: chosen for name, chosen in sets.items() if chosen}
    yield _tiers(sets)
    yield _figures(sets)
    yield _hardest(sets)
    yield _effort_by_tier(sets)
    yield _seconds(sets)


def _tiers(sets: Sets) -> Table:
    tiers = sorted(default_tiers().names)
    table = _table("Tiers", "puzzles", "by logic", "no forcing", *map(str, tiers))
    for name, outcomes in sets.items():
        logic = sum(o.grade.solved_by_logic for o in outcomes)
        plain = sum(o.without_forcing for o in outcomes)
        counts = Counter(o.grade.tier for o in outcomes)
        shares = (f"{100 * part / len(outcomes):.1f} %" for part in (logic, plain))
        table.add_row(name, str(len(outcomes)), *shares, *(str(counts[tier]) for tier in tiers))
    return table


def _figures(sets: Sets) -> Table:
    table = _table("Middle, and 90 in 100 lie between", "rounds", "steps", "effort", "bottleneck rounds")
    for name, outcomes in sets.items():
        grades = [o.grade for o in outcomes]
        table.add_row(
            name,
            _spread(g.rounds for g in grades),
            _spread(g.steps for g in grades),
            _spread(g.effort for g in grades),
            _spread(g.bottleneck_rounds for g in grades),
        )
    return table


def _hardest(sets: Sets) -> Table:
    tier_of = default_tiers().tier_of
    table = Table("technique", "tier", title="Puzzles of which it is the hardest")
    for name in sets:
        table.add_column(name.replace("classic_", ""), justify="right")
    counts = {name: Counter(o.grade.hardest for o in outcomes) for name, outcomes in sets.items()}
    for technique in LADDER:
        row = [counts[name][technique.id] for name in sets]
        if any(row):
            table.add_row(technique.name, str(tier_of[technique.id]), *(str(number or "") for number in row))
    return table


def _effort_by_tier(sets: Sets) -> Table:
    tiers = sorted(default_tiers().names)
    table = _table("Effort by tier: middle, and 90 in 100 lie between", *map(str, tiers))
    for name, outcomes in sets.items():
        by_tier = [[o.grade.effort for o in outcomes if o.grade.tier == tier] for tier in tiers]
        table.add_row(name, *(_spread(efforts) for efforts in by_tier))
    return table


def _seconds(sets: Sets) -> Table:
    table = _table(
        "Milliseconds: mean, median, 95th percentile; and how many times the textbook count the replay takes",
        *("textbook count", "replay and grade", "mean to mean", "95th to 95th"),
    )
    for name, outcomes in sets.items():
        textbook, played = (Series(tuple(o.seconds[part] for o in outcomes)) for part in (TEXTBOOK, REPLAY))
        milliseconds = (
            " ".join(f"{1000 * x:.1f}" for x in (series.mean, series.median, series.p95))
            for series in (textbook, played)
        )
        ratios = (played.mean / textbook.mean, played.p95 / textbook.p95)
        table.add_row(name, *milliseconds, *(f"{ratio:.2f}" for ratio in ratios))
    return table


def _table(title: str, *columns: str) -> Table:
    table = Table(title=title)
    table.add_column("set", no_wrap=True)
    for column in columns:
        table.add_column(column, justify="right", no_wrap=True)
    return table


def _spread(figures: Iterable[int]) -> str:
    ordered = sorted(figures)
    if not ordered:
        return ""
    low, middle, high = (ordered[round(share * (len(ordered) - 1))] for share in (0.05, 0.5, 0.95))
    return f"{middle} ({low}-{high})" if len(ordered) > 1 else str(middle)


if __name__ == "__main__":
    typer.run(main)

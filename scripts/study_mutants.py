"""Change one operator, constant or condition at a time, and see whether a test notices.

    python -m scripts.study_mutants                               40 mutants of each package
    python -m scripts.study_mutants --package rules --sample 0    every mutant of one package

Mutants are drawn with a fixed seed and tried in a copy of the project, never in the checkout. One that
survives is a gap in the tests, or changes nothing that anybody could see: then it is entered with the reason
in `scripts/mutants/equivalent.yaml`. Exit 0: the goals are met (every mutant of the protocol of the
witnesses, of the rules and of both counts; nineteen in twenty of the grader); 1: they are not.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from random import Random
from typing import Annotated

import typer
import yaml
from rich.console import Console
from rich.progress import track
from rich.table import Table

from scripts.mutants.making import Mutant, mutants_of
from scripts.mutants.packages import PACKAGES, ROOT, Package
from scripts.mutants.trying import copy_of_the_project, noticed

__all__ = ["EQUIVALENT", "all_mutants", "equivalent", "main"]

EQUIVALENT = Path(__file__).with_name("mutants") / "equivalent.yaml"

_PATIENCE = 4.0  # times as long as the tests take without a mutant


@dataclass(frozen=True)
class Tried:
    """What came of the mutants of a package."""

    package: Package
    all: int
    killed: int
    survived: tuple[Mutant, ...]
    equivalent: int

    @property
    def goal_met(self) -> bool:
        """Whether enough of them are killed or equivalent."""
        tried = self.killed + len(self.survived) + self.equivalent
        return self.killed + self.equivalent >= self.package.goal * tried


def main(
    package: Annotated[list[str] | None, typer.Option(help="Packages to take; all when absent.")] = None,
    sample: Annotated[int, typer.Option(help="Mutants of each package; 0 for every one.")] = 40,
    seed: Annotated[int, typer.Option(help="The same seed draws the same mutants.")] = 1,
    jobs: Annotated[int, typer.Option(help="Mutants tried at once, each in a copy of its own.")] = 2,
) -> None:
    """Print a table by package, and the mutants that survived."""
    names = {chosen.name: chosen for chosen in PACKAGES}
    unknown = set(package or ()) - names.keys()
    if unknown:
        raise typer.BadParameter(f"found {min(unknown)!r}; there are {', '.join(names)}")
    console, results = Console(width=110), []
    for name in package or names:
        results.append(_tried(names[name], sample, Random(f"{seed} {name}"), jobs))
        for mutant in results[-1].survived:
            console.print(f"survived, line {mutant.line}: {mutant.key}", markup=False, soft_wrap=True)
    console.print(_table(results))
    raise typer.Exit(not all(result.goal_met for result in results))


def all_mutants(package: Package) -> list[Mutant]:
    """Return every mutant of a package."""
    return [
        mutant
        for path in package.files()
        for mutant in mutants_of(path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8"))
    ]


def equivalent() -> dict[str, str]:
    """Return the mutants that change nothing anybody could see: their keys, and why."""
    known: dict[str, str] = yaml.safe_load(EQUIVALENT.read_text(encoding="utf-8")) or {}
    return known


def _tried(package: Package, sample: int, rng: Random, jobs: int) -> Tried:
    mutants = all_mutants(package)
    chosen = rng.sample(mutants, min(sample, len(mutants))) if sample else mutants
    known = equivalent()
    open_ones = [mutant for mutant in chosen if mutant.key not in known]
    survived = sorted(_survivors(package, open_ones, jobs), key=lambda one: (one.module, one.line, one.key))
    killed = len(open_ones) - len(survived)
    return Tried(package, len(mutants), killed, tuple(survived), len(chosen) - len(open_ones))


def _survivors(package: Package, mutants: Sequence[Mutant], jobs: int) -> Iterator[Mutant]:
    """Try mutants, each in a copy of the project; yield those that nobody noticed."""
    copies: SimpleQueue[Path] = SimpleQueue()
    with ExitStack() as stack, ThreadPoolExecutor(jobs) as pool:
        for _ in range(jobs):
            copies.put(stack.enter_context(copy_of_the_project()))
        limits = {mutant.module: 0.0 for mutant in mutants}
        for module in track(limits, description=f"{package.name}: without mutants", transient=True):
            limits[module] = _limit(copies, package.tests_for(module))

        def tried(mutant: Mutant) -> bool:
            with _one_of(copies) as copy:
                return noticed(copy, mutant, package.tests_for(mutant.module), limits[mutant.module])

        verdicts = track(pool.map(tried, mutants), package.name, len(mutants), transient=True)
        yield from (mutant for mutant, killed in zip(mutants, verdicts, strict=True) if not killed)


@contextmanager
def _one_of(copies: SimpleQueue[Path]) -> Iterator[Path]:
    copy = copies.get()
    try:
        yield copy
    finally:
        copies.put(copy)


def _limit(copies: SimpleQueue[Path], tests: Sequence[str]) -> float:
    """Return how long tests may take with a mutant; they must pass without one."""
    started = time.monotonic()
    with _one_of(copies) as copy:
        failed = noticed(copy, None, tests, 3600)
    if failed:
        raise typer.BadParameter(f"the tests fail without any mutant: {' '.join(tests)}")
    return 30 + _PATIENCE * (time.monotonic() - started)


def _table(results: Sequence[Tried]) -> Table:
    table = Table("package", title="mutants")
    for name in ("all", "tried", "killed", "survived", "equivalent", "goal"):
        table.add_column(name, justify="right")
    for result in results:
        tried = result.killed + len(result.survived) + result.equivalent
        numbers = (result.all, tried, result.killed, len(result.survived), result.equivalent)
        goal = f"{result.package.goal:.0%} {'met' if result.goal_met else 'missed'}"
        table.add_row(result.package.name, *map(str, numbers), goal)
    return table


if __name__ == "__main__":
    typer.run(main)

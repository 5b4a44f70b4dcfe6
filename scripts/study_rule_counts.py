"""Count small random puzzles with each kind of rule in three ways that share nothing, and compare.

    python -m scripts.study_rule_counts                        200 puzzles of each kind
    python -m scripts.study_rule_counts --count 20 --kind renban --kind arrow

The count, the recount and the plain search of the corpus builder look for up to 30 solutions of each puzzle,
4x4 and 6x6 for the most part, some with a wrong clue. Where a search comes to its end, it must have found
the same solutions as the others; each solution is held against the rules. Exit 1: some differ.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import islice
from typing import Annotated

import typer
from rich.console import Console
from rich.progress import track
from rich.table import Table

from scripts.setting.plain import Exhausted, find_solutions
from scripts.setting.small import KINDS, small_puzzle
from verifier.counting.count import count_solutions
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.recount.recount import recount_solutions

__all__ = ["Found", "found_by_all", "main"]

_MOST = 30
"""Solutions that are looked for."""

_TRIES = 3000
"""The plain search gives a puzzle up after so many tries; the two others are compared all the same."""


@dataclass(frozen=True, slots=True)
class Found:
    """What the three say of a puzzle: the solutions, at most 30; None where one gave up."""

    kind: str
    seed: int
    counted: tuple[Filling, ...] | None
    recounted: tuple[Filling, ...] | None
    plain: tuple[Filling, ...] | None

    @property
    def agreed(self) -> bool:
        """Whether all that came to an end say the same."""
        said = [found for found in (self.counted, self.recounted, self.plain) if found is not None]
        several = [len(found) for found in said if len(found) == _MOST]
        return (
            several == [_MOST] * len(said) if several else len({tuple(sorted(found)) for found in said}) == 1
        )

    @property
    def solutions(self) -> str:
        """How many there are, in a word."""
        number = len(self.counted or ())
        return "none" if number == 0 else "one" if number == 1 else "several"


def main(
    count: Annotated[int, typer.Option(help="Puzzles of each kind.")] = 200,
    kind: Annotated[
        list[str] | None, typer.Option(help=f"One of {', '.join(KINDS)}; all when absent.")
    ] = None,
    jobs: Annotated[int | None, typer.Option(help="Processes; as many as cores when absent.")] = None,
) -> None:
    """Hold the count, the recount and the plain search against one another."""
    tasks = [(name, seed) for name in kind or KINDS for seed in range(count)]
    with ProcessPoolExecutor(jobs) as pool:
        found = list(track(pool.map(_found, tasks, chunksize=10), total=len(tasks), transient=True))
    console = Console(width=110)
    console.print(_table(found))
    wrong = [each for each in found if not each.agreed]
    for each in wrong:
        console.print(f"{each.kind}, seed {each.seed}: they differ")
    raise typer.Exit(bool(wrong))


def found_by_all(kind: str, seed: int) -> Found:
    """Return what the three find.

    Raises
    ------
    AssertionError
        If one of them finds what obeys not all rules.
    """
    puzzle = small_puzzle(kind, seed)
    said = [search(puzzle) for search in (_counted, _recounted, _plainly)]
    assert all(solves(puzzle, filling) for found in said for filling in found or ()), (kind, seed)
    return Found(kind, seed, *said)


def _found(task: tuple[str, int]) -> Found:
    return found_by_all(*task)


def _counted(puzzle: Puzzle) -> tuple[Filling, ...] | None:
    tally = count_solutions(puzzle, _MOST)
    return tally.solutions if tally.complete or tally.count == _MOST else None


def _recounted(puzzle: Puzzle) -> tuple[Filling, ...] | None:
    tally = recount_solutions(puzzle, _MOST)
    return tally.solutions if tally.complete or tally.count == _MOST else None


def _plainly(puzzle: Puzzle) -> tuple[Filling, ...] | None:
    try:
        return tuple(islice(find_solutions(puzzle, _TRIES), _MOST))
    except Exhausted:
        return None


def _table(found: Sequence[Found]) -> Table:
    table = Table("rule", title=f"Up to {_MOST} solutions, found in three ways")
    columns: Mapping[str, Callable[[Found], bool]] = {
        "puzzles": lambda _: True,
        **{word: partial(_has, word) for word in ("none", "one", "several")},
        "differ": lambda each: not each.agreed,
        "count gave up": lambda each: each.counted is None,
        "recount gave up": lambda each: each.recounted is None,
        "plain gave up": lambda each: each.plain is None,
    }
    for name in columns:
        table.add_column(name, justify="right")
    met = Counter((each.kind, name) for each in found for name, counts in columns.items() if counts(each))
    for kind in dict.fromkeys(each.kind for each in found):
        table.add_row(kind, *(str(met[kind, name]) for name in columns))
    return table


def _has(word: str, each: Found) -> bool:
    return each.solutions == word


if __name__ == "__main__":
    typer.run(main)

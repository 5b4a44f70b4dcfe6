"""How long each part of a verdict takes, against the textbook CP-SAT count of the same puzzles.

    python -m scripts.benchmark                          killers and classics of the reference data
    python -m scripts.benchmark --cases FILE --limit 50  another file in the same format: variants.jsonl
    python -m scripts.benchmark --models --limit 40      which form of the model counts fastest

Everything runs in this one process, part after part for one puzzle after the other, so that a busy
machine slows all parts alike; what is taken is processor time, not the clock on the wall. Exit 1: on
killers, or puzzles of other rules, with one solution a goal was missed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.progress import track
from rich.table import Table

from scripts.timing.forms import FORMS, Form
from scripts.timing.parts import PARTS, TEXTBOOK, Case, goals_for, seconds_by_part
from scripts.timing.series import Series, Stopwatch
from scripts.timing.textbook import count_up_to_two
from tests.reference import folder, puzzle_of, read_records
from verifier.files.writing import write_puzzle
from verifier.puzzle.puzzle import Puzzle

__all__ = ["main"]

_PATIENCE = 20.0  # seconds for one puzzle in one form of the model


def main(
    cases: Annotated[list[Path] | None, typer.Option(help="Files in the reference format.")] = None,
    limit: Annotated[int | None, typer.Option(help="Puzzles of each file, from the first.")] = None,
    unsound: Annotated[bool, typer.Option(help="Also puzzles without exactly one solution.")] = False,
    models: Annotated[bool, typer.Option(help="Compare the forms of the model instead.")] = False,
) -> None:
    """Time each part of a verdict against the textbook CP-SAT count."""
    console, missed = Console(width=110), False
    for path in cases or [folder() / "generated.jsonl", folder() / "classic_hard.jsonl"]:
        puzzles = _puzzles(path, limit, unsound=unsound)
        if models:
            console.print(_forms_table(path.name, puzzles))
            continue
        figures = _figures(puzzles)
        goals = {} if unsound else goals_for(puzzles)
        console.print(_parts_table(path.name, figures, goals))
        missed |= any(_missed(figures, part, goal) for part, goal in goals.items())
    raise typer.Exit(int(missed))


def _puzzles(path: Path, limit: int | None, *, unsound: bool) -> list[Puzzle]:
    if not path.is_file():
        raise typer.BadParameter(f"found no file {path}; name one in the reference format")
    records = [record for record in read_records(path) if unsound or record["solutions"] == 1][:limit]
    if not records:
        raise typer.BadParameter(f"found no puzzle in {path} to take; --unsound takes all")
    return [puzzle_of(record) for record in records if not record.get("hard")]


def _figures(puzzles: Sequence[Puzzle]) -> dict[str, Series]:
    cases = [Case(puzzle, write_puzzle(puzzle).encode()) for puzzle in puzzles]
    seconds_by_part(cases[0])  # what is imported or made once for all puzzles is not counted
    taken = [seconds_by_part(case) for case in track(cases, transient=True)]
    return {part: Series(tuple(seconds.get(part, 0.0) for seconds in taken)) for part in PARTS}


def _missed(figures: Mapping[str, Series], part: str, goal: float) -> bool:
    return figures[part].mean > goal * figures[TEXTBOOK].mean


def _parts_table(name: str, figures: Mapping[str, Series], goals: Mapping[str, float]) -> Table:
    table = _table(f"{name}: {len(figures[TEXTBOOK].seconds)} puzzles", "part")
    table.add_column("goal", justify="right")
    for part in PARTS:
        goal = goals.get(part)
        said = "" if goal is None else f"{goal:.2f}{' missed' if _missed(figures, part, goal) else ''}"
        table.add_row(part, *_cells(figures[part], figures[TEXTBOOK]), said)
    return table


def _forms_table(name: str, puzzles: Sequence[Puzzle]) -> Table:
    table = _table(f"{name}: {len(puzzles)} puzzles, at most {_PATIENCE:.0f} s each", "form of the model")
    table.add_column("build", justify="right")
    table.add_column("most", justify="right")
    yardstick = Series(())
    for form in track(FORMS, transient=True):
        builds, counts = _form_series(form, puzzles)
        yardstick = yardstick if yardstick.seconds else counts  # the first form is the textbook's
        most = f"{1000 * max(counts.seconds):.0f}"
        table.add_row(form.name, *_cells(counts, yardstick), f"{1000 * builds.mean:.2f}", most)
    return table


def _form_series(form: Form, puzzles: Sequence[Puzzle]) -> tuple[Series, Series]:
    """Return the seconds to build the models of a form, and those to build and solve them."""
    build, whole = [], []
    for puzzle in (puzzles[0], *puzzles):  # the first time only warms up
        watch = Stopwatch()
        model = watch.take("build", partial(form.build, puzzle))
        watch.take("solve", partial(count_up_to_two, model, form.parameters, _PATIENCE))
        build.append(watch.seconds["build"])
        whole.append(sum(watch.seconds.values()))
    return Series(tuple(build[1:])), Series(tuple(whole[1:]))


def _table(title: str, first: str) -> Table:
    table = Table(
        first, title=title, caption="milliseconds of processor time; ratio of the means to the first line's"
    )
    for name in ("mean", "median", "95th", "ratio"):
        table.add_column(name, justify="right")
    return table


def _cells(series: Series, yardstick: Series) -> Iterator[str]:
    for figure in (series.mean, series.median, series.p95):
        yield f"{1000 * figure:.2f}"
    yield f"{series.mean / yardstick.mean:.2f}"


if __name__ == "__main__":
    typer.run(main)

"""Kill a run of the intake with SIGKILL, again and again, and compare what it ends with.

    python -m scripts.study_killed                 50 kills over the killers of the reference data
    python -m scripts.study_killed --kills 10 --puzzles 60

Every second time the whole group of processes is killed, else the parent alone. Exit 1: verdict files,
letters, lists or the ledger's export are not those of an undisturbed run, or a worker outlived its parent.
"""

from __future__ import annotations

import tempfile
import time
from dataclasses import replace
from pathlib import Path
from random import Random
from typing import Annotated

import typer
from rich.progress import track

from tests.intake.runs import Runs, orphans_of
from tests.reference import load, puzzle_of
from verifier.files.writing import write_puzzle
from verifier.puzzle.puzzle import Credits

__all__ = ["main"]


def main(
    kills: Annotated[int, typer.Option(help="How often to kill.")] = 50,
    puzzles: Annotated[int, typer.Option(help="Killers in the box, at most 200.")] = 200,
) -> None:
    """Kill runs, finish them, and compare."""
    rng = Random(20261125)
    with tempfile.TemporaryDirectory() as folder:
        box = _box(Path(folder), puzzles)
        whole = Runs(box, Path(folder) / "undisturbed")
        started = time.monotonic()
        whole.finish()
        seconds = time.monotonic() - started
        hits = orphans = rounds = different = 0
        progress = iter(track(range(kills), transient=True))
        while hits < kills:
            rounds += 1
            runs = Runs(box, Path(folder) / f"killed-{rounds}")
            hit, left = _killed_to_the_end(runs, seconds, rng, kills - hits)
            for _ in range(hit):
                next(progress)
            hits, orphans = hits + hit, orphans + left
            different += runs.result() != whole.result()
    print(
        f"{puzzles} puzzles, {seconds:.1f} s undisturbed; {hits} kills of a run at work, in {rounds} runs; "
        f"{different} runs ended otherwise; {orphans} workers outlived their parents"
    )
    raise typer.Exit(int(different > 0 or orphans > 0))


def _killed_to_the_end(runs: Runs, seconds: float, rng: Random, most: int) -> tuple[int, int]:
    """Kill one run until it ends by itself; return how many kills hit it, and how many workers were left."""
    hits = orphans = 0
    while hits < most:
        process = runs.begin()
        time.sleep(rng.uniform(0.1, 0.5) * seconds)
        if process.poll() is not None:
            break
        orphans += orphans_of(process, group=hits % 2 == 1)
        hits += 1
    runs.finish()
    return hits, orphans


def _box(folder: Path, number: int) -> Path:
    box = folder / "box"
    box.mkdir()
    records = [record for record in load("generated") if record["rows"] == 9]
    for record in records[:number]:
        puzzle = replace(puzzle_of(record), credits=Credits(record["id"], None, "Wren Alder"))
        (box / f"{record['id']}.yaml").write_text(write_puzzle(puzzle), encoding="utf-8")
    return box


if __name__ == "__main__":
    typer.run(main)

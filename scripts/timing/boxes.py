"""Boxes to judge: disguises of the reference data's puzzles, as many as asked for.

Lines and bands are reordered, so that no two are the same file and every one has its known number of
solutions.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from random import Random

from scripts.setting.disguises import disguised
from tests.evidence.stand_ins import NONE, ONE, TWO
from tests.reference import load, puzzle_of
from verifier.files.writing import write_puzzle
from verifier.intake.ledger.ledger import existing_ledger
from verifier.puzzle.puzzle import Credits, Puzzle

__all__ = ["SMALL", "Case", "cases_in", "disguises", "write_box", "wrong_in"]


@dataclass(frozen=True)
class Case:
    """A puzzle and whether it has exactly one solution."""

    puzzle: Puzzle
    sound: bool


SMALL = (Case(ONE, True), Case(TWO, False), Case(NONE, False))
"""Killers of 4x4."""


def cases_in(name: str) -> list[Case]:
    """Return the puzzles of 9x9 in a file of the reference data whose number of solutions is known."""
    records = [r for r in load(name) if r["rows"] == 9 and r["solutions"] is not None]
    return [Case(puzzle_of(record), record["solutions"] == 1) for record in records]


def disguises(cases: Iterable[Case]) -> Iterator[Case]:
    """Yield disguises of the cases without end, each with an id of its own.

    One in ten is broken, where any is; those before it are sound.
    """
    rng, cases = Random(20261125), list(cases)
    sound, broken = ([case for case in cases if case.sound is wanted] for wanted in (True, False))
    for place in count():
        shelf = broken if broken and place % 10 == 9 else sound
        case = shelf[place % len(shelf)]
        yield replace(case, puzzle=replace(disguised(case.puzzle, rng), credits=Credits(f"d{place}")))


def write_box(path: Path, cases: Iterable[Case]) -> Path:
    """Write puzzles into one file, as they come."""
    with path.open("w", encoding="utf-8") as out:
        for case in cases:
            out.write(f"---\n{write_puzzle(case.puzzle)}")
    return path


def wrong_in(ledger: Path, cases: Iterable[Case]) -> int:
    """Return how many verdicts of a ledger are not what is known of the puzzles, lacking ones included."""
    with existing_ledger(ledger) as opened:
        states = dict(opened.rows("SELECT id, state FROM submissions"))
    known = {case.puzzle.credits.id: "accepted" if case.sound else "rejected" for case in cases}
    return sum(states.get(name) != state for name, state in known.items())

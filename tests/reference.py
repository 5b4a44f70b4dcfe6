"""The reference data: published instances and facts, kept beside the checkout and read only by tests.

The folder is ``$GRIDPROOF_REFERENCE`` or ``../shared/reference`` beside the checkout. Where it is absent,
a test that needs it is skipped with a reason; with ``CI=true`` its absence is a failure.
"""

from __future__ import annotations

import json
import os
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from verifier.puzzle.grid import Grid
from verifier.puzzle.parts import Cage
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.tally import Tally

__all__ = ["FOLDER", "as_recorded", "facts", "folder", "load", "puzzle_of", "read_records", "solution_of"]

FOLDER = Path(
    os.environ.get("GRIDPROOF_REFERENCE") or Path(__file__).resolve().parents[2] / "shared" / "reference"
)
"""Where the reference data is, if it is there."""


def folder() -> Path:
    """Return the folder of the reference data; skip the test, or fail it in CI, where there is none."""
    if not FOLDER.is_dir():
        reason = "no reference data: set GRIDPROOF_REFERENCE to its folder"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return FOLDER


def load(name: str) -> list[dict[str, Any]]:
    """Return the records of one file, such as ``killer.jsonl`` (the ending may be left out)."""
    return read_records((folder() / name).with_suffix(".jsonl"))


def read_records(path: Path) -> list[dict[str, Any]]:
    """Return the records of a JSON Lines file in the format of the reference data."""
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]


@lru_cache(maxsize=1)
def facts() -> dict[str, Any]:
    """Return the published counts and facts, each with its source."""
    loaded: dict[str, Any] = yaml.safe_load((folder() / "facts.yaml").read_text(encoding="utf-8"))
    return loaded


def puzzle_of(record: dict[str, Any]) -> Puzzle:
    """Build the puzzle of a killer's or a classic's record."""
    rows, columns = record["rows"], record["cols"]
    box_rows, box_columns = record["box"]
    grid = Grid(rows, columns, box_rows, box_columns, digits=rows)
    cages = [
        Cage(tuple((r - 1) * columns + c - 1 for r, c in cage["cells"]), cage["sum"])
        for cage in record.get("cages") or ()
    ]
    return make_puzzle(
        record["kind"],
        grid,
        cages=cages,
        givens={cell: digit for cell, digit in enumerate(_digits(record.get("givens"))) if digit},
        credits=Credits(record["id"]),
    )


def solution_of(record: dict[str, Any]) -> tuple[int, ...] | None:
    """Return the recorded solution, or None where there is not exactly one."""
    return tuple(_digits(record["solution"])) if record.get("solution") else None


def as_recorded(record: dict[str, Any], tally: Tally) -> bool:
    """Whether a witness says what is recorded: ``0``, ``1`` with its solution, or ``2+``."""
    if record["solutions"] == "2+":
        return tally.count >= 2
    right_grid = tally.count != 1 or solution_of(record) in (None, tally.solutions[0])
    return tally.complete and tally.count == record["solutions"] and right_grid


def _digits(written: str | list[int] | None) -> list[int]:
    if written is None:
        return []
    return [0 if mark in (".", 0) else int(mark) for mark in written]

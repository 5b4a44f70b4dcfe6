"""The reference data: published instances and facts, read only by tests and studies, and never committed.

The environment variable `GRIDPROOF_REFERENCE` alone names its folder. A test that reads it bears the mark
``reference``; `tests/conftest.py` hides the folder from all others.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from typing import Any

import typer
import yaml

from verifier.files.reading import read_text
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.tally import Tally

__all__ = [
    "VARIABLE",
    "NoReferenceError",
    "as_recorded",
    "facts",
    "file_of",
    "folder",
    "hidden",
    "load",
    "puzzle_of",
    "read_records",
    "solution_of",
]

VARIABLE = "GRIDPROOF_REFERENCE"
"""The environment variable that names the folder."""


class NoReferenceError(typer.BadParameter):
    """No folder with the reference data is named; a script ends with the sentence, exit code 2."""

    def __init__(self) -> None:
        named = os.environ.get(VARIABLE)
        found = f"{VARIABLE} names {named!r}, which is no folder" if named else f"{VARIABLE} is not set"
        super().__init__(f"{found}. Let it name the folder of the reference data (see DEVELOPERS.md).")


def folder() -> Path:
    """Return the folder of the reference data.

    Raises
    ------
    NoReferenceError
        If there is none.
    """
    named = os.environ.get(VARIABLE)
    if not named or not Path(named).is_dir():
        raise NoReferenceError
    return Path(named)


@contextmanager
def hidden() -> Iterator[None]:
    """Hide the reference data, as if there were none."""
    named = os.environ.pop(VARIABLE, None)
    try:
        yield
    finally:
        if named is not None:
            os.environ[VARIABLE] = named


def load(name: str) -> list[dict[str, Any]]:
    """Return the records of one file, such as ``killer.jsonl`` (the ending may be left out)."""
    return read_records((folder() / name).with_suffix(".jsonl"))


def read_records(path: Path) -> list[dict[str, Any]]:
    """Return the records of a JSON Lines file in the format of the reference data."""
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]


def facts() -> dict[str, Any]:
    """Return the published counts and facts, each with its source."""
    return _facts(folder() / "facts.yaml")


@lru_cache(maxsize=1)
def _facts(path: Path) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load(path.read_text(encoding="utf-8"))
    return loaded


def file_of(record: dict[str, Any]) -> str:
    """Return the puzzle of a record as a file; clues, marks and maps stand in it as the record has them."""
    size = record["rows"]
    lines = [f"puzzle: {record['kind']}", f"id: {record['id']}", f"grid: {size}x{size}"]
    if record["box"] and size != 9:
        lines.append("boxes: {}x{}".format(*record["box"]))
    for key, name in (("boxes_map", "boxes"), ("extra_houses", "extra_houses")):
        lines += [f"{name}: |", *(f"  {row}" for row in record[key])] if record.get(key) else []
    for key in ("diagonals", "no_repeats", "not_consecutive", "all_marked"):
        if record.get(key):
            lines.append(f"{key}: {json.dumps('yes' if record[key] is True else record[key])}")
    lines += ["cages:"] if record.get("cages") else []
    for cage in record.get("cages") or ():
        cells = [f"r{row}c{column}" for row, column in cage["cells"]]
        parts = {"total": cage["sum"], "repeats": "yes" if cage.get("repeats") else None, "cells": cells}
        lines.append(f"  - {json.dumps({key: part for key, part in parts.items() if part is not None})}")
    lines += ["clues:"] if record.get("clues") else []
    lines += [f"  - {json.dumps(clue)}" for clue in record.get("clues") or ()]
    digits = str(record["givens"] or "." * size**2)
    lines += ["givens: |", *(f"  {' '.join(digits[at : at + size])}" for at in range(0, size**2, size))]
    return "\n".join(lines) + "\n"


def puzzle_of(record: dict[str, Any]) -> Puzzle:
    """Build the puzzle of a killer's, a classic's or another rule's record.

    Raises
    ------
    ValueError
        If the program cannot read its file.
    """
    if "rule" in record:
        (entry,) = read_text(file_of(record).encode(), record["id"])
        if entry.puzzle is None:
            raise ValueError("; ".join(map(str, entry.faults)))
        return entry.puzzle
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

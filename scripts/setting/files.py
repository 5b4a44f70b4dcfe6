"""Writing puzzles down in each form that a file may have, without the program's own writer."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap
from typing import Literal

from verifier.files.fields.lookalikes import DISTINCT_LETTERS
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["Totals", "as_json", "as_line", "as_list", "as_map", "cage_marks", "rows_of"]

_WIDTH = 96

_OF_THE_WHOLE_GRID = ("no_repeats", "not_consecutive", "all_marked")


Totals = Literal["by mark", "in a row", "left out"]
"""How the totals of a map are written; those that are left out follow from the solution in the file."""


def as_map(puzzle: Puzzle, totals: Totals = "by mark") -> str:
    """Return a puzzle in YAML, its cages as a map of marks; as a list where a map cannot say them.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import Credits, make_puzzle
    >>> print(as_map(make_puzzle("killer", Grid.square(4), cages=[Cage((0, 4), 3)], credits=Credits("a-1"))))
    puzzle: killer
    id: a-1
    grid: 4x4
    cages: |
      a . . .
      a . . .
      . . . .
      . . . .
    totals: {a: 3}
    <BLANKLINE>
    """
    lines = _heading(puzzle)
    if len(puzzle.all_cages) > len(puzzle.cages):
        lines += _listed(puzzle)
    elif puzzle.cages:
        marks = cage_marks(puzzle.cages)
        words = ["."] * puzzle.grid.cell_count
        for mark, cage in zip(marks, puzzle.cages, strict=True):
            for cell in cage.cells:
                words[cell] = mark
        lines += _drawn("cages", puzzle.grid, words)
        lines += _totals(puzzle.cages, marks, totals)
    return "\n".join([*lines, *_clues(puzzle), *_digits(puzzle), ""])


def _totals(cages: Sequence[Cage], marks: Sequence[str], totals: Totals) -> list[str]:
    if totals == "left out":
        return []
    if totals == "in a row":
        return _folded(f"totals: [{', '.join(str(cage.total) for cage in cages)}]", indent=" " * 9)
    by_mark = (f"{mark}: {cage.total}" for mark, cage in zip(marks, cages, strict=True))
    return _folded(f"totals: {{{', '.join(by_mark)}}}", indent=" " * 9)


def as_list(puzzle: Puzzle) -> str:
    """Return a puzzle in YAML, its cages as a list."""
    return "\n".join([*_heading(puzzle), *_listed(puzzle), *_clues(puzzle), *_digits(puzzle), ""])


def _listed(puzzle: Puzzle) -> list[str]:
    lines = ["cages:"]
    for cage in puzzle.all_cages:
        facts = [] if isinstance(cage, Different) else [f"total: {cage.figure}"]
        facts += ["repeats: yes"] if isinstance(cage, LinearSum) else []
        cells = ", ".join(puzzle.grid.cell_name(cell) for cell in cage.cells)
        lines += _folded(f"  - {{{', '.join([*facts, f'cells: [{cells}]'])}}}", indent=" " * 6)
    return lines


def as_run_map(puzzle: Puzzle) -> str:
    """Return a kakuro in YAML, its totals in the blocked cells before its runs."""
    grid, totals = puzzle.grid, {cell: ["", ""] for cell in puzzle.grid.blocked}
    for cage in puzzle.cages:
        across = cage.cells[1] == cage.cells[0] + 1
        totals[cage.cells[0] - (1 if across else grid.columns)][across] = str(cage.total)
    givens = dict(puzzle.givens)
    words = [
        ("\\".join(totals[cell]) if any(totals[cell]) else "#")
        if cell in totals
        else str(givens.get(cell, "."))
        for cell in range(grid.cell_count)
    ]
    return "\n".join([*_heading(puzzle), *_drawn("cells", grid, words), *_solution(puzzle), ""])


def as_run_list(puzzle: Puzzle) -> str:
    """Return a kakuro in YAML, run by run."""
    lines = [*_heading(puzzle), "runs:"]
    for cage in puzzle.cages:
        cells = " ".join(map(puzzle.grid.cell_name, cage.cells))
        lines.append(f"  - {{total: {cage.total}, cells: {cells}}}")
    return "\n".join([*lines, *_digits(puzzle), ""])


def as_line(puzzle: Puzzle) -> str:
    """Return a 9x9 classic as a bare line, one character a cell."""
    givens = dict(puzzle.givens)
    return "".join(str(givens.get(cell, ".")) for cell in range(puzzle.grid.cell_count)) + "\n"


def as_json(puzzle: Puzzle) -> str:
    """Return a puzzle as one line of JSON."""
    record: dict[str, object] = {}
    record.update((key, value) for key, _, value in (line.partition(": ") for line in _heading(puzzle)))
    if puzzle.cages:
        record["cages"] = [
            {"total": cage.total, "cells": [puzzle.grid.cell_name(cell) for cell in cage.cells]}
            for cage in puzzle.cages
        ]
    if puzzle.givens:
        record["givens"] = "\n".join(rows_of(puzzle.grid, _words(puzzle.grid, dict(puzzle.givens))))
    return json.dumps(record) + "\n"


def cage_marks(cages: Sequence[Cage]) -> list[str]:
    """Return a mark for each cage: a letter, or a letter and a figure where there are many.

    Examples
    --------
    >>> cage_marks([Cage((0,), 1)] * 3), cage_marks([Cage((0,), 1)] * 60)[-1]
    (['a', 'b', 'c'], 'h3')
    """
    if len(cages) <= len(DISTINCT_LETTERS):
        return list(DISTINCT_LETTERS[: len(cages)])
    return [f"{DISTINCT_LETTERS[i // 8]}{i % 8}" for i in range(len(cages))]


def rows_of(grid: Grid, words: Sequence[str]) -> Iterator[str]:
    """Yield the rows of a map, words in columns."""
    width = max(len(word) for word in words)
    for start in range(0, grid.cell_count, grid.columns):
        yield " ".join(word.ljust(width) for word in words[start : start + grid.columns]).rstrip()


def _heading(puzzle: Puzzle) -> list[str]:
    names = puzzle.credits
    pairs = [("puzzle", puzzle.kind), ("id", names.id), ("title", names.title), ("setter", names.setter)]
    pairs.append(("grid", puzzle.grid.name))
    if puzzle.grid.box_rows and puzzle.grid != Grid.square(puzzle.grid.rows):
        pairs.append(("boxes", puzzle.grid.boxes_name))
    if puzzle.houses and not any(house.kind == "box" for house in puzzle.houses):
        pairs.append(("boxes", "none"))
    return [f"{key}: {value}" for key, value in pairs if value]


def _clues(puzzle: Puzzle) -> list[str]:
    lines: list[str] = []
    for key, kind in (("boxes", "box"), ("extra_houses", "extra house")):
        houses = [house for house in puzzle.houses if house.kind == kind and house not in puzzle.grid.houses]
        words = ["."] * puzzle.grid.cell_count
        for mark, house in zip(DISTINCT_LETTERS, houses, strict=False):
            for cell in house.cells:
                words[cell] = mark
        lines += _drawn(key, puzzle.grid, words) if houses else []
    if set(puzzle.grid.diagonals) <= set(puzzle.houses):
        lines.append("diagonals: yes")
    others = [rule for rule in puzzle.rules if not rule.is_cage]
    records = [rule.record(puzzle.grid) for rule in others if type(rule) not in (House, Given)]
    for key in _OF_THE_WHOLE_GRID:
        words = [record[key] for record in records if key in record]
        lines += [f"{key}: [{', '.join(words)}]" if len(words) > 1 else f"{key}: {words[0]}"] if words else []
    clues = [record for record in records if not record.keys() & set(_OF_THE_WHOLE_GRID)]
    return [*lines, *(["clues:"] if clues else []), *map(_clue, clues)]


def _clue(record: Mapping[str, object]) -> str:
    return "  - {" + ", ".join(f"{key}: {value}" for key, value in record.items()) + "}"


def _digits(puzzle: Puzzle) -> list[str]:
    lines = []
    if puzzle.givens:
        lines += _drawn("givens", puzzle.grid, _words(puzzle.grid, dict(puzzle.givens)))
    return lines + _solution(puzzle)


def _solution(puzzle: Puzzle) -> list[str]:
    words = [str(digit or "#") for digit in puzzle.solution or ()]
    return _drawn("solution", puzzle.grid, words) if words else []


def _words(grid: Grid, digits: dict[int, int]) -> list[str]:
    return [str(digits.get(cell, ".")) for cell in range(grid.cell_count)]


def _drawn(key: str, grid: Grid, words: Sequence[str]) -> list[str]:
    return [f"{key}: |", *(f"  {row}" for row in rows_of(grid, words))]


def _folded(line: str, indent: str) -> list[str]:
    """Break a line after commas: a mark stays beside its total."""
    bound = line.replace(": ", ":\0")
    lines = wrap(bound, _WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
    return [line.replace("\0", " ") for line in lines]

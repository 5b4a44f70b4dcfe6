"""From the fields of a document to a kakuro: its grid, its runs, its givens, the solution it brings."""

from __future__ import annotations

import re
from collections.abc import Mapping

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import text_of
from verifier.files.fields.maps import read_digits, read_solution
from verifier.files.fields.run_list import read_run_list
from verifier.files.fields.run_map import DrawnRuns, read_run_map, size_drawn
from verifier.files.text.nodes import Node
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import KAKURO, Credits, Puzzle, make_puzzle

__all__ = ["KAKURO_ALONE", "KAKURO_KEYS", "read_kakuro"]

KAKURO_ALONE = ("cells", "runs")
"""The keys that no other kind of puzzle has."""

KAKURO_KEYS = ("format", "puzzle", "id", "title", "setter", "grid", *KAKURO_ALONE, "givens", "solution")

_DIGITS = 9
_LEAST, _MOST = 2, 40
"""Rows and columns of a grid, blocked ones counted too."""

_SIZE = re.compile(r"([0-9]{1,3})x([0-9]{1,3})\Z", re.ASCII)


def read_kakuro(
    fields: Mapping[str, Node], line: int, credits: Credits, report: FaultReport
) -> Puzzle | None:
    """Return the kakuro of a document.

    Parameters
    ----------
    fields : mapping of str to Node
        The values of the document by key.
    line : int
        Where the document begins.
    credits : Credits
        What stands in it beside the puzzle.
    report : FaultReport
        Takes the faults; with any fault there is no puzzle.
    """
    for key in fields:
        if key not in KAKURO_KEYS:
            report.add("not-in-kakuro", fields[key].line, key, word=key, allowed=", ".join(KAKURO_KEYS))
    grid = _read_grid(fields, line, report)
    if grid is None:
        return None
    drawn = _read_runs(fields, line, grid, report)
    if drawn is None:
        return None
    grid, givens = drawn.grid, drawn.givens
    if "givens" in fields and "cells" in fields:
        report.add("givens-beside-cells", fields["givens"].line, "givens")
    elif "givens" in fields:
        givens = read_digits(fields["givens"], "givens", grid, report)
    solution = read_solution(fields["solution"], "solution", grid, report) if "solution" in fields else None
    if report.count:
        return None
    runs = dict.fromkeys(drawn.runs)  # a run of one cell may be named across and down
    return make_puzzle(KAKURO, grid, clues=runs, givens=givens, credits=credits, solution=solution, houses=())


def _read_runs(fields: Mapping[str, Node], line: int, grid: Grid, report: FaultReport) -> DrawnRuns | None:
    cells, runs = (fields.get(key) for key in KAKURO_ALONE)
    node = cells or runs
    if node is None:
        allowed = "a map of the cells, or a list of runs with the key 'runs'"
        report.add("missing-key", line, "cells", allowed=allowed, example="cells: |")
        return None
    if cells is not None and runs is not None:
        report.add("cells-and-runs", runs.line, "runs")
    faults = report.count
    drawn = (read_run_list if cells is None else read_run_map)(node, grid, report)
    if not drawn.runs and report.count == faults:
        report.add("kakuro-without-runs", node.line, "runs" if cells is None else "cells")
    return drawn if report.count == faults else None


def _read_grid(fields: Mapping[str, Node], line: int, report: FaultReport) -> Grid | None:
    """Return the grid, nothing blocked yet; where its size is missing or wrong, as large as the map."""
    node, drawn = fields.get("grid"), size_drawn(fields.get("cells"))
    if drawn and not all(_LEAST <= number <= _MOST for number in drawn):
        drawn = None
    meant = f"{drawn[0]}x{drawn[1]}" if drawn else None
    allowed = f"rows by columns, from {_LEAST}x{_LEAST} to {_MOST}x{_MOST}, blocked cells counted too"
    if node is None:
        report.add("missing-key", line, "grid", allowed=allowed, example=f"grid: {meant or '8x8'}")
    else:
        text = text_of(node, "grid", report)
        found = _SIZE.match(text or "")
        size = (int(found[1]), int(found[2])) if found else (0, 0)
        if all(_LEAST <= number <= _MOST for number in size):
            drawn = size
        elif text is not None:
            report.add("grid", node.line, "grid", meant, word=text, allowed=allowed)
    return Grid(*drawn, 0, 0, _DIGITS) if drawn else None

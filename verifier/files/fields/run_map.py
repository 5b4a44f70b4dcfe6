r"""Reading a kakuro drawn as a map: ``#`` blocked, ``.`` to be filled, ``16\7`` totals, given digits."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import looks_like, whole_number
from verifier.files.fields.maps import BLOCKED, TOTALS_DIVIDED, Mark, read_map
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import runs_of

__all__ = ["WHITE", "DrawnRuns", "read_run_map", "size_drawn"]

WHITE = "."
"""The mark of a cell to be filled."""

_TOTALS = re.compile(r"([0-9]{0,6})\\([0-9]{0,6})\Z")


class DrawnRuns(NamedTuple):
    """A grid with its blocked cells, the runs on it, and the digits that are given."""

    grid: Grid
    runs: Sequence[Rule]
    givens: dict[int, int]


def size_drawn(node: Node | None) -> tuple[int, int] | None:
    """Return the rows and the columns that a map seems to have; None for what is no map."""
    if not isinstance(node, TextNode):
        return None
    widths = Counter(len(line.split()) for line in node.text.split("\n") if line.strip())
    return (widths.total(), max(widths, key=lambda width: widths[width])) if widths else None


def read_run_map(node: Node, grid: Grid, report: FaultReport) -> DrawnRuns:
    """Return what a map draws; a stretch of two or more cells without a total is a run without one.

    Parameters
    ----------
    node : Node
        The map.
    grid : Grid
        How many rows and columns there are.
    report : FaultReport
        Takes the faults. With any fault of the map, no run is looked for.
    """
    faults = report.count
    totals: dict[tuple[int, bool], int] = {}
    lines: dict[int, int] = {}
    givens: dict[int, int] = {}
    blocked: list[int] = []
    for mark in read_map(node, "cells", grid, False, report):
        divided = _TOTALS.match(mark.text)
        if mark.text == BLOCKED or (divided and mark.text != TOTALS_DIVIDED):
            if mark.cell is not None:
                blocked.append(mark.cell)
                lines[mark.cell] = mark.line
                for across, figures in zip((False, True), divided.groups() if divided else (), strict=False):
                    if figures:
                        totals[mark.cell, across] = int(figures)
        elif mark.text != WHITE:
            digit = whole_number(mark.text) or 0
            if not 1 <= digit <= grid.digits:
                _report(mark, grid, report)
            elif mark.cell is not None:
                givens[mark.cell] = digit
    grid = replace(grid, blocked=tuple(blocked))
    if report.count > faults:
        return DrawnRuns(grid, [], givens)
    runs, stray = runs_of(grid, totals)
    for (cell, across), total in stray.items():
        _report_stray(grid, cell, across, total, lines[cell], report)
    return DrawnRuns(grid, runs, givens)


def _report(mark: Mark, grid: Grid, report: FaultReport) -> None:
    where = f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)
    turned = mark.text.replace("/", TOTALS_DIVIDED)
    meant = turned if turned != mark.text and _TOTALS.match(turned) else None
    hint = looks_like(mark.text, grid.all_digits)
    report.add(
        "kakuro-mark", mark.line, f"cells, {where}", meant, hint=hint, word=mark.text, digits=grid.digits
    )


def _report_stray(grid: Grid, cell: int, across: bool, total: int, line: int, report: FaultReport) -> None:
    way, side = ("across", "to its right") if across else ("down", "below it")
    where = f"cells, {grid.cell_name(cell)}"
    report.add("total-without-run", line, where, total=total, way=way, side=side)

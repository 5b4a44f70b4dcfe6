r"""Reading a kakuro drawn as a map: ``#`` blocked, ``.`` to be filled, ``16\7`` totals, given digits."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import looks_like, whole_number
from verifier.files.fields.maps import BLOCKED, TOTALS_DIVIDED, Mark, read_map
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import before, stretches

__all__ = ["WHITE", "DrawnRuns", "read_run_map", "size_drawn"]

WHITE = "."
"""The mark of a cell to be filled."""

_TOTALS = re.compile(r"([0-9]{0,6})\\([0-9]{0,6})\Z")


_Where = tuple[int, bool]
"""The cell in which a total stands, and whether it is the one across."""


class DrawnRuns(NamedTuple):
    """A grid with its blocked cells, the runs on it, and the digits that are given."""

    grid: Grid
    runs: list[Rule]
    givens: dict[int, int]


class _Total(NamedTuple):
    """A total of the map, and its line in the file."""

    total: int
    line: int


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
    totals: dict[_Where, _Total] = {}
    givens: dict[int, int] = {}
    blocked: list[int] = []
    for mark in read_map(node, "cells", grid, False, report):
        divided = _TOTALS.match(mark.text)
        if mark.text == BLOCKED or (divided and mark.text != TOTALS_DIVIDED):
            if mark.cell is not None:
                blocked.append(mark.cell)
                totals.update(_totals(mark, mark.cell, divided))
        elif mark.text != WHITE:
            digit = whole_number(mark.text) or 0
            if not 1 <= digit <= grid.digits:
                _report(mark, grid, report)
            elif mark.cell is not None:
                givens[mark.cell] = digit
    grid = replace(grid, blocked=tuple(blocked))
    runs = list(_runs(grid, totals)) if report.count == faults else []
    if report.count == faults:
        for (cell, across), total in totals.items():
            _report_stray(grid, cell, across, total, report)
    return DrawnRuns(grid, runs, givens)


def _totals(mark: Mark, cell: int, divided: re.Match[str] | None) -> Iterator[tuple[_Where, _Total]]:
    for across, figures in zip((False, True), divided.groups() if divided else (), strict=False):
        if figures:
            yield (cell, across), _Total(int(figures), mark.line)


def _runs(grid: Grid, totals: dict[_Where, _Total]) -> Iterator[Rule]:
    """Yield a run for each stretch, and take its total away from `totals`."""
    for cells, across in stretches(grid):
        first = before(grid, cells[0], across=across)
        total = None if first is None else totals.pop((first, across), None)
        if total is not None:
            yield Cage(cells, total.total)
        elif len(cells) > 1:
            yield Different(cells)


def _report(mark: Mark, grid: Grid, report: FaultReport) -> None:
    where = f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)
    turned = mark.text.replace("/", TOTALS_DIVIDED)
    meant = turned if turned != mark.text and _TOTALS.match(turned) else None
    hint = looks_like(mark.text, grid.all_digits)
    report.add(
        "kakuro-mark", mark.line, f"cells, {where}", meant, hint=hint, word=mark.text, digits=grid.digits
    )


def _report_stray(grid: Grid, cell: int, across: bool, total: _Total, report: FaultReport) -> None:
    way, side = ("across", "to its right") if across else ("down", "below it")
    where = f"cells, {grid.cell_name(cell)}"
    report.add("total-without-run", total.line, where, total=total.total, way=way, side=side)

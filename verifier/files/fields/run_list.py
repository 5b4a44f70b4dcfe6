"""Reading a kakuro as a list of runs: ``- {total: 7, cells: r2c2 r2c3}``; a cell in no run is blocked."""

from __future__ import annotations

from dataclasses import replace

from verifier.files.faults import FaultReport
from verifier.files.fields.cells import read_cells_in_order
from verifier.files.fields.fields import read_keys, report_total, shape_of, total_in
from verifier.files.fields.run_map import DrawnRuns
from verifier.files.text.nodes import KeysNode, ListNode, Node
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import in_line, is_across

__all__ = ["read_run_list"]

_KEYS = ("total", "cells")
_Taken = dict[tuple[int, bool], int]
"""The run that has a cell already, across or down."""


def read_run_list(node: Node, grid: Grid, report: FaultReport) -> DrawnRuns:
    """Return the runs of a list, and the grid with all other cells blocked.

    Parameters
    ----------
    node : Node
        The list: one item a run.
    grid : Grid
        How many rows and columns there are.
    report : FaultReport
        Takes the faults; that a run has no total is none of the file.
    """
    if not isinstance(node, ListNode):
        report.add("runs-shape", node.line, "runs", what=shape_of(node))
        return DrawnRuns(grid, [], {})
    taken: _Taken = {}
    found = [_read_run(item, number, grid, taken, report) for number, item in enumerate(node.items, start=1)]
    runs = [run for run in found if run is not None]
    white = {cell for run in runs for cell in run.cells}
    blocked = tuple(cell for cell in range(grid.cell_count) if cell not in white)
    return DrawnRuns(replace(grid, blocked=blocked), runs, {})


def _read_run(item: Node, number: int, grid: Grid, taken: _Taken, report: FaultReport) -> Rule | None:
    where = f"run {number}"
    if not isinstance(item, KeysNode):
        report.add("run-shape", item.line, where, what=shape_of(item))
        return None
    fields, node = read_keys(item, _KEYS, where, report), None
    total = fields.get("total")
    if total is not None and total_in(total) is None:
        report_total(total, f"{where}, total", "", report)
    if "cells" not in fields:
        facts = {"allowed": "the cells of the run", "example": "cells: r2c2 r2c3"}
        report.add("missing-key", item.line, where, **facts)
        return None
    node = fields["cells"]
    cells = _read_cells(node, number, grid, taken, report)
    if not cells:
        return None
    made = total_in(total)
    return Different(cells) if made is None else Cage(cells, made)


def _read_cells(
    node: Node, number: int, grid: Grid, taken: _Taken, report: FaultReport
) -> tuple[int, ...] | None:
    where = f"run {number}, cells"
    named = read_cells_in_order(node, where, grid, report, holder="run")
    if named is None:
        return None
    cells = tuple(sorted(named))
    if not cells:
        report.add("empty-cage", node.line, where, holder="run")
    elif not in_line(grid, cells):
        report.add("run-cells", node.line, where, cells=grid.cell_names(cells))
        return None
    for cell in cells:
        ways = (True, False) if len(cells) == 1 else (is_across(cells),)
        free = next((across for across in ways if (cell, across) not in taken), None)
        if free is None:
            other = taken[cell, ways[0]]
            way = "across" if ways[0] else "down"
            name = grid.cell_name(cell)
            report.add("cell-in-two-runs", node.line, where, cell=name, other=other, way=way)
        else:
            taken[cell, free] = number
    return cells

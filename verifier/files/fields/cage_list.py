"""Reading cages written as a list: ``- {total: 15, cells: [r1c1, r1c2]}``."""

from __future__ import annotations

from verifier.files.faults import FaultReport
from verifier.files.fields.cage_drafts import Draft, Missed, with_totals
from verifier.files.fields.cells import read_cell
from verifier.files.fields.fields import read_keys, shape_of
from verifier.files.text.nodes import KeysNode, ListNode, Node
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.cage import Cage

__all__ = ["read_cage_list"]

_EXAMPLES = {
    "total": ("a whole number", "total: 15"),
    "cells": ("a list of cells", "cells: [r1c1, r1c2]"),
}
"""The keys of a cage: what is allowed, and an example for where one is missing."""


def read_cage_list(node: ListNode, grid: Grid, solution: Filling | None, report: FaultReport) -> list[Cage]:
    """Return the cages of a list, in its order.

    Parameters
    ----------
    node : ListNode
        One item a cage.
    grid : Grid
        The cells there are.
    solution : Filling or None
        The solution that the file brings: totals that are left out follow from it.
    report : FaultReport
        Takes the faults; a cell in two cages is one, because in a killer no cages overlap.
    """
    taken: dict[int, int] = {}  # the cage that has a cell already
    drafts = [
        _read_cage(item, number, grid, taken, report) for number, item in enumerate(node.items, start=1)
    ]
    return with_totals([draft for draft in drafts if draft is not None], grid, solution, report)


def _read_cage(
    item: Node, number: int, grid: Grid, taken: dict[int, int], report: FaultReport
) -> Draft | None:
    where = f"cage {number}"
    if not isinstance(item, KeysNode):
        report.add("cage-shape", item.line, where, what=shape_of(item))
        return None
    fields = read_keys(item, tuple(_EXAMPLES), where, report)
    if "cells" in fields:
        cells = _read_cells(fields["cells"], number, grid, taken, report)
    else:
        cells = ()
        _missed("cells", item, where).note(report)
    return Draft(cells, fields.get("total"), f"{where}, total", _missed("total", item, where))


def _missed(key: str, item: Node, where: str) -> Missed:
    allowed, example = _EXAMPLES[key]
    return Missed("missing-key", item.line, where, {"allowed": allowed, "example": example})


def _read_cells(
    node: Node, number: int, grid: Grid, taken: dict[int, int], report: FaultReport
) -> tuple[int, ...]:
    where = f"cage {number}, cells"
    if not isinstance(node, ListNode):
        report.add("cells-shape", node.line, where, what=shape_of(node))
        return ()
    if not node.items:
        report.add("empty-cage", node.line, where, holder="cage")
    cells: list[int] = []
    for item in node.items:
        cell = read_cell(item, where, grid, report)
        if cell is None:
            continue
        other = taken.setdefault(cell, number)
        if other != number:
            report.add("cell-in-two-cages", item.line, where, cell=grid.cell_name(cell), other=other)
        elif cell in cells:
            report.add("cell-twice", item.line, where, cell=grid.cell_name(cell), holder="cage")
        else:
            cells.append(cell)
    return tuple(cells)

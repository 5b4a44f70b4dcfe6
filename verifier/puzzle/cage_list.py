"""Reading cages written as a list: ``- {total: 15, cells: [r1c1, r1c2]}``."""

from __future__ import annotations

import re

from verifier.puzzle.faults import FaultReport
from verifier.puzzle.fields import read_keys, read_total, shape_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.parts import Cage

__all__ = ["read_cage_list"]

_EXAMPLES = {
    "total": ("a whole number", "total: 15"),
    "cells": ("a list of cells", "cells: [r1c1, r1c2]"),
}
"""The keys of a cage: what is allowed, and an example for where one is missing."""

_CELL = re.compile(r"r[0-9]+c[0-9]+\Z")
_CELL_IN_CAPITALS = re.compile(r"[rR][0-9]{1,4}[cC][0-9]{1,4}\Z")


def read_cage_list(node: ListNode, grid: Grid, report: FaultReport) -> list[Cage]:
    """Return the cages of a list, in its order.

    Parameters
    ----------
    node : ListNode
        One item a cage.
    grid : Grid
        The cells there are.
    report : FaultReport
        Takes the faults; a cell in two cages is one, because in a killer no cages overlap.
    """
    taken: dict[int, int] = {}  # the cage that has a cell already
    cages: list[Cage] = []
    for number, item in enumerate(node.items, start=1):
        cage = _read_cage(item, number, grid, taken, report)
        if cage is not None:
            cages.append(cage)
    return cages


def _read_cage(
    item: Node, number: int, grid: Grid, taken: dict[int, int], report: FaultReport
) -> Cage | None:
    where = f"cage {number}"
    if not isinstance(item, KeysNode):
        report.add("cage-shape", item.line, where, what=shape_of(item))
        return None
    fields = read_keys(item, tuple(_EXAMPLES), where, report)
    for key in _EXAMPLES.keys() - fields.keys():
        allowed, example = _EXAMPLES[key]
        report.add("missing-key", item.line, where, allowed=allowed, example=example)
    total = read_total(fields["total"], f"{where}, total", report) if "total" in fields else None
    cells = _read_cells(fields["cells"], number, grid, taken, report) if "cells" in fields else ()
    return Cage(cells, total) if cells and total is not None else None


def _read_cells(
    node: Node, number: int, grid: Grid, taken: dict[int, int], report: FaultReport
) -> tuple[int, ...]:
    where = f"cage {number}, cells"
    if not isinstance(node, ListNode):
        report.add("cells-shape", node.line, where, what=shape_of(node))
        return ()
    if not node.items:
        report.add("empty-cage", node.line, where)
    cells: list[int] = []
    for item in node.items:
        cell = _read_cell(item, where, grid, report)
        if cell is None:
            continue
        other = taken.setdefault(cell, number)
        if other != number:
            report.add("cell-in-two-cages", item.line, where, cell=grid.cell_name(cell), other=other)
        elif cell in cells:
            report.add("cell-twice", item.line, where, cell=grid.cell_name(cell))
        else:
            cells.append(cell)
    return tuple(cells)


def _read_cell(item: Node, where: str, grid: Grid, report: FaultReport) -> int | None:
    if not isinstance(item, TextNode):
        report.add("cell-shape", item.line, where, what=shape_of(item))
        return None
    cell = grid.cell_at(item.text)
    if cell is not None:
        return cell
    if _CELL.match(item.text):
        report.add("cell-outside", item.line, where, word=item.text, rows=grid.rows, columns=grid.columns)
    else:
        meant = item.text.lower() if _CELL_IN_CAPITALS.match(item.text) else None
        report.add("cell-name", item.line, where, instead=meant, word=item.text)
    return None

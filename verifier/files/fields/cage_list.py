"""Reading cages written as a list: ``- {total: 15, cells: [r1c1, r1c2]}``.

A cage without ``total`` says that its digits differ; one with ``repeats: yes`` that they make the total, the
same digit twice or not.
"""

from __future__ import annotations

from verifier.files.faults import FaultReport
from verifier.files.fields.cage_drafts import Draft, Missed, with_totals
from verifier.files.fields.cells import cell_nodes, read_cell
from verifier.files.fields.fields import read_keys, shape_of, yes_in
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.rules.rule import Rule

__all__ = ["read_cage_list"]

_TOTAL, _REPEATS, _CELLS = "total", "repeats", "cells"


def read_cage_list(node: ListNode, grid: Grid, solution: Filling | None, report: FaultReport) -> list[Rule]:
    """Return the cages of a list, in its order.

    Parameters
    ----------
    node : ListNode
        One item a cage.
    grid : Grid
        The cells there are.
    solution : Filling or None
        The solution that the file brings: a total that is needed and not written follows from it. Where
        there is no ``total`` and none is needed, the cage has none, with a solution or without.
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
    fields = read_keys(item, (_TOTAL, _REPEATS, _CELLS), where, report)
    repeats = _REPEATS in fields and yes_in(fields[_REPEATS], f"{where}, {_REPEATS}", report)
    if _CELLS in fields:
        cells = _read_cells(fields[_CELLS], number, grid, taken, report)
    else:
        cells = ()
        facts = {"allowed": "a list of cells", "example": "cells: [r1c1, r1c2]"}
        report.add("missing-key", item.line, where, None, **facts)
    missed = _missed(item, where, repeats)
    return Draft(cells, fields.get(_TOTAL), f"{where}, {_TOTAL}", missed, repeats)


def _missed(item: KeysNode, where: str, repeats: bool) -> Missed | None:
    """Return what to say of a cage that has no total and needs one."""
    if any(isinstance(key, TextNode) and key.text == _TOTAL for key, _ in item.pairs):
        return Missed("cage-total-missing", item.line, where, {})
    return Missed("repeats-without-total", item.line, where, {}) if repeats else None


def _read_cells(
    node: Node, number: int, grid: Grid, taken: dict[int, int], report: FaultReport
) -> tuple[int, ...]:
    where = f"cage {number}, cells"
    if isinstance(node, KeysNode):
        report.add("cells-shape", node.line, where, what=shape_of(node))
        return ()
    items = cell_nodes(node)
    if not items:
        report.add("empty-cage", node.line, where, holder="cage")
    cells: list[int] = []
    for item in items:
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

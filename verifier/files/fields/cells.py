"""Reading the names of cells: `r3c5`, alone or several in a list or on one line."""

from __future__ import annotations

import re

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import shape_of
from verifier.files.fields.lookalikes import misread
from verifier.files.text.nodes import KeysNode, ListNode, Node, TextNode
from verifier.puzzle.grid import Grid

__all__ = ["cell_nodes", "read_cell", "read_cells_in_order"]

_CELL = re.compile(r"r[0-9]+c[0-9]+\Z")
_LIKE_A_CELL = re.compile(r"[rR](\w{1,4})[cC](\w{1,4})\Z", re.ASCII)


def read_cell(item: Node, where: str, grid: Grid, report: FaultReport) -> int | None:
    """Return the cell that a node names; None, with a fault, where it names none of the grid."""
    if not isinstance(item, TextNode):
        report.add("cell-shape", item.line, where, what=shape_of(item))
        return None
    cell = grid.cell_at(item.text)
    if cell is not None:
        return cell
    if _CELL.match(item.text):
        report.add("cell-outside", item.line, where, word=item.text, rows=grid.rows, columns=grid.columns)
    else:
        report.add("cell-name", item.line, where, instead=_meant(item.text, grid), word=item.text)
    return None


def read_cells_in_order(
    node: Node, where: str, grid: Grid, report: FaultReport, holder: str = "clue"
) -> tuple[int, ...] | None:
    """Return the cells of a clue in the order in which they are written: ``r1c1 r1c2``, or a list.

    None, with a fault for each of them, where a name is none of the grid's or stands twice.
    """
    if isinstance(node, KeysNode):
        report.add("clue-cells-shape", node.line, where, what=shape_of(node))
        return None
    before = report.count
    cells: list[int] = []
    for item in cell_nodes(node):
        cell = read_cell(item, where, grid, report)
        if cell in cells:
            report.add("cell-twice", item.line, where, cell=grid.cell_name(cell), holder=holder)
        elif cell is not None:
            cells.append(cell)
    return tuple(cells) if report.count == before else None


def cell_nodes(node: ListNode | TextNode) -> list[Node]:
    """Return the nodes of the cells that stand in a list, or one after the other on one line."""
    if isinstance(node, ListNode):
        return list(node.items)
    return [TextNode(word, node.line) for word in node.text.split()]


def _meant(name: str, grid: Grid) -> str | None:
    """Return the name of the cell that was probably meant: with small letters, and figures for letters."""
    parts = _LIKE_A_CELL.match(name)
    if parts is None:
        return None
    row, column = (found.meant if (found := misread(part)) else part for part in parts.groups())
    meant = f"r{row}c{column}"
    return None if grid.cell_at(meant) is None else meant

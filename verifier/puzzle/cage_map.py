"""Reading cages drawn as a map of marks, with a total for each mark."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from verifier.puzzle.faults import FaultReport
from verifier.puzzle.fields import read_total, shape_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.maps import Mark, read_map
from verifier.puzzle.nodes import KeysNode, Node, TextNode
from verifier.puzzle.parts import Cage
from verifier.puzzle.printable import listed

__all__ = ["NO_CAGE", "read_cage_map"]

NO_CAGE = "."
"""The mark of a cell that is in no cage."""


class _Total(NamedTuple):
    """A total of the map; the value is None where it could not be read."""

    value: int | None
    line: int


def read_cage_map(node: Node, totals: Node | None, grid: Grid, report: FaultReport) -> list[Cage]:
    """Return the cages of a map, in the order of their totals.

    Parameters
    ----------
    node : Node
        The map: the same mark, the same cage; ``.`` where there is none.
    totals : Node or None
        The total of each mark.
    grid : Grid
        The cells there are.
    report : FaultReport
        Takes the faults.
    """
    marks: dict[str, list[Mark]] = {}
    rows = set()
    for mark in read_map(node, "cages", grid, True, report):
        rows.add(mark.row)
        if mark.text != NO_CAGE:
            marks.setdefault(mark.text, []).append(mark)
    if totals is None and not marks:
        return []
    by_mark = _read_totals(totals, node.line, report)
    if by_mark is None:
        return []
    _report_marks_without_total(marks, by_mark, grid, report)
    if len(rows) >= grid.rows:  # where a row is missing, so may be the cells of a total
        _report_totals_without_cells(marks, by_mark, report)
    return [
        Cage(tuple(mark.cell for mark in marks[word] if mark.cell is not None), total.value)
        for word, total in by_mark.items()
        if word in marks and total.value is not None
    ]


def _read_totals(node: Node | None, line: int, report: FaultReport) -> dict[str, _Total] | None:
    if node is None:
        example = "totals: {a: 15, b: 7}"
        report.add("missing-key", line, "totals", allowed="a total for each mark", example=example)
        return None
    if not isinstance(node, KeysNode):
        report.add("totals-shape", node.line, "totals", what=shape_of(node))
        return None
    totals: dict[str, _Total] = {}
    for key, value in node.pairs:
        if not isinstance(key, TextNode):
            report.add("key-shape", key.line, "totals", what=shape_of(key))
            continue
        word = _word_of(key, value)
        if word in totals:
            report.add("repeated-key", key.line, "totals", word=word, first=totals[word].line)
        else:
            totals[word] = _Total(read_total(value, f"totals, {word}", report), key.line)
    return totals


def _word_of(key: TextNode, value: Node) -> str:
    """Return the mark of a total; of ``a:15``, which YAML takes for a key without a value, the ``a``."""
    unspaced = isinstance(value, TextNode) and value.absent and not key.style
    return key.text.partition(":")[0] or key.text if unspaced else key.text


def _report_marks_without_total(
    marks: Mapping[str, list[Mark]], totals: Mapping[str, _Total], grid: Grid, report: FaultReport
) -> None:
    for word, places in marks.items():
        if word not in totals:
            where = dict.fromkeys(_place_name(place, grid) for place in places)
            report.add("mark-without-total", places[0].line, "cages", word=word, places=listed(where))


def _report_totals_without_cells(
    marks: Mapping[str, list[Mark]], totals: Mapping[str, _Total], report: FaultReport
) -> None:
    for word, total in totals.items():
        if word not in marks:
            report.add("total-without-cells", total.line, "totals", word=word)


def _place_name(mark: Mark, grid: Grid) -> str:
    return f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)

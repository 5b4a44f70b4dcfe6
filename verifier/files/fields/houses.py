"""Reading houses that are not the usual ones: boxes as a map or none, diagonals, extra houses."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import text_of
from verifier.files.fields.maps import Mark, read_map
from verifier.files.fields.sizes import BOXES, NO_BOXES
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import counted
from verifier.puzzle.rules.house import House

__all__ = ["DIAGONALS", "EXTRA_HOUSE", "Housed", "read_houses"]

DIAGONALS: Mapping[str, tuple[int, ...]] = {"yes": (0, 1), "falling": (0,), "rising": (1,), "no": ()}
"""Which of a grid's diagonals each word stands for."""

EXTRA_HOUSE = "extra house"

_NO_HOUSE = "."


class Housed(NamedTuple):
    """A grid, with its boxes where they are of one size, and the houses of the puzzle."""

    grid: Grid
    houses: tuple[House, ...]


def read_houses(fields: Mapping[str, Node], grid: Grid, report: FaultReport) -> Housed:
    """Return the grid and the houses of a puzzle: rows, columns, boxes, diagonals, extra houses.

    A map that draws the usual boxes is the same as none.
    """
    boxes = fields.get("boxes")
    drawn: tuple[House, ...] = ()
    if boxes is not None and not grid.box_rows and not _says(boxes, NO_BOXES):
        drawn = _read_map(boxes, "boxes", "box", grid, report)
        for size in BOXES.get(grid.rows, ()):
            usual = Grid.square(grid.rows, size)
            if set(drawn) == {house for house in usual.houses if house.kind == "box"}:
                grid, drawn = usual, ()
                break
    extra = fields.get("extra_houses")
    return Housed(
        grid,
        (
            *grid.houses,
            *drawn,
            *_read_diagonals(fields.get("diagonals"), grid, report),
            *(() if extra is None else _read_map(extra, "extra_houses", EXTRA_HOUSE, grid, report)),
        ),
    )


def _says(node: Node, word: str) -> bool:
    return isinstance(node, TextNode) and node.text == word


def _read_diagonals(node: Node | None, grid: Grid, report: FaultReport) -> tuple[House, ...]:
    text = None if node is None else text_of(node, "diagonals", report)
    if node is None or text is None:
        return ()
    if text not in DIAGONALS:
        report.add("diagonals", node.line, "diagonals", choices=tuple(DIAGONALS), word=text)
        return ()
    return tuple(grid.diagonals[number] for number in DIAGONALS[text])


def _read_map(node: Node, field: str, kind: str, grid: Grid, report: FaultReport) -> tuple[House, ...]:
    """Return the houses of a map, in the order of their first cells; one of another size is a fault."""
    before = report.count
    by_mark: dict[str, list[Mark]] = {}
    for mark in read_map(node, field, grid, True, report):
        by_mark.setdefault(mark.text, []).append(mark)
    bare = by_mark.pop(_NO_HOUSE, [])
    if report.count > before:
        return ()
    if kind == "box" and bare:
        cells = grid.cell_names(mark.cell for mark in bare if mark.cell is not None)
        report.add("boxes-unmarked", bare[0].line, field, cells=cells)
    elif not by_mark:
        report.add("no-extra-house", node.line, field)
    sizes = {word: len(marks) for word, marks in by_mark.items()}
    for word, marks in by_mark.items():
        if sizes[word] != grid.digits:
            others = [
                other for other in sizes if (sizes[other] - grid.digits) * (sizes[word] - grid.digits) < 0
            ]
            found, wanted = counted(sizes[word], "cell"), counted(grid.digits, "cell")
            hint = f"Compare it with '{others[0]}', which has {sizes[others[0]]}." if others else ""
            report.add("house-size", marks[0].line, field, hint=hint, word=word, found=found, wanted=wanted)
    houses = (
        House(kind, number, tuple(mark.cell for mark in marks if mark.cell is not None))
        for number, marks in enumerate(by_mark.values(), start=1)
    )
    return tuple(houses) if report.count == before else ()

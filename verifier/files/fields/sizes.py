"""Reading the size of a grid and of its boxes."""

from __future__ import annotations

import re
from collections.abc import Mapping

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import text_of
from verifier.files.fields.maps import rows_in
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.grid import USUAL_BOXES, Grid

__all__ = ["BOXES", "NO_BOXES", "read_grid"]

BOXES = {size: tuple(dict.fromkeys((boxes, boxes[::-1]))) for size, boxes in USUAL_BOXES.items()}
"""Height and width that the boxes of each size may have: the usual ones, lying or upright."""

NO_BOXES = "none"
"""What a file says in place of boxes where there are none."""

_SIZES = {f"{size}x{size}": size for size in USUAL_BOXES}
_ANY_SIZES = {f"{size}x{size}": size for size in range(2, max(USUAL_BOXES) + 1)}
"""The sizes where a file draws its boxes itself, or has none."""

_NUMBER = re.compile(r"[0-9]{1,3}(?![0-9])")
_MAPS = ("cages", "givens", "solution", "boxes", "extra_houses")


def read_grid(fields: Mapping[str, Node], line: int, report: FaultReport) -> Grid | None:
    """Return the grid of a puzzle.

    A grid that is missing or wrong is a fault. It is then taken from the number of rows in the maps,
    so that the rest can be checked as well and the message can say what was probably meant; None
    where there is no map to tell.
    """
    own = _has_boxes_of_its_own(fields.get("boxes"))
    size = _read_size(fields, line, _ANY_SIZES if own else _SIZES, report)
    if size is None:
        return None
    if own:
        return Grid(size, size, 0, 0, size)
    return Grid.square(size, _read_boxes(fields.get("boxes"), size, report))


def _has_boxes_of_its_own(node: Node | None) -> bool:
    """Whether the boxes are a map, or none: then their shape is not asked for."""
    return isinstance(node, TextNode) and (node.text == NO_BOXES or len(node.text.split()) > 1)


def _read_size(
    fields: Mapping[str, Node], line: int, sizes: Mapping[str, int], report: FaultReport
) -> int | None:
    node = fields.get("grid")
    known = sizes.values()
    drawn = next((rows for key in _MAPS if (rows := rows_in(fields.get(key))) in known), None)
    allowed = (
        ", ".join(sizes) if sizes is _SIZES else f"{min(known)}x{min(known)} to {max(known)}x{max(known)}"
    )
    if node is None:
        report.add("missing-key", line, "grid", allowed=allowed, example=f"grid: {_name(drawn or 9)}")
        return drawn
    text = text_of(node, "grid", report)
    if text is None:
        return drawn
    if text not in sizes:
        numbers = (int(figures) for figures in _NUMBER.findall(text[:20]))
        size = next((number for number in numbers if number in known), drawn)
        report.add("grid", node.line, "grid", _name(size) if size else None, word=text, allowed=allowed)
        return size
    return sizes[text]


def _read_boxes(node: Node | None, size: int, report: FaultReport) -> tuple[int, int] | None:
    text = None if node is None else text_of(node, "boxes", report)
    if node is None or text is None:
        return None
    names = {f"{rows}x{columns}": (rows, columns) for rows, columns in BOXES[size]}
    if text not in names:
        allowed = f"{' or '.join(names)} in a grid of {_name(size)}, {NO_BOXES}, or a map of the boxes"
        report.add("boxes", node.line, "boxes", word=text, allowed=allowed, example=next(iter(names)))
    return names.get(text)


def _name(size: int) -> str:
    return f"{size}x{size}"

"""Reading a part-filled grid: a puzzle's map of givens with what has been entered, and pencil marks.

It is written like a puzzle file; only its ``givens`` are read, so the puzzle's own file with more digits in
it will do::

    givens: |
      5     3 {1,2} . ...
      {4,6} . .     9 ...
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from verifier.puzzle.documents import Document, Form, documents
from verifier.puzzle.faults import Fault, FaultReport
from verifier.puzzle.fields import read_keys, shape_of
from verifier.puzzle.grid import Grid
from verifier.puzzle.limits import DEFAULT_LIMITS, Limits
from verifier.puzzle.maps import EMPTY, ONE_FIGURE, read_map
from verifier.puzzle.nodes import KeysNode, Node, TextNode, compose_json, compose_yaml, decode
from verifier.puzzle.opening import CannotOpenError, opened
from verifier.puzzle.printable import printable
from verifier.puzzle.records import KEYS

__all__ = ["SoFar", "read_so_far"]

_FIELD = "givens"
_LONGEST_NAME = 1000  # characters of a path in a message
_BRACES = re.compile(r"\{[^{}\n]*\}")
_MARKS = re.compile(r"\{([0-9]{1,2}(?:,[0-9]{1,2})*)\}\Z", re.ASCII)
_DIGIT = re.compile(r"[0-9]{1,2}\Z", re.ASCII)


@dataclass(frozen=True, slots=True)
class SoFar:
    """What stands in a part-filled grid.

    Parameters
    ----------
    entries : tuple of (int, int)
        Pairs of cell and digit, in reading order: the givens and what has been entered.
    marks : tuple of (int, tuple of int)
        Cells with pencil marks, and the digits marked there.
    """

    entries: tuple[tuple[int, int], ...]
    marks: tuple[tuple[int, tuple[int, ...]], ...] = ()


def read_so_far(
    path: Path, grid: Grid, limits: Limits = DEFAULT_LIMITS
) -> tuple[SoFar | None, tuple[Fault, ...]]:
    """Read a part-filled grid.

    Parameters
    ----------
    path : Path
        A YAML file with ``givens``, one line of JSON, or a bare line of digits.
    grid : Grid
        The grid of the puzzle.
    limits : Limits, optional
        How much of the file to take.

    Returns
    -------
    SoFar or None
        None when there is any fault.
    tuple of Fault
        Everything that is wrong with the file, at once.
    """
    report = FaultReport(printable(str(path), _LONGEST_NAME), limits.faults)
    try:
        with opened(path) as stream:
            found = list(islice(documents(stream, path.name, limits.puzzle_bytes), 2))
    except CannotOpenError as error:
        report.add("cannot-open", None, "the file", reason=str(error))
        return None, report.faults()
    if not found:
        report.add("empty", None, "the file")
    elif len(found) > 1:
        report.add("several-grids", found[1].line, "the file")
    else:
        node = _map_of(found[0], limits, report)
        so_far = None if node is None else _read(node, grid, report)
        if not report.count:
            return so_far, ()
    return None, report.faults()


def _map_of(document: Document, limits: Limits, report: FaultReport) -> Node | None:
    """Return the map of givens of a document."""
    if document.size > limits.puzzle_bytes:
        report.add("too-big", document.line, "the text", size=document.size, most=limits.puzzle_bytes)
        return None
    text = decode(document.data, document.line, report)
    if text is None:
        return None
    if document.form is Form.BARE:
        return TextNode(text, document.line)
    compose = compose_json if document.form is Form.JSON else compose_yaml
    root = compose(text, document.line, limits, report)
    if root is not None and not isinstance(root, KeysNode):
        report.add("not-a-puzzle", root.line, "the text", what=shape_of(root))
    if not isinstance(root, KeysNode):
        return None
    givens = read_keys(root, KEYS, "the grid", report).get(_FIELD)
    if givens is None:
        report.add("missing-key", root.line, _FIELD, allowed="a map of the grid", example="givens: |")
    return givens


def _read(node: Node, grid: Grid, report: FaultReport) -> SoFar:
    entries: list[tuple[int, int]] = []
    marks: list[tuple[int, tuple[int, ...]]] = []
    dense = grid.digits <= ONE_FIGURE
    for mark in read_map(_without_gaps(node, dense), _FIELD, grid, dense, report):
        if mark.text in EMPTY:
            continue
        digits = _digits(mark.text, grid)
        if digits is None:
            where = f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)
            report.add("marks", mark.line, f"{_FIELD}, {where}", word=mark.text, digits=grid.digits)
        elif mark.cell is not None and mark.text.startswith("{"):
            marks.append((mark.cell, digits))
        elif mark.cell is not None:
            entries.append((mark.cell, digits[0]))
    return SoFar(tuple(entries), tuple(marks))


def _without_gaps(node: Node, dense: bool) -> Node:
    """Return a map with no space inside braces; where a row has braces, its other marks stand apart."""
    if not isinstance(node, TextNode) or "{" not in node.text:
        return node
    lines = []
    for line in node.text.split("\n"):
        closed = _BRACES.sub(lambda found: re.sub(r"\s", "", found[0]), line)
        if dense and len(closed.split()) == 1:
            closed = " ".join(re.findall(r"\{[^{}]*\}|.", closed.strip()))
        lines.append(closed)
    return node._replace(text="\n".join(lines))


def _digits(text: str, grid: Grid) -> tuple[int, ...] | None:
    """Return the digits of an entry or of pencil marks, smallest first; None for anything else."""
    found = _MARKS.match(text)
    words = found[1].split(",") if found else [text] if _DIGIT.match(text) else []
    digits = tuple(sorted({int(word) for word in words}))
    return digits if digits and all(1 <= digit <= grid.digits for digit in digits) else None

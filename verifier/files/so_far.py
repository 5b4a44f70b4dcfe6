"""Reading a part-filled grid: a puzzle's map of givens with what has been entered, and pencil marks.

It is written like a puzzle file, of which only the ``givens`` are read, so the puzzle's own file will do,
with more digits in it or without givens; or the rows stand alone; or all cells stand in one line::

    givens: |                    5     3 {1,2} . ...             53..7....6..195...
      5     3 {1,2} . ...        {4,6} . .     9 ...
      {4,6} . .     9 ...

In a grid of up to nine digits, pencil marks need no commas: ``{46}``.
"""

from __future__ import annotations

import re
from contextlib import nullcontext
from dataclasses import dataclass
from io import BytesIO
from itertools import islice
from pathlib import Path
from typing import BinaryIO

from verifier.files.documents import Document, Form, documents
from verifier.files.faults import Fault, FaultReport
from verifier.files.fields.fields import read_keys, shape_of
from verifier.files.fields.maps import EMPTY, ONE_FIGURE, is_blocked, read_map
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.opening import CannotOpenError, opened
from verifier.files.records import KEYS
from verifier.files.text.nodes import KeysNode, Node, TextNode, compose_json, compose_yaml, decode
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import printable

__all__ = ["SoFar", "read_so_far"]

_FIELD = "givens"
_MAP = "cells"
"""Where digits may be written into the map of a kakuro."""
_OF_A_PUZZLE = "puzzle"
"""A file with this key and without givens is that of a puzzle in which nothing is given or entered."""
_LONGEST_NAME = 1000  # characters of a path in a message
_BRACES = re.compile(r"\{[^{}\n]*\}")
_GAP = re.compile(r"\s*,\s*|\s+")
_MARKS = re.compile(r"\{([0-9]{1,30}(?:,[0-9]{1,30})*)\}\Z", re.ASCII)
_ROWS_ALONE = re.compile(r"[^\s:\[\-\"'&*!|>@`%][^:]*\Z")
"""Text without a key: no colon anywhere, and no sign at the start that YAML gives a meaning."""
_COMMENT = re.compile(r"^[ \t]*#.*$", re.MULTILINE)
_REMARK = re.compile(r"^[ \t]*#.*[^\W\d_].*$", re.MULTILINE)
"""A comment beside rows that may themselves begin with ``#``: it has a letter."""
_DRAWN = re.compile(r"[#.0-9{},\s]*\Z", re.ASCII)
"""Rows of a grid with blocked cells, and nothing else."""
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
    path: Path, grid: Grid, limits: Limits = DEFAULT_LIMITS, typed: BinaryIO | None = None
) -> tuple[SoFar | None, tuple[Fault, ...]]:
    """Read a part-filled grid.

    Parameters
    ----------
    path : Path
        A YAML file with ``givens``, one line of JSON, rows alone, or a bare line of digits.
    grid : Grid
        The grid of the puzzle.
    limits : Limits, optional
        How much of the file to take.
    typed : binary file, optional
        Read in place of the file; `path` is then only its name in messages.

    Returns
    -------
    SoFar or None
        None when there is any fault.
    tuple of Fault
        Everything that is wrong with the file, at once.
    """
    report = FaultReport(printable(str(path), _LONGEST_NAME), limits.faults)
    try:
        with opened(path) if typed is None else nullcontext(typed) as stream:
            found = _documents(stream, path.name, grid, limits.puzzle_bytes)
    except CannotOpenError as error:
        report.add("cannot-open", None, "the file", reason=str(error))
        return None, report.faults()
    if not found:
        report.add("empty", None, "the file")
    elif len(found) > 1 and not _are_rows(found, grid):
        report.add("several-grids", found[1].line, "the file")
    else:
        node = _map_of(_in_one(found), _REMARK if grid.blocked else _COMMENT, limits, report)
        so_far = SoFar(()) if node is None else _read(node, grid, report)
        if not report.count:
            return so_far, ()
    return None, report.faults()


def _documents(stream: BinaryIO, name: str, grid: Grid, most: int) -> list[Document]:
    """Return what the file holds, up to more documents than a grid can have rows.

    Rows with blocked cells that stand alone are one piece: elsewhere one that begins with ``#`` is a comment.
    """
    if grid.blocked:
        data = stream.read(most + 1)
        rows = _REMARK.sub("", data.decode("utf-8", "replace"))
        if rows.strip() and _DRAWN.match(rows):
            return [Document(Form.BARE, 1, data, len(data))]
        stream = BytesIO(data)
    return list(islice(documents(stream, name, most), grid.rows + 1))


def _are_rows(found: list[Document], grid: Grid) -> bool:
    """Whether long lines without a gap are the rows of one grid, with pencil marks, and not a grid each."""
    return all(one.form is Form.BARE and len(one.data.strip()) != grid.cell_count for one in found)


def _in_one(found: list[Document]) -> Document:
    if len(found) == 1:
        return found[0]
    data = b"\n".join(one.data.strip() for one in found)
    return Document(Form.BARE, found[0].line, data, sum(one.size for one in found))


def _map_of(document: Document, comment: re.Pattern[str], limits: Limits, report: FaultReport) -> Node | None:
    """Return the map of givens of a document; None where there is none, which is a fault or no givens."""
    if document.size > limits.puzzle_bytes:
        report.add("too-big", document.line, "the text", size=document.size, most=limits.puzzle_bytes)
        return None
    text = decode(document.data, document.line, report)
    if text is None:
        return None
    alone = comment.sub("", text).strip()
    if document.form is Form.BARE or (document.form is Form.YAML and _ROWS_ALONE.match(alone)):
        return _rows_alone(comment.sub("", text).rstrip(), document.line)
    compose = compose_json if document.form is Form.JSON else compose_yaml
    root = compose(text, document.line, limits, report)
    if root is not None and not isinstance(root, KeysNode):
        report.add("not-a-puzzle", root.line, "the text", what=shape_of(root))
    if not isinstance(root, KeysNode):
        return None
    fields = read_keys(root, KEYS, "the grid", report)
    givens = fields.get(_FIELD) or fields.get(_MAP)
    if givens is None and _OF_A_PUZZLE not in (
        key.text for key, _ in root.pairs if isinstance(key, TextNode)
    ):
        report.add("missing-key", root.line, _FIELD, allowed="a map of the grid", example="givens: |")
    return givens


def _rows_alone(text: str, line: int) -> TextNode:
    """Return rows without a key as they would stand below one."""
    return TextNode(text, line - 1, "|") if "\n" in text.strip() else TextNode(text, line)


def _read(node: Node, grid: Grid, report: FaultReport) -> SoFar:
    entries: list[tuple[int, int]] = []
    marks: list[tuple[int, tuple[int, ...]]] = []
    dense, blocked = grid.digits <= ONE_FIGURE, frozenset(grid.blocked)
    for mark in read_map(_without_gaps(node, dense), _FIELD, grid, dense, report):
        if mark.text in EMPTY or is_blocked(mark, _FIELD, blocked, grid, report):
            continue
        digits = _digits(mark.text, grid, dense)
        if digits is None:
            where = f"row {mark.row}" if mark.cell is None else grid.cell_name(mark.cell)
            report.add("marks", mark.line, f"{_FIELD}, {where}", word=mark.text, digits=grid.digits)
        elif mark.cell is not None and mark.text.startswith("{"):
            marks.append((mark.cell, digits))
        elif mark.cell is not None:
            entries.append((mark.cell, digits[0]))
    return SoFar(tuple(entries), tuple(marks))


def _without_gaps(node: Node, dense: bool) -> Node:
    """Return a map with commas, no space, in braces; where a row has braces, its other marks stand apart."""
    if not isinstance(node, TextNode) or "{" not in node.text:
        return node
    lines = []
    for line in node.text.split("\n"):
        closed = _BRACES.sub(lambda found: f"{{{_GAP.sub(',', found[0][1:-1].strip())}}}", line)
        if dense and len(closed.split()) == 1:
            closed = " ".join(re.findall(r"\{[^{}]*\}|.", closed.strip()))
        lines.append(closed)
    return node._replace(text="\n".join(lines))


def _digits(text: str, grid: Grid, dense: bool) -> tuple[int, ...] | None:
    """Return the digits of an entry or of pencil marks, smallest first; None for anything else."""
    found = _MARKS.match(text)
    marked = (found[1].replace(",", "") if dense else found[1].split(",")) if found else ()
    words = marked or ([text] if _DIGIT.match(text) else [])
    digits = tuple(sorted({int(word) for word in words}))
    return digits if digits and all(1 <= digit <= grid.digits for digit in digits) else None

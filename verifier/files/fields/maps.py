"""Maps: text with one row a line and one mark a cell, as cages, givens and solutions are written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set
from textwrap import indent
from typing import NamedTuple

from verifier.files.faults import FaultReport
from verifier.files.fields.fields import looks_like, shape_of, whole_number
from verifier.files.text.nodes import Node, TextNode
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.printable import counted

__all__ = [
    "BLOCKED",
    "EMPTY",
    "ONE_FIGURE",
    "TOTALS_DIVIDED",
    "Mark",
    "draw_map",
    "is_blocked",
    "read_digits",
    "read_map",
    "read_solution",
    "rows_in",
]

EMPTY = (".", "0")
"""An empty cell among digits."""

BLOCKED = "#"
"""A cell that is not filled."""

TOTALS_DIVIDED = "\\"
"""What stands in a blocked cell between the total down and the total across."""

_DOT = {"cages": "; a cell in no cage is a '.' too", "givens": "; an empty cell is a '.' too"}
"""What an editor who counts the marks of a row may have forgotten."""

_BESIDE_DIGITS = (" and '.' for an empty cell", ", one in every cell")
"""What a message adds to the digits that are allowed: where 0 is one of them, and where it is not."""

_BESIDE_BLOCKED = ", with '#' in the blocked ones"

ONE_FIGURE = 9
"""Up to this digit a row may be written without spaces, one character a cell."""


class Mark(NamedTuple):
    """One mark of a map, where it stands in the file, and its cell.

    The cell is None in a row that is too long, too short, or one too many: nobody can say which
    cell is meant, but the mark itself can still be checked.
    """

    text: str
    cell: int | None
    row: int
    line: int


class _Row(NamedTuple):
    line: int
    marks: list[str]


def read_map(node: Node, field: str, grid: Grid, dense: bool, report: FaultReport) -> list[Mark]:
    """Return the marks of a map, in reading order; rows too long, too short, too many are faults.

    The marks come back all the same, so that they can be checked as well.

    Parameters
    ----------
    node : Node
        The text of the map.
    field : str
        Its key.
    grid : Grid
        How many rows and marks there must be.
    dense : bool
        Whether every mark has one character, so that a row may be written without spaces.
    report : FaultReport
        Takes the faults.
    """
    if not isinstance(node, TextNode):
        report.add("not-a-map", node.line, field, what=shape_of(node), key=field, **_size(grid))
        return []
    rows = _rows(node, grid, dense)
    if len(rows) == 1 and node.style != "|":
        found = counted(len(rows[0].marks), "mark")
        report.add("rows-run-together", node.line, field, marks=found, key=field, **_size(grid))
        return []
    if len(rows) != grid.rows:
        _report_count(node, field, len(rows), grid, report)
    return list(_marks(rows, field, grid, report))


def read_digits(node: Node, field: str, grid: Grid, report: FaultReport) -> dict[int, int]:
    """Return the digits of a map by cell; ``.`` and ``0`` are empty cells."""
    digits: dict[int, int] = {}
    blocked = frozenset(grid.blocked)
    for mark in read_map(node, field, grid, grid.digits <= ONE_FIGURE, report):
        if mark.text in EMPTY or is_blocked(mark, field, blocked, grid, report):
            continue
        digit = _digit(mark, field, grid, 0, report)
        if digit is not None and mark.cell is not None:
            digits[mark.cell] = digit
    return digits


def read_solution(node: Node, field: str, grid: Grid, report: FaultReport) -> Filling | None:
    """Return the digits of a full map, in reading order; None where any is missing or at fault.

    A blocked cell has ``#`` there, and 0 in what is returned.
    """
    blocked = frozenset(grid.blocked)
    marks = read_map(node, field, grid, grid.digits <= ONE_FIGURE, report)
    digits = [
        0 if is_blocked(mark, field, blocked, grid, report) else _digit(mark, field, grid, 1, report)
        for mark in marks
    ]
    full = [digit for digit in digits if digit is not None]
    return tuple(full) if len(full) == grid.cell_count else None


def is_blocked(mark: Mark, field: str, blocked: Set[int], grid: Grid, report: FaultReport) -> bool:
    """Whether a mark of a map stands in a blocked cell; anything but ``#`` and totals there is a fault."""
    if mark.cell is None or mark.cell not in blocked:
        return False
    if mark.text != BLOCKED and TOTALS_DIVIDED not in mark.text:
        report.add("blocked-cell", mark.line, f"{field}, {grid.cell_name(mark.cell)}", word=mark.text)
    return True


def rows_in(node: Node | None) -> int:
    """Return how many rows a map seems to have, whatever the grid; 0 for what is no map."""
    return sum(1 for row in node.text.split("\n") if row.strip()) if isinstance(node, TextNode) else 0


def _rows(node: TextNode, grid: Grid, dense: bool) -> list[_Row]:
    """Divide a map into rows; empty lines between the bands of a grid do not count."""
    # Only after "|" do the lines of the text stand on lines of their own in the file.
    step = 1 if node.style == "|" else 0
    lines = enumerate(node.text.split("\n"), start=1)
    rows = [_Row(node.line + step * number, line.split()) for number, line in lines if line.strip()]
    rows = [_spread(row, grid.columns if len(rows) > 1 else grid.cell_count, dense) for row in rows]
    if len(rows) == 1 and len(rows[0].marks) == grid.cell_count:
        # Without "|", YAML runs the rows together. Nothing is lost: a row never has so many marks.
        line, marks = rows[0]
        return [_Row(line, marks[at : at + grid.columns]) for at in range(0, len(marks), grid.columns)]
    return rows


def _spread(row: _Row, wanted: int, dense: bool) -> _Row:
    """Divide a row written without spaces into its marks."""
    if dense and wanted > 1 and len(row.marks) == 1:
        return _Row(row.line, list(row.marks[0]))
    return row


def _marks(rows: list[_Row], field: str, grid: Grid, report: FaultReport) -> Iterator[Mark]:
    # Of a file that has no measure, what lies beyond twice the grid is not looked at.
    for number, row in enumerate(rows[: 2 * grid.rows], start=1):
        fits = len(row.marks) == grid.columns
        if not fits:
            _report_length(row, number, field, grid, report)
        start = (number - 1) * grid.columns if fits and number <= grid.rows else None
        for column, mark in enumerate(row.marks[: 2 * grid.columns]):
            yield Mark(mark, None if start is None else start + column, number, row.line)


def _digit(mark: Mark, field: str, grid: Grid, least: int, report: FaultReport) -> int | None:
    """Return the digit of a mark; `least` is 0 where a cell may be empty, and written so."""
    digit = whole_number(mark.text)
    if digit is not None and 1 <= digit <= grid.digits:
        return digit
    code = "not-a-digit" if digit is None else "digit-range"
    where = f"{field}, {f'row {mark.row}' if mark.cell is None else grid.cell_name(mark.cell)}"
    hint = looks_like(mark.text, range(least, grid.digits + 1))
    dot = _BESIDE_DIGITS[least] + (_BESIDE_BLOCKED if grid.blocked else "")
    report.add(code, mark.line, where, hint=hint, word=mark.text, digits=grid.digits, dot=dot)
    return None


def _report_count(node: TextNode, field: str, rows: int, grid: Grid, report: FaultReport) -> None:
    difference = _difference(rows - grid.rows, "row")
    found = counted(rows, "row")
    line = node.line or None  # rows that stand alone have no line with a key
    report.add("row-count", line, field, found=found, difference=difference, **_size(grid))


def _report_length(row: _Row, number: int, field: str, grid: Grid, report: FaultReport) -> None:
    found = counted(len(row.marks), "mark")
    difference = _difference(len(row.marks) - grid.columns, "mark")
    dot = _DOT.get(field, "")
    where = f"{field}, row {number}"
    report.add("row-length", row.line, where, found=found, difference=difference, dot=dot, **_size(grid))


def _size(grid: Grid) -> dict[str, str]:
    return {"rows": counted(grid.rows, "row"), "wanted": counted(grid.columns, "mark")}


def _difference(surplus: int, noun: str) -> str:
    return f"{'Take out' if surplus > 0 else 'Add'} {counted(abs(surplus), noun)}"


def draw_map(key: str, grid: Grid, mark: Callable[[int], str]) -> str:
    """Return a map as a file has it, with its columns in line: for each cell the mark that it gets."""
    marks = tuple(mark(cell) for cell in range(grid.cell_count))
    width = max(len(text) for text in marks)
    rows = grid.rows_of(marks)
    drawn = "".join(" ".join(text.ljust(width) for text in row).rstrip() + "\n" for row in rows)
    return f"{key}: |\n{indent(drawn, '  ')}"

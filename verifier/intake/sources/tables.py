"""Reading a table of comma-separated values with a column of puzzles.

The column is called ``puzzle``. Each of its entries is a bare line of digits, or a puzzle as it would
stand in a file. Beside bare lines, columns called ``id``, ``title``, ``setter`` and ``solution`` are read
too; other columns are left alone. The separator is a comma, a semicolon or a tab, whichever divides the
headings so that there is such a column. The format is that of RFC 4180.
"""

from __future__ import annotations

import csv
import json
import math
import re
from collections.abc import Iterator, Mapping
from typing import BinaryIO

from verifier.files.documents import Document, Form

__all__ = ["NoPuzzleColumnError", "documents_in_table"]

COLUMN = "puzzle"

_CREDITS = ("id", "title", "setter")
_SEPARATORS = ",;\t"
_BARE = re.compile(r"[0-9.]+")
_UTF8_MARK = "\ufeff"


class NoPuzzleColumnError(Exception):
    """A table without a column of puzzles; or with a heading line longer than any puzzle."""


def documents_in_table(stream: BinaryIO, limit: int) -> Iterator[Document]:
    r"""Find the puzzles of a table.

    Parameters
    ----------
    stream : binary file
        Read line by line.
    limit : int
        Bytes of a line that are kept.

    Raises
    ------
    NoPuzzleColumnError
        If the first line names no column ``puzzle``.

    Examples
    --------
    >>> import io
    >>> table = io.BytesIO(b"id,puzzle\nebb,1...............\n")
    >>> [document.data.decode()[:54] for document in documents_in_table(table, 1000)]
    ['{"puzzle": "classic", "grid": "4x4", "id": "ebb", "giv']
    """
    lines = _Lines(stream, limit)
    separator, columns = _headings(next(lines, ""))
    rows = csv.reader(lines, delimiter=separator)
    while True:
        first_line = lines.number + 1
        try:
            row = next(rows)
        except StopIteration:
            return
        except csv.Error:  # a cell longer than any puzzle, or a NUL: what it says is not worth keeping
            rows = csv.reader(lines, delimiter=separator)
            yield Document(Form.BARE, first_line, b"\0", 1)
            continue
        cells = {name: row[place] for name, place in columns.items() if place < len(row)}
        if cells.get(COLUMN, "").strip():
            yield _document(cells, first_line)


class _Lines:
    """The lines of a file as text, cut to a limit, with their numbers."""

    def __init__(self, stream: BinaryIO, limit: int) -> None:
        self._stream, self._limit = stream, limit
        self.number = 0

    def __iter__(self) -> _Lines:
        return self

    def __next__(self) -> str:
        line = self._stream.readline(self._limit)
        if not line:
            raise StopIteration
        self.number += line.endswith(b"\n")
        # What is no UTF-8 is handed on as it is; the reader says where it stands.
        return line.decode("utf-8", "surrogateescape")


def _headings(line: str) -> tuple[str, Mapping[str, int]]:
    """Return the separator, and the place of each column that is read."""
    for separator in _SEPARATORS:
        try:
            names = next(csv.reader([line.removeprefix(_UTF8_MARK)], delimiter=separator), [])
        except csv.Error:
            continue
        known = (COLUMN, *_CREDITS, "solution")
        places = {name.strip().lower(): place for place, name in reversed(list(enumerate(names)))}
        if COLUMN in places:
            return separator, {name: places[name] for name in known if name in places}
    raise NoPuzzleColumnError


def _document(cells: Mapping[str, str], line: int) -> Document:
    puzzle = cells[COLUMN].strip()
    size = math.isqrt(len(puzzle))
    others = any(cells.get(name, "").strip() for name in (*_CREDITS, "solution"))
    is_grid = size > 1 and size * size == len(puzzle) and _BARE.fullmatch(puzzle)
    if is_grid and (others or size != 9):
        return _as_bytes(Form.JSON, line, json.dumps(_record(cells, puzzle, size), ensure_ascii=False))
    one_word = " " not in puzzle and ":" not in puzzle and "\n" not in puzzle
    form = Form.BARE if one_word else Form.JSON if puzzle.startswith('{"') else Form.YAML
    return _as_bytes(form, line, puzzle)


def _record(cells: Mapping[str, str], puzzle: str, size: int) -> dict[str, str]:
    record = {"puzzle": "classic", "grid": f"{size}x{size}"}
    record |= {name: cells[name] for name in _CREDITS if cells.get(name, "").strip()}
    solution = cells.get("solution", "").strip()
    record["givens"] = _map(puzzle.replace("0", "."), size)
    return record | ({"solution": _map(solution, size)} if solution else {})


def _map(digits: str, size: int) -> str:
    rows = (digits[start : start + size] for start in range(0, len(digits), size))
    return "".join(" ".join(row) + "\n" for row in rows)


def _as_bytes(form: Form, line: int, text: str) -> Document:
    data = text.encode("utf-8", "surrogateescape")
    return Document(form, line, data, len(data))

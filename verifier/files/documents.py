"""Dividing a file into puzzles before anything is parsed.

A broken puzzle then costs only itself, line numbers are those of the file, and memory does not grow
with the number of puzzles.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum
from typing import BinaryIO

from verifier.files.lines import Line, lines
from verifier.files.text.foreign import HEAD, other_kind

__all__ = ["Document", "Form", "documents"]

_MARKER = re.compile(rb"(?:---|\.\.\.)(?=\s|$)")
_NOTHING = re.compile(rb"\s*(?:#.*)?$", re.DOTALL)
_JSON_LINE = re.compile(rb'\s*\{\s*".*\}\s*$', re.DOTALL)
_BARE_LINE = re.compile(rb"\s*[^\s:{\[\"'#%&*!|>][^\s:]{40,}\s*$")
"""One long word is meant as a bare line, also where its length or a character is wrong."""

_JSON_LINES_NAMES = (".jsonl", ".ndjson")


class Form(Enum):
    """How a puzzle is written."""

    YAML = "YAML"
    JSON = "a line of JSON Lines"
    BARE = "a bare line of digits"


@dataclass(frozen=True, slots=True)
class Document:
    """The bytes of one puzzle.

    Parameters
    ----------
    form : Form
        How it is written.
    line : int
        Line of the file on which it starts, counted from 1.
    data : bytes
        Its text; cut short where it is longer than the limit.
    size : int
        Its true number of bytes.
    """

    form: Form
    line: int
    data: bytes
    size: int


@dataclass(slots=True)
class _Gathered:
    """The lines of a YAML document so far, up to the limit."""

    limit: int
    line: int = 0
    size: int = 0
    parts: list[bytes] = field(default_factory=list)

    def add(self, line: Line) -> None:
        self.line = self.line or line.number
        if self.size <= self.limit:
            self.parts.append(line.data)
        self.size += line.size

    def document(self) -> Iterator[Document]:
        if self.line:
            yield Document(Form.YAML, self.line, b"".join(self.parts), self.size)


def documents(stream: BinaryIO, name: str, limit: int) -> Iterator[Document]:
    r"""Divide a file into its puzzles.

    A line ``---`` or ``...`` ends a YAML document. A file whose first puzzle is one line of JSON, or
    whose name says so, holds JSON Lines to its end; bare lines follow one another up to the next
    ``---``. Documents without content are left out. Of a file that is no plain text, its beginning comes as
    one document: `verifier.files.text.nodes.decode` tells what it is.

    Parameters
    ----------
    stream : binary file
        Read block by block, never as a whole.
    name : str
        The file's name; one that ends in ``.jsonl`` or ``.ndjson`` holds JSON Lines.
    limit : int
        Bytes of one puzzle that are kept.

    Yields
    ------
    Document
        In the order of the file.

    Examples
    --------
    >>> import io
    >>> for d in documents(io.BytesIO(b"a: 1\n---\n# two\nb: 2\n"), "box.yaml", 100):
    ...     print(d.line, d.data)
    1 b'a: 1\n'
    4 b'b: 2\n'
    """
    form = Form.JSON if name.lower().endswith(_JSON_LINES_NAMES) else None
    gathered = _Gathered(limit)
    for line in lines(stream, limit):
        if line.number == 1 and other_kind(line.data, name):
            head = line.data[:HEAD]
            yield Document(Form.YAML, 1, head, len(head))
            return
        marker = _MARKER.match(line.data)
        if marker and form is not Form.JSON:
            yield from gathered.document()
            gathered, form = _Gathered(limit), None
            if not _NOTHING.match(line.data, marker.end()):
                form = Form.YAML  # "--- {puzzle: killer}" begins on the marker's line
                gathered.add(line)
        elif form is Form.YAML:
            gathered.add(line)
        elif not marker and not _NOTHING.match(line.data):
            form = form or _form_of(line.data)
            if form is Form.YAML:
                gathered.add(line)
            elif form is not None:
                yield Document(form, *line)
    yield from gathered.document()


def _form_of(data: bytes) -> Form | None:
    """Return the form of the document that starts with this line; None for a directive, which is none."""
    if data.startswith(b"%"):
        return None
    if _JSON_LINE.match(data):
        return Form.JSON
    return Form.BARE if _BARE_LINE.match(data) else Form.YAML

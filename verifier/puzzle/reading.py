"""Reading puzzle files: YAML, streams of YAML, JSON Lines and bare lines of digits.

A file is untrusted and may hold any number of puzzles. It is divided into documents first
(`verifier.puzzle.documents`), each document becomes nodes (`verifier.puzzle.nodes`), and the nodes become
a puzzle (`verifier.puzzle.records`). Whatever the file holds, each puzzle of it gives one `Entry`.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import BinaryIO

from verifier.puzzle.documents import Document, Form, documents
from verifier.puzzle.faults import Fault, FaultReport
from verifier.puzzle.limits import DEFAULT_LIMITS, Limits
from verifier.puzzle.nodes import compose_json, compose_yaml, decode
from verifier.puzzle.opening import CannotOpenError, opened
from verifier.puzzle.printable import counted, printable
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.records import read_bare_line, read_record

__all__ = ["Entry", "Limits", "read_address", "read_file", "read_stream", "read_text"]

_NUMBERED = re.compile(r"(.+)#([1-9][0-9]{0,8})\Z", re.DOTALL)

_LONGEST_NAME = 5000
"""Characters of a path; no system has longer ones."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One puzzle of a file, or the faults that keep it from being read.

    Parameters
    ----------
    address : str
        The file, and ``#3`` where the file holds several; messages name the puzzle by it.
    puzzle : Puzzle or None
        None when it could not be read. Its ``credits.id`` is always set: without an id in the
        file it is the address without the folder.
    faults : tuple of Fault
        Everything that is wrong with the file, at once; empty when it could be read.
    """

    address: str
    puzzle: Puzzle | None
    faults: tuple[Fault, ...] = ()


def read_text(data: bytes, name: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[Entry]:
    r"""Read the puzzles in the bytes of a file.

    Parameters
    ----------
    data : bytes
        Any bytes at all.
    name : str
        The file's name, for messages and for puzzles without an id.
    limits : Limits, optional
        How much of the file to take.

    Yields
    ------
    Entry
        One for each puzzle, in the order of the file; one with a fault for a file without any.

    Examples
    --------
    >>> text = b"puzzle: classic\ngrid: 4x4\n---\npuzle: classic\ngrid: 4x4\n"
    >>> good, bad = read_text(text, "box.yaml")
    >>> good.address, good.puzzle.kind, good.puzzle.credits.id
    ('box.yaml#1', 'classic', 'box.yaml#1')
    >>> print(bad.faults[0].cure)
    Did you mean 'puzzle'?
    """
    yield from read_stream(io.BytesIO(data), name, limits)


def read_file(path: Path, name: str | None = None, limits: Limits = DEFAULT_LIMITS) -> Iterator[Entry]:
    """Read the puzzles of a file, one after the other; memory does not grow with their number.

    Parameters
    ----------
    path : Path
        The file. One that cannot be opened gives one entry with a fault.
    name : str, optional
        What messages call the file; its path when absent.
    limits : Limits, optional
        How much of the file to take.

    Yields
    ------
    Entry
        As from `read_text`.
    """
    called = str(path) if name is None else name
    try:
        with opened(path) as stream:
            yield from read_stream(stream, called, limits)
    except CannotOpenError as error:
        yield _fault_entry(called, "cannot-open", reason=str(error))


def read_stream(stream: BinaryIO, name: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[Entry]:
    """Read the puzzles of an open file, such as the standard input, as far as they are asked for.

    Parameters
    ----------
    stream : binary file
        Open for reading.
    name : str
        What messages call it.
    limits : Limits, optional
        How much of it to take.

    Yields
    ------
    Entry
        As from `read_text`.
    """
    found = documents(stream, name, limits.puzzle_bytes)
    first = list(islice(found, 2))  # a second puzzle decides whether the first has a number
    if not first:
        yield _fault_entry(name, "empty")
    for number, document in enumerate(chain(first, found), start=1):
        yield _read_document(document, name if len(first) == 1 else f"{name}#{number}", limits)


def read_address(address: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[Entry]:
    """Read what a person names: a file, or with ``#3`` the third puzzle of a file.

    Parameters
    ----------
    address : str
        ``FILE`` or ``FILE#3``. A file that is really called so is read as a whole.
    limits : Limits, optional
        How much of the file to take.

    Yields
    ------
    Entry
        As from `read_text`; a number that the file has not is a fault.
    """
    numbered = _NUMBERED.match(address)
    if numbered is None or _exists(Path(address)):
        yield from read_file(Path(address), limits=limits)
        return
    name, wanted, puzzles = numbered[1], int(numbered[2]), 0
    for puzzles, entry in enumerate(read_file(Path(name), limits=limits), start=1):
        if puzzles == wanted or _is_of_file(entry):
            yield entry
            return
    allowed = "#1" if puzzles == 1 else f"#1 to #{puzzles}"
    yield _fault_entry(address, "no-such-number", puzzles=counted(puzzles, "puzzle"), allowed=allowed)


def _read_document(document: Document, name: str, limits: Limits) -> Entry:
    address = _safe_name(name)
    report = FaultReport(address, limits.faults)
    puzzle = None
    if document.size > limits.puzzle_bytes:
        report.add("too-big", document.line, "the text", size=document.size, most=limits.puzzle_bytes)
    else:
        text = decode(document.data, document.line, report)
        if text is not None:
            puzzle = _read_puzzle(
                document.form, text, document.line, Path(address).name or "puzzle", limits, report
            )
    return Entry(address, puzzle, report.faults())


def _read_puzzle(
    form: Form, text: str, line: int, default_id: str, limits: Limits, report: FaultReport
) -> Puzzle | None:
    if form is Form.BARE:
        return read_bare_line(text.strip(), line, default_id, report)
    compose = compose_json if form is Form.JSON else compose_yaml
    node = compose(text, line, limits, report)
    return None if node is None else read_record(node, default_id, limits, report)


def _fault_entry(name: str, code: str, **facts: str) -> Entry:
    address = _safe_name(name)
    report = FaultReport(address, 1)
    report.add(code, None, "the file", None, **facts)
    return Entry(address, None, report.faults())


def _safe_name(name: str) -> str:
    return printable(name, _LONGEST_NAME)


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def _is_of_file(entry: Entry) -> bool:
    """Whether the entry says that the file as a whole could not be read."""
    return any(fault.code in ("cannot-open", "empty") for fault in entry.faults)

"""Reading puzzle files: YAML, streams of YAML, JSON Lines and bare lines of digits.

A file is untrusted and may hold any number of puzzles. It is divided into submissions first
(`verifier.files.documents`, `verifier.files.submissions`), the bytes of each become nodes
(`verifier.files.text.nodes`), and the nodes become a puzzle (`verifier.files.records`). Whatever the file
holds, each puzzle of it gives one `ReadEntry`.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from verifier.files.documents import Form
from verifier.files.faults import Fault, FaultReport
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.records import read_bare_line, read_record
from verifier.files.submissions import Submission, submissions_at, submissions_in_file, submissions_in_stream
from verifier.files.text.nodes import compose_json, compose_yaml, decode
from verifier.puzzle.puzzle import Puzzle

__all__ = [
    "READER_VERSION",
    "Limits",
    "ReadEntry",
    "read_address",
    "read_file",
    "read_submission",
    "read_text",
]

READER_VERSION = 5
"""Goes up when the reader takes what it refused before, or reads anything in another way: a ledger then has
judged anew what an older reader read."""


@dataclass(frozen=True, slots=True)
class ReadEntry:
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


def read_text(data: bytes, name: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[ReadEntry]:
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
    ReadEntry
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
    sent = submissions_in_stream(io.BytesIO(data), name, limits)
    yield from (read_submission(submission, limits) for submission in sent)


def read_file(path: Path, name: str | None = None, limits: Limits = DEFAULT_LIMITS) -> Iterator[ReadEntry]:
    """Read the puzzles of a file, one after the other; memory does not grow with their number.

    Parameters
    ----------
    path : Path
        The file. One that cannot be opened gives one entry with a fault.
    name : str, optional
        What messages call the file; its path when absent.
    limits : Limits, optional
        How much of the file to take.
    """
    yield from (read_submission(sent, limits) for sent in submissions_in_file(path, name, limits))


def read_address(address: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[ReadEntry]:
    """Read what a person names: a file, or with ``#3`` the third puzzle of a file.

    Parameters
    ----------
    address : str
        ``FILE`` or ``FILE#3``. A file that is really called so is read as a whole.
    limits : Limits, optional
        How much of the file to take.

    Yields
    ------
    ReadEntry
        As from `read_text`; a number that the file has not is a fault.
    """
    yield from (read_submission(sent, limits) for sent in submissions_at(address, limits))


def read_submission(submission: Submission, limits: Limits = DEFAULT_LIMITS) -> ReadEntry:
    """Read one puzzle that was found in a file.

    Parameters
    ----------
    submission : Submission
        Where it stands, and its bytes.
    limits : Limits, optional
        How much of it to take.

    Returns
    -------
    ReadEntry
        Without a puzzle where there is any fault.
    """
    document = submission.document
    if document is None:
        return ReadEntry(submission.address, None, submission.faults)
    report = FaultReport(submission.address, limits.faults)
    puzzle = None
    if document.size > limits.puzzle_bytes:
        report.add("too-big", document.line, "the text", size=document.size, most=limits.puzzle_bytes)
    else:
        text = decode(document.data, document.line, report)
        if text is not None:
            puzzle = _read_puzzle(document.form, text, document.line, submission.default_id, limits, report)
    return ReadEntry(submission.address, puzzle, report.faults())


def _read_puzzle(
    form: Form, text: str, line: int, default_id: str, limits: Limits, report: FaultReport
) -> Puzzle | None:
    if form is Form.BARE:
        return read_bare_line(text.strip(), line, default_id, report)
    compose = compose_json if form is Form.JSON else compose_yaml
    node = compose(text, line, limits, report)
    return None if node is None else read_record(node, default_id, limits, report)

"""Puzzles as they were sent: each with its address and its bytes, found in files but not read yet.

Finding them costs next to nothing and cannot go wrong for the contents of a puzzle; what is in the bytes is
read by `verifier.files.reading`, if need be in another process.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import chain, islice
from pathlib import Path
from typing import BinaryIO

from verifier.files.documents import Document, documents
from verifier.files.faults import Fault, FaultReport
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.opening import CannotOpenError, opened
from verifier.puzzle.printable import counted, printable

__all__ = [
    "Submission",
    "digest_of_sent",
    "numbered",
    "split_number",
    "submission_with_fault",
    "submissions_at",
    "submissions_in_file",
    "submissions_in_stream",
    "the_one_numbered",
]

_NUMBERED = re.compile(r"(.+)#([1-9][0-9]{0,8})\Z", re.DOTALL)

_LONGEST_NAME = 5000
"""Characters of a path; no system has longer ones."""

_OF_THE_FILE = ("cannot-open", "empty")
"""Faults of a file as a whole, which has no numbered puzzles then."""


@dataclass(frozen=True, slots=True)
class Submission:
    """One puzzle as it was sent.

    Parameters
    ----------
    address : str
        The file, and ``#3`` where the file holds several; safe to print.
    document : Document or None
        Its bytes; None when there are none to be had.
    faults : tuple of Fault
        Why there are none.
    origin : str
        The file in which it was found, by its one real path; ``-`` for standard input. Empty where nobody
        asked.
    """

    address: str
    document: Document | None
    faults: tuple[Fault, ...] = ()
    origin: str = field(default="", compare=False)

    @property
    def default_id(self) -> str:
        """The id of a puzzle that gives none: the address without the folder."""
        return Path(self.address).name or "puzzle"

    @property
    def digest(self) -> str:
        """A hash of everything that was sent, credits and claimed solution included.

        Where it stands is not part of it, neither the file nor the line: a puzzle stays the same when it is
        moved, or another one above it grows. What could not be had is known by its address alone.
        """
        sent = self.document
        if sent is None:
            return _hashed((self.address, self.faults))
        return digest_of_sent(sent.form.name, sent.size, sent.data)


def digest_of_sent(form: str, size: int, data: bytes) -> str:
    r"""Return a hash of a puzzle as it was sent.

    Parameters
    ----------
    form : str
        The name of its `Form`.
    size : int
        Bytes in all.
    data : bytes
        Those that were taken. Empty lines around them come and go as puzzles of a file are parted.

    Examples
    --------
    >>> digest_of_sent("YAML", 5, b"a: 1\n") == digest_of_sent("YAML", 7, b"\na: 1\n\n")
    True
    """
    bare = data.strip(b"\r\n")
    return _hashed((form, size - len(data) + len(bare), bare))


def _hashed(parts: tuple[object, ...]) -> str:
    return hashlib.sha256(repr(parts).encode("utf-8", "surrogatepass")).hexdigest()[:32]


def submissions_in_stream(
    stream: BinaryIO, name: str, limits: Limits = DEFAULT_LIMITS
) -> Iterator[Submission]:
    r"""Find the puzzles of an open file, as far as they are asked for.

    Examples
    --------
    >>> import io
    >>> found = submissions_in_stream(io.BytesIO(b"a: 1\n---\nb: 2\n"), "box.yaml")
    >>> [(one.address, one.document.data) for one in found]
    [('box.yaml#1', b'a: 1\n'), ('box.yaml#2', b'b: 2\n')]
    """
    yield from numbered(documents(stream, name, limits.puzzle_bytes), name)


def numbered(found: Iterable[Document], name: str) -> Iterator[Submission]:
    """Give the puzzles of a file their addresses; a file without any is a submission with a fault."""
    found = iter(found)
    first = list(islice(found, 2))  # a second puzzle decides whether the first has a number
    if not first:
        yield submission_with_fault(name, "empty")
    for number, document in enumerate(chain(first, found), start=1):
        yield Submission(printable(name if len(first) == 1 else f"{name}#{number}", _LONGEST_NAME), document)


def submissions_in_file(
    path: Path, name: str | None = None, limits: Limits = DEFAULT_LIMITS
) -> Iterator[Submission]:
    """Find the puzzles of a file; one that cannot be opened is a submission with a fault.

    Parameters
    ----------
    path : Path
        The file.
    name : str, optional
        What messages call it; its path when absent.
    limits : Limits, optional
        How much of it to take.
    """
    called = str(path) if name is None else name
    try:
        with opened(path) as stream:
            yield from submissions_in_stream(stream, called, limits)
    except CannotOpenError as error:
        yield submission_with_fault(called, "cannot-open", reason=str(error))


def submissions_at(address: str, limits: Limits = DEFAULT_LIMITS) -> Iterator[Submission]:
    """Find what a person names: the puzzles of a file, or with ``#3`` the third of them.

    A file that is really called so is taken as a whole; a number that the file has not is a fault.
    """
    name, number = split_number(address)
    found = submissions_in_file(Path(name), limits=limits)
    yield from found if number is None else the_one_numbered(found, address, number)


def split_number(address: str) -> tuple[str, int | None]:
    """Return the file and the number that an address names; None for all puzzles of the file.

    Examples
    --------
    >>> split_number("box.yaml#3"), split_number("box.yaml")
    (('box.yaml', 3), ('box.yaml', None))
    """
    match = _NUMBERED.match(address)
    return (address, None) if match is None or _exists(address) else (match[1], int(match[2]))


def the_one_numbered(found: Iterable[Submission], address: str, wanted: int) -> Iterator[Submission]:
    """Yield one of the puzzles of a file by its number, counted from 1."""
    puzzles = 0
    for puzzles, submission in enumerate(found, start=1):
        if puzzles == wanted or any(fault.code in _OF_THE_FILE for fault in submission.faults):
            yield submission
            return
    allowed = "#1" if puzzles == 1 else f"#1 to #{puzzles}"
    yield submission_with_fault(
        address, "no-such-number", puzzles=counted(puzzles, "puzzle"), allowed=allowed
    )


def submission_with_fault(name: str, code: str, **facts: str) -> Submission:
    """Return what stands for a file from which no puzzle can be had."""
    address = printable(name, _LONGEST_NAME)
    report = FaultReport(address, 1)
    report.add(code, None, "the file", None, **facts)
    return Submission(address, None, report.faults())


def _exists(address: str) -> bool:
    try:
        return Path(address).exists()
    except (OSError, ValueError):
        return False

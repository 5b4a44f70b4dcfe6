"""From the words of a command line - files, folders, archives, ``FILE#3``, ``-`` - to their puzzles."""

from __future__ import annotations

import io
import math
import os
import stat
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from verifier.files.documents import Document, documents
from verifier.files.limits import DEFAULT_LIMITS, Limits
from verifier.files.opening import CannotOpenError, opened
from verifier.files.reading import ReadEntry, read_submission
from verifier.files.submissions import (
    Submission,
    numbered,
    split_number,
    submission_with_fault,
    the_one_numbered,
)
from verifier.intake.limits import DEFAULT_BOUNDS, Bounds
from verifier.intake.sources.clock import Clock, Clocked, TookTooLongError
from verifier.intake.sources.listing import ARCHIVE_ENDINGS, ENDINGS, TABLE_ENDINGS, Listing, Source, size_of
from verifier.intake.sources.own import is_own_document, is_own_text, is_settings
from verifier.intake.sources.tables import NoPuzzleColumnError, documents_in_table
from verifier.intake.sources.wording import source_fault

if TYPE_CHECKING:
    from verifier.intake.sources.members import Member

__all__ = [
    "ENDINGS",
    "STANDARD_INPUT",
    "Box",
    "Found",
    "find_sources",
    "not_there",
    "read_box",
    "read_sources",
]

STANDARD_INPUT = "-"
MEMBER_OF = "!"
"""Stands in an address between an archive and the file in it: ``box.zip!late/17.yaml``."""

_INPUT_NAME = "stdin"
_PASSED_OVER_IN_ARCHIVES = ("__MACOSX",)  # what one system adds to every archive it packs


@dataclass(frozen=True, slots=True)
class Found:
    """What the words of a command line name.

    Parameters
    ----------
    addresses : Listing
        Paths of files, ``FILE#3``, ``ARCHIVE!FILE``: each once, in the order of their names with numbers
        as numbers. The order of the words makes no difference.
    standard_input : bool
        Whether to read that, too; it comes last.
    """

    addresses: Listing
    standard_input: bool = False

    @property
    def passed_over(self) -> int:
        """Files in folders whose ending is none of `ENDINGS`."""
        return self.addresses.passed_over

    def lie_in(self, folder: Path) -> bool:
        """Whether any of the files lies in a folder itself."""
        real = os.path.realpath(folder)
        return any(os.path.dirname(os.path.realpath(source.path)) == real for source in self.addresses)


def find_sources(
    words: Iterable[str], leave_out: Path | None = None, no_puzzles: Iterable[Path] = ()
) -> Found:
    """Return the files that the words name; folders are searched to the bottom.

    Parameters
    ----------
    words : iterable of str
        Paths of files and folders, ``FILE#3`` for one puzzle of several, ``ARCHIVE!FILE`` for one file of an
        archive, ``-`` for standard input. A path that does not exist is kept: reading it gives the fault.
    leave_out : Path, optional
        A folder that is not searched, such as the one for the verdicts.
    no_puzzles : iterable of Path, optional
        Files of a folder that are passed over, such as the house style.
    """
    listing = Listing(leave_out, no_puzzles)
    standard_input = False
    for word in words:
        if word == STANDARD_INPUT:
            standard_input = True
        elif os.path.isdir(word):
            if not listing.add_below(word):
                listing.add(Source(word, trouble="empty-folder"))
        else:
            listing.add(Source(word, size_of(word)))
    return Found(listing, standard_input)


def not_there(words: Iterable[str]) -> list[str]:
    """Return those words that name nothing that exists, whatever stands in it.

    Examples
    --------
    >>> not_there(["-", "no-such-file.yaml#3", "."])
    ['no-such-file.yaml#3']
    """
    files = ((word, split_number(_split_member(word)[0])[0]) for word in words if word != STANDARD_INPUT)
    return [word for word, file in files if not _exists(file)]


def read_sources(found: Found, stdin: BinaryIO, limits: Limits = DEFAULT_LIMITS) -> Iterator[ReadEntry]:
    """Find and read the puzzles of all sources, in order; see `Box` and `read_box`."""
    return read_box(Box(found, stdin, limits), limits)


def read_box(box: Box, limits: Limits = DEFAULT_LIMITS) -> Iterator[ReadEntry]:
    """Read the puzzles of a box; one with nothing but what gridproof wrote gives a fault."""
    nothing = True
    for submission in box:
        nothing = False
        yield read_submission(submission, limits)
    if nothing and box.own:
        yield read_submission(source_fault(box.last_own, "own-output"), limits)


class Box:
    """The submissions of all sources, in order, found as they are asked for.

    Parameters
    ----------
    found : Found
        Where to look.
    stdin : binary file
        Read when it is asked for.
    limits : Limits, optional
        How much of a puzzle to take.
    bounds : Bounds, optional
        How much of an archive to take.

    Attributes
    ----------
    bytes_read : int
        How far it is, of ``found.addresses.bytes_listed``.
    passed_over : int
        Files in archives whose ending is none of `ENDINGS`, or that are hidden.
    own, last_own : int, str
        How many files there were with nothing but what gridproof wrote, and the last of them.
    settings : int
        How many files there were with nothing but settings.
    """

    def __init__(
        self, found: Found, stdin: BinaryIO, limits: Limits = DEFAULT_LIMITS, bounds: Bounds = DEFAULT_BOUNDS
    ) -> None:
        self._found, self._stdin, self._limits, self._bounds = found, stdin, limits, bounds
        self.bytes_read = 0
        self.passed_over = self.own = self.settings = 0
        self.last_own = ""

    def __iter__(self) -> Iterator[Submission]:
        before = 0
        for source in self._found.addresses:
            for submission in self._read(source, before):
                yield replace(submission, origin=source.real)
            before += source.size
            self.bytes_read = before
        if self._found.standard_input:
            for submission in self._submissions(self._stdin, _INPUT_NAME):
                yield replace(submission, origin=STANDARD_INPUT)

    def _read(self, source: Source, before: int) -> Iterator[Submission]:
        if source.trouble is not None:
            yield source_fault(source.path, source.trouble)
            return
        address, number = split_number(source.path)
        path, wanted = _split_member(address)
        try:
            with opened(Path(path)) as raw:
                found = self._in_file(raw, _named(path), None if wanted is None else _named(wanted))
                for submission in found if number is None else the_one_numbered(found, source.path, number):
                    self.bytes_read = before + _place(raw)
                    yield submission
        except CannotOpenError as error:
            yield submission_with_fault(_named(address), "cannot-open", reason=str(error))

    def _in_file(self, raw: BinaryIO, path: str, wanted: str | None) -> Iterator[Submission]:
        status = os.fstat(raw.fileno())
        # Whoever writes into a pipe may take all the time there is.
        clock = Clock(self._bounds.seconds if stat.S_ISREG(status.st_mode) else math.inf)
        if path.lower().endswith(ARCHIVE_ENDINGS):
            yield from self._in_archive(raw, path, wanted, clock, status.st_size)
        else:
            yield from self._in_stream(io.BufferedReader(Clocked(raw, clock)), path, clock)

    def _in_stream(self, stream: io.BufferedReader, name: str, clock: Clock) -> Iterator[Submission]:
        try:
            if is_own_text(stream.peek()):
                self._pass_own_over(name)
                return
            for submission in self._submissions(stream, name):
                yield submission
                clock.restart()
        except TookTooLongError:
            yield source_fault(name, "file-slow", self._bounds)

    def _submissions(self, stream: BinaryIO, name: str) -> Iterator[Submission]:
        own = settings = False

        def puzzles() -> Iterator[Document]:
            nonlocal own, settings
            for document in self._documents(stream, name):
                if is_own_document(document):
                    own = True
                elif is_settings(document):
                    settings = True
                else:
                    yield document

        found = puzzles()
        try:
            first = list(islice(found, 1))
            if own and not first:
                self._pass_own_over(name)
            elif settings and not first:
                self.settings += 1
            else:
                yield from numbered(chain(first, found), name)
        except NoPuzzleColumnError:
            yield source_fault(name, "no-puzzle-column")

    def _documents(self, stream: BinaryIO, name: str) -> Iterator[Document]:
        is_table = name.lower().endswith(TABLE_ENDINGS)
        most = self._limits.puzzle_bytes
        return documents_in_table(stream, most) if is_table else documents(stream, name, most)

    def _pass_own_over(self, name: str) -> None:
        self.own += 1
        self.last_own = name

    def _in_archive(
        self, raw: BinaryIO, path: str, wanted: str | None, clock: Clock, size: int
    ) -> Iterator[Submission]:
        # A single file is answered sooner when nothing is imported that unpacks.
        from verifier.intake.sources.streams import Allowance, BrokenArchiveError
        from verifier.intake.sources.tars import tar_members
        from verifier.intake.sources.zips import zip_members

        allowance = Allowance(self._bounds.most_unpacked(size), clock)
        read = zip_members if path.lower().endswith(".zip") else tar_members
        met = False
        try:
            for member in read(raw, self._bounds, allowance):
                clock.look()
                if wanted is not None and member.name != wanted:
                    continue
                if wanted is None and _is_passed_over(member.name):
                    self.passed_over += 1
                    continue
                met = True
                yield from self._in_member(member, f"{path}{MEMBER_OF}{member.name}", clock)
                clock.restart()
        except BrokenArchiveError as error:
            yield source_fault(path, error.code, self._bounds)
            met = True
        except TookTooLongError:
            yield source_fault(path, "archive-slow", self._bounds)
            met = True
        if not met:
            yield source_fault(path, "archive-empty" if wanted is None else "no-such-member")

    def _in_member(self, member: Member, name: str, clock: Clock) -> Iterator[Submission]:
        from verifier.intake.sources.streams import BrokenArchiveError, damage_told

        if member.open is None:
            yield source_fault(name, member.trouble or "member-broken")
        elif member.name.lower().endswith(ARCHIVE_ENDINGS):
            yield source_fault(name, "member-archive")
        else:
            try:
                with damage_told():
                    yield from self._in_stream(member.open(), name, clock)
            except BrokenArchiveError as error:
                if error.code.startswith("archive"):
                    raise
                yield source_fault(name, error.code)


def _is_passed_over(name: str) -> bool:
    parts = name.replace("\\", "/").split("/")
    hidden = any(part.startswith(".") and part not in (".", "..") for part in parts)
    return hidden or parts[0] in _PASSED_OVER_IN_ARCHIVES or not name.lower().endswith(ENDINGS)


def _split_member(address: str) -> tuple[str, str | None]:
    """Return the file that an address names, and the name of the file in it if that is an archive.

    Examples
    --------
    >>> _split_member("no-such-box.zip!late/17.yaml")
    ('no-such-box.zip!late/17.yaml', None)
    """
    parts = address.split(MEMBER_OF)
    for place in range(1, len(parts)):
        path = MEMBER_OF.join(parts[:place])
        if path.lower().endswith(ARCHIVE_ENDINGS) and os.path.isfile(path) and not os.path.exists(address):
            return path, MEMBER_OF.join(parts[place:])
    return address, None


def _named(path: str) -> str:
    """Return a path as an address has it: the same letters in all language settings of a machine."""
    return os.fsencode(path).decode("utf-8", "surrogateescape")


def _place(raw: BinaryIO) -> int:
    try:
        return raw.tell()
    except OSError:  # a pipe
        return 0


def _exists(path: str) -> bool:
    try:
        return os.path.lexists(path)
    except ValueError:  # a NUL in the name
        return False

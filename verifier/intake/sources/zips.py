"""Reading a zip archive file by file, without holding its directory in memory.

The layout is that of the published specification (APPNOTE.TXT 6.3.10, sections 4.3 and 4.5.3; the plain
subset of it is ISO/IEC 21320-1). The standard library's reader keeps an object for each file of an archive,
which a box of a million puzzles would notice.
"""

from __future__ import annotations

import io
import os
import stat
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, BinaryIO

from verifier.intake.limits import Bounds
from verifier.intake.sources.members import Member
from verifier.intake.sources.streams import Allowance, BrokenArchiveError, inflated

__all__ = ["zip_members"]

_END = struct.Struct("<4s4H2LH")
_END64 = struct.Struct("<4sQ2H2L4Q")
_LOCATOR64 = struct.Struct("<4sLQL")
_ENTRY = struct.Struct("<4s2B5H3L5H2L")
_LOCAL = struct.Struct("<4s5H3L2H")

_LONGEST_COMMENT = 0xFFFF
_IN_64_BITS = 0xFFFFFFFF
_ENCRYPTED, _UTF8 = 0x1, 0x800
_STORED, _DEFLATED = 0, 8
_UNIX = 3


@dataclass(frozen=True, slots=True)
class _Directory:
    """Where the directory of the archive is."""

    start: int
    entries: int
    shift: int
    """Bytes before the archive proper, such as a program that unpacks it."""


@dataclass(frozen=True, slots=True)
class _Entry:
    name: str
    flags: int
    method: int
    crc: int
    packed: int
    offset: int
    is_link: bool
    length: int
    """Bytes of the entry itself."""


def zip_members(raw: BinaryIO, bounds: Bounds, allowance: Allowance) -> Iterator[Member]:
    """Yield the files of a zip archive, in the order of its directory.

    Parameters
    ----------
    raw : binary file
        The archive; must be able to seek.
    bounds : Bounds
        How many files it may have.
    allowance : Allowance
        Pays for what is unpacked.

    Raises
    ------
    BrokenArchiveError
        If the archive as a whole cannot be read, or has too many files.
    """
    directory = _directory(raw)
    if directory.entries > bounds.members:
        raise BrokenArchiveError("archive-too-many")
    place = directory.start
    for _ in range(directory.entries):
        raw.seek(place)
        entry = _entry(raw)
        place += entry.length
        if not entry.name.endswith("/"):
            yield _member(raw, entry, directory.shift, allowance)


def _directory(raw: BinaryIO) -> _Directory:
    size = raw.seek(0, os.SEEK_END)
    tail_start = raw.seek(max(0, size - _END.size - _LONGEST_COMMENT))
    tail = raw.read()
    place = tail.rfind(b"PK\5\6")
    if place < 0:
        raise BrokenArchiveError("archive-broken")
    _, _, _, _, entries, length, offset, _ = _unpack(_END, tail[place:])
    end = tail_start + place
    if end >= _LOCATOR64.size:
        raw.seek(end - _LOCATOR64.size)
        locator = _unpack(_LOCATOR64, raw.read(_LOCATOR64.size))
        if locator[0] == b"PK\6\7":
            end = locator[2]
            raw.seek(end)
            _, _, _, _, _, _, _, entries, length, offset = _signed(_END64, raw, b"PK\6\6")
    start = end - length
    if start < offset:
        raise BrokenArchiveError("archive-broken")
    return _Directory(start, entries, start - offset)


def _entry(raw: BinaryIO) -> _Entry:
    fields = _signed(_ENTRY, raw, b"PK\1\2")
    (_, _, system, _, flags, method, _, _, crc, packed, size, name_length, extra_length, comment_length) = (
        fields[:14]
    )
    attributes, offset = fields[16], fields[17]
    name = raw.read(name_length).decode("utf-8" if flags & _UTF8 else "cp437", "replace")
    wide = _wide(raw.read(extra_length), size, packed, offset)
    return _Entry(
        name=name,
        flags=flags,
        method=method,
        crc=crc,
        packed=wide[0],
        offset=wide[1],
        is_link=system == _UNIX and stat.S_ISLNK(attributes >> 16),
        length=_ENTRY.size + name_length + extra_length + comment_length,
    )


def _wide(extra: bytes, size: int, packed: int, offset: int) -> tuple[int, int]:
    """Return packed size and offset, from the extra field where they are too large for 32 bits."""
    while len(extra) >= 4:
        kind, length = struct.unpack_from("<HH", extra)
        if kind == 1:
            numbers = iter(struct.unpack_from(f"<{min(length, len(extra) - 4) // 8}Q", extra, 4))
            try:
                if size == _IN_64_BITS:
                    next(numbers)
                packed = next(numbers) if packed == _IN_64_BITS else packed
                offset = next(numbers) if offset == _IN_64_BITS else offset
            except StopIteration as error:
                raise BrokenArchiveError("archive-broken") from error
        extra = extra[4 + length :]
    return packed, offset


def _member(raw: BinaryIO, entry: _Entry, shift: int, allowance: Allowance) -> Member:
    if entry.is_link:
        return Member(entry.name, trouble="member-link")
    if entry.flags & _ENCRYPTED:
        return Member(entry.name, trouble="member-locked")
    if entry.method not in (_STORED, _DEFLATED):
        return Member(entry.name, trouble="member-method")
    return Member(entry.name, lambda: _opened(raw, entry, shift, allowance))


def _opened(raw: BinaryIO, entry: _Entry, shift: int, allowance: Allowance) -> io.BufferedReader:
    raw.seek(entry.offset + shift)
    try:
        *_, name_length, extra_length = _signed(_LOCAL, raw, b"PK\3\4")
    except BrokenArchiveError as error:
        raise BrokenArchiveError("member-broken") from error
    raw.seek(name_length + extra_length, os.SEEK_CUR)
    deflated = entry.method == _DEFLATED
    return io.BufferedReader(inflated(raw, entry.packed, allowance, entry.crc, deflated=deflated))


def _signed(layout: struct.Struct, raw: BinaryIO, signature: bytes) -> tuple[Any, ...]:
    fields = _unpack(layout, raw.read(layout.size))
    if fields[0] != signature:
        raise BrokenArchiveError("archive-broken")
    return fields


def _unpack(layout: struct.Struct, data: bytes) -> tuple[Any, ...]:
    try:
        return layout.unpack_from(data)
    except struct.error as error:
        raise BrokenArchiveError("archive-broken") from error

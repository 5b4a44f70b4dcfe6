"""Streams that unpack with a limit: what a stranger packed must not fill memory, disk or time."""

from __future__ import annotations

import gzip
import io
import lzma
import tarfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import BinaryIO

from verifier.intake.sources.clock import Clock

__all__ = ["Allowance", "BrokenArchiveError", "Metered", "damage_told", "inflated", "unpacked"]

_CHUNK = 1 << 16
_GZIP, _XZ = b"\x1f\x8b", b"\xfd7zXZ\0"


class BrokenArchiveError(Exception):
    """An archive, or a file in it, that cannot be unpacked."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@contextmanager
def damage_told() -> Iterator[None]:
    """Turn whatever libraries raise over damaged data into what we say of it."""
    try:
        yield
    except (tarfile.TarError, zlib.error, lzma.LZMAError, EOFError, OSError) as error:
        raise BrokenArchiveError("archive-broken") from error


class Allowance:
    """How many bytes an archive may still unpack to, and how long it may take; shared by all its files."""

    def __init__(self, most: int, clock: Clock) -> None:
        self._left = most
        self.clock = clock

    def take(self, number: int) -> None:
        """Use up some of it.

        Raises
        ------
        BrokenArchiveError
            If there is not so much left.
        """
        self._left -= number
        if self._left < 0:
            raise BrokenArchiveError("archive-bomb")


class Metered(io.RawIOBase):
    """A stream of what a function returns, paid from an allowance.

    Parameters
    ----------
    read_some : callable
        Returns up to so many bytes, none at the end.
    allowance : Allowance
        Pays for every byte.

    Attributes
    ----------
    position : int
        Bytes given out so far.
    end_of_text : int
        Where the last byte that is not zero ended.
    burst : int or None
        How many bytes may be given out until this is set again; None for any number.
    clock : Clock or None
        Looked at before each read, that of the allowance to begin with; None for no look.
    """

    def __init__(self, read_some: Callable[[int], bytes], allowance: Allowance) -> None:
        super().__init__()
        self._read_some, self._allowance = read_some, allowance
        self.position = self.end_of_text = 0
        self.burst: int | None = None
        self.clock: Clock | None = allowance.clock

    def readable(self) -> bool:
        """Whether it can be read: yes."""
        return True

    def readinto(self, buffer: bytearray | memoryview) -> int:  # type: ignore[override]
        """Fill a buffer as far as possible."""
        if self.clock is not None:
            self.clock.look()  # before anything is read that would be lost then
        data = self._read_some(min(len(buffer), _CHUNK))
        self._allowance.take(len(data))
        if self.burst is not None:
            self.burst -= len(data)
            if self.burst < 0:
                raise BrokenArchiveError("archive-broken")
        solid = len(data.rstrip(b"\0"))
        if solid:
            self.end_of_text = self.position + solid
        self.position += len(data)
        buffer[: len(data)] = data
        return len(data)


def unpacked(raw: BinaryIO, allowance: Allowance, memory: int) -> Metered:
    """Return what a file holds, unpacked if it is packed with gzip or xz.

    Parameters
    ----------
    raw : binary file
        At its start; can be set back to it.
    allowance : Allowance
        Pays for what comes out.
    memory : int
        Bytes that unpacking xz may take; a stream can ask for gigabytes.
    """
    start = raw.read(len(_XZ))
    raw.seek(0)
    if start.startswith(_GZIP):
        return Metered(gzip.GzipFile(fileobj=raw).read1, allowance)
    return Metered(_Xz(raw, memory).read if start == _XZ else raw.read, allowance)


def inflated(raw: BinaryIO, size: int, allowance: Allowance, crc: int, *, deflated: bool) -> Metered:
    """Return one file of a zip archive.

    Parameters
    ----------
    raw : binary file
        At the first byte of the file's data.
    size : int
        Bytes that it takes in the archive.
    allowance : Allowance
        Pays for what comes out.
    crc : int
        Its checksum.
    deflated : bool
        Whether it is packed.
    """
    return Metered(_Inflating(raw, size, crc, deflated=deflated).read, allowance)


class _Inflating:
    """The data of a file in a zip archive. Remembers its place, as others read the same archive."""

    def __init__(self, raw: BinaryIO, size: int, crc: int, *, deflated: bool) -> None:
        self._raw, self._place, self._left = raw, raw.tell(), size
        self._unpack = zlib.decompressobj(-zlib.MAX_WBITS) if deflated else None
        self._crc, self._wanted = 0, crc
        self._over = False

    def read(self, most: int) -> bytes:
        """Return the next bytes, none at the end."""
        data = b"" if self._over else self._next(most)
        self._crc = zlib.crc32(data, self._crc)
        if not data and not self._over:
            self._over = True
            if self._crc != self._wanted:
                raise BrokenArchiveError("member-broken")
        return data

    def _next(self, most: int) -> bytes:
        if self._unpack is None:
            return self._packed(most)
        while not self._unpack.eof:
            packed = self._unpack.unconsumed_tail or self._packed(_CHUNK)
            try:
                data = self._unpack.decompress(packed, most)
            except zlib.error as error:
                raise BrokenArchiveError("member-broken") from error
            if data:
                return data
            if not packed:
                raise BrokenArchiveError("member-broken")
        return b""

    def _packed(self, most: int) -> bytes:
        self._raw.seek(self._place)
        data = self._raw.read(min(most, self._left))
        self._left -= len(data)
        self._place += len(data)
        return data


class _Xz:
    """One xz stream after the other, with a limit on memory, which `lzma.LZMAFile` does not offer."""

    def __init__(self, raw: BinaryIO, memory: int) -> None:
        self._raw, self._memory = raw, memory
        self._unpack = self._new()
        self._held = b""

    def read(self, most: int) -> bytes:
        """Return the next bytes, none at the end."""
        while not self._unpack.eof or self._goes_on():
            if self._unpack.needs_input and not self._held:
                self._held = self._raw.read(_CHUNK)
                if not self._held:
                    raise BrokenArchiveError("archive-broken")
            data, self._held = self._unpack.decompress(self._held, most), b""
            if data:
                return data
        return b""

    def _goes_on(self) -> bool:
        """Begin the next stream, if one follows; zeros may stand between."""
        self._held = self._unpack.unused_data.lstrip(b"\0") or self._raw.read(_CHUNK).lstrip(b"\0")
        if self._held:
            self._unpack = self._new()
        return bool(self._held)

    def _new(self) -> lzma.LZMADecompressor:
        return lzma.LZMADecompressor(lzma.FORMAT_XZ, memlimit=self._memory)

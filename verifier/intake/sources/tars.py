"""Reading a tar archive, packed or not, from its first byte to its last."""

from __future__ import annotations

import io
import tarfile
from collections.abc import Iterator
from typing import BinaryIO, cast

from verifier.intake.limits import Bounds
from verifier.intake.sources.clock import Clock, Clocked
from verifier.intake.sources.members import Member
from verifier.intake.sources.streams import Allowance, BrokenArchiveError, Metered, damage_told, unpacked

__all__ = ["tar_members"]

_CHUNK = 1 << 16


def tar_members(raw: BinaryIO, bounds: Bounds, allowance: Allowance) -> Iterator[Member]:
    """Yield the files of a tar archive, in their order.

    Parameters
    ----------
    raw : binary file
        The archive.
    bounds : Bounds
        How many files it may have, and how much it may say about each.
    allowance : Allowance
        Pays for what is unpacked.

    Raises
    ------
    BrokenArchiveError
        If the archive breaks off, is no tar archive, or has too many files.
    """
    with damage_told():
        metered = unpacked(raw, allowance, bounds.unpacker_bytes)
        metered.burst = bounds.header_bytes
        archive = tarfile.open(fileobj=io.BufferedReader(metered), mode="r|", errorlevel=2)  # noqa: SIM115
        files = 0
        while (info := _next(archive, metered, bounds)) is not None:
            files += 1
            if files > bounds.members:
                raise BrokenArchiveError("archive-too-many")
            stream = cast(io.BufferedReader, archive.extractfile(info)) if info.isreg() else None
            if info.issym() or info.islnk():
                yield Member(info.name, trouble="member-link")
            elif info.issparse():  # whose size need have nothing to do with what is in the archive
                yield Member(info.name, trouble="member-method")
                continue
            elif stream is not None:
                # Cut short inside a read, an archive could not be read on from the right place: whoever reads
                # the file looks at the clock between two blocks of it instead.
                metered.clock = None
                yield Member(info.name, lambda file=stream: _between_blocks(file, allowance.clock))  # type: ignore[misc]
                metered.clock = allowance.clock
            while stream is not None and stream.read(_CHUNK):
                pass  # so that what comes next can only be what the archive says of the next file
        _check_end(archive, metered, bounds)


def _between_blocks(file: io.BufferedReader, clock: Clock) -> io.BufferedReader:
    return io.BufferedReader(Clocked(file, clock))


def _next(archive: tarfile.TarFile, metered: Metered, bounds: Bounds) -> tarfile.TarInfo | None:
    metered.burst = bounds.header_bytes + io.DEFAULT_BUFFER_SIZE
    info = archive.next()
    metered.burst = None
    archive.members = []  # type: ignore[attr-defined]
    # else it keeps every one, for as long as it is open
    return info


def _check_end(archive: tarfile.TarFile, metered: Metered, bounds: Bounds) -> None:
    """Tell an archive that ends from one that breaks off, which the standard library does not."""
    end = archive.offset
    metered.burst = bounds.header_bytes  # no more than a few blocks of zeros may follow
    while metered.read(_CHUNK):
        pass
    if metered.end_of_text > end or metered.position < end + tarfile.BLOCKSIZE:
        raise BrokenArchiveError("archive-broken")

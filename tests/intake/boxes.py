"""Boxes for the tests: archives of every kind, honest and hostile, and puzzles to put in."""

from __future__ import annotations

import io
import lzma
import struct
import tarfile
import zipfile
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from random import Random

from scripts.setting.cages import draw_cages
from scripts.setting.grids import full_grid
from tests.evidence.stand_ins import NONE, ONE, TWO
from verifier.files.submissions import Submission
from verifier.files.writing import write_puzzle
from verifier.intake.limits import DEFAULT_BOUNDS, Bounds
from verifier.intake.sources.sources import Box, find_sources
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, make_puzzle

__all__ = [
    "MIXED",
    "SOUND",
    "addresses",
    "bomb",
    "fault_codes",
    "found_in",
    "hard_for_the_solver",
    "mixed_box",
    "tar_of",
    "zip_bomb",
    "zip_of",
    "zip_of_empties",
]

SOUND = write_puzzle(replace(ONE, credits=Credits(""))).encode()
"""A small sound killer without id."""

MIXED = tuple(
    write_puzzle(replace(puzzle, credits=Credits(name, None, setter))).encode()
    for puzzle, name, setter in [
        (ONE, "low-tide", "Wren Alder"),
        (TWO, "ebb", "Wren Alder"),
        (NONE, "flood", "Tamsin"),
        (ONE, "low-tide", None),
    ]
)
"""Puzzles of every kind; the last is the first one again."""

UNREADABLE = b"puzle: classic\n"


def mixed_box(folder: Path, copies: int = 3) -> Path:
    """Make a box of loose files, a stream and an archive, and return its folder."""
    folder.mkdir()
    for number in range(1, copies + 1):
        for place, data in enumerate(MIXED):
            (folder / f"k{number}-{place}.yaml").write_bytes(data)
    (folder / "stream.yaml").write_bytes(b"---\n".join([*MIXED, UNREADABLE]))
    (folder / "late.zip").write_bytes(zip_of({"a/17.yaml": MIXED[1], "broken.yaml": UNREADABLE}))
    return folder


def zip_of(files: Mapping[str, bytes], links: Iterable[str] = ()) -> bytes:
    """Return a zip archive."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            info = zipfile.ZipInfo(name)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.create_system = 3
            info.external_attr = (0o120777 if name in links else 0o100644) << 16
            archive.writestr(info, data)
    return packed.getvalue()


def tar_of(files: Mapping[str, bytes], packing: str = "", links: Iterable[str] = ()) -> bytes:
    """Return a tar archive, packed with ``gz`` or ``xz`` or not at all."""
    packed = io.BytesIO()
    with tarfile.open(fileobj=packed, mode=f"w:{packing}") as archive:  # type: ignore[call-overload]
        for name, data in files.items():
            info = tarfile.TarInfo(name)
            info.size = len(data)
            archive.addfile(info, io.BytesIO(data))
        for name in links:
            info = tarfile.TarInfo(name)
            info.type, info.linkname = tarfile.SYMTYPE, "/etc/hostname"
            archive.addfile(info)
    return packed.getvalue()


def bomb(size: int) -> bytes:
    """Return a tar archive with one file of so many zeros, packed with xz, at the cost of a few of them.

    One xz stream may follow the other ("The .xz File Format", version 1.2.1, section 2).
    """
    info = tarfile.TarInfo("bomb.yaml")
    info.size = size
    zeros = 16 << 20
    return lzma.compress(info.tobuf()) + lzma.compress(bytes(zeros)) * (size // zeros)


def zip_bomb(size: int) -> bytes:
    """Return a zip archive with one file of so many zeros, at the cost of a few of them.

    A deflated stream that was flushed may be followed by itself (RFC 1951, section 3.2.4).
    """
    zeros = 16 << 20
    packer = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    block = packer.compress(bytes(zeros)) + packer.flush(zlib.Z_FULL_FLUSH)
    return _zip([b"bomb.yaml"], block * (size // zeros) + packer.flush(), zipfile.ZIP_DEFLATED)


def zip_of_empties(number: int) -> bytes:
    """Return a zip archive of so many empty files."""
    return _zip([b"%d.yaml" % one for one in range(number)], b"", zipfile.ZIP_STORED)


def _zip(names: list[bytes], data: bytes, method: int) -> bytes:
    """Return a zip archive of files with the same data, packed already, whatever their checksum.

    Faster by far than the standard library, and in the form for many files (APPNOTE.TXT, 4.3.14).
    """
    body, directory = bytearray(), bytearray()
    for name in names:
        head = struct.pack("<5H3L2H", 20, 0, method, 0, 0, 0, len(data), 0, len(name), 0)
        directory += (
            struct.pack("<4sH", b"PK\1\2", 20) + head + struct.pack("<3H2L", 0, 0, 0, 0, len(body)) + name
        )
        body += b"PK\3\4" + head + name + data
    count, length, start = len(names), len(directory), len(body)
    end = struct.pack("<4sQ2H2L4Q", b"PK\6\6", 44, 45, 45, 0, 0, count, count, length, start)
    locator = struct.pack("<4sLQL", b"PK\6\7", 0, start + length, 1)
    tail = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, 0xFFFF, 0xFFFF, 0xFFFFFFFF, 0xFFFFFFFF, 0)
    return bytes(body + directory + end + locator + tail)


def hard_for_the_solver() -> bytes:
    """Return a killer of 25x25 with long cages: nobody counts its solutions in minutes."""
    grid, rng = Grid.square(25), Random(3)
    cages = draw_cages(grid, full_grid(grid, rng), {10: 1.0}, rng)
    return write_puzzle(make_puzzle("killer", grid, cages=cages)).encode()


def found_in(path: Path, bounds: Bounds = DEFAULT_BOUNDS) -> list[Submission]:
    """Return what the intake finds in a file or folder."""
    return list(Box(find_sources([str(path)]), io.BytesIO(), bounds=bounds))


def addresses(path: Path) -> list[str]:
    """Return the addresses of all submissions, as seen from the folder of the file."""
    return [one.address.removeprefix(f"{path.parent}/") for one in found_in(path)]


def fault_codes(path: Path, bounds: Bounds = DEFAULT_BOUNDS) -> list[str]:
    """Return the codes of the faults of those submissions that have no contents."""
    return [fault.code for one in found_in(path, bounds) for fault in one.faults]

"""The lines of a file, read in blocks: neither a line without end nor millions without content cost much."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import BinaryIO, NamedTuple

__all__ = ["Line", "lines"]

_BLOCK = 1 << 16
_BLANKS = re.compile(rb"\s*")
_UTF8_MARK = b"\xef\xbb\xbf"
"""Some editors put it at the start of a file."""


class Line(NamedTuple):
    """A line; or blank lines that follow one another.

    Parameters
    ----------
    number : int
        Of the first of them, counted from 1.
    data : bytes
        With the line break; up to one byte more than the limit.
    size : int
        The true number of bytes.
    """

    number: int
    data: bytes
    size: int


def lines(stream: BinaryIO, limit: int) -> Iterator[Line]:
    r"""Yield the lines of a file; of blank ones as many at once as a block holds.

    Parameters
    ----------
    stream : binary file
        Read block by block, as they come.
    limit : int
        Bytes of a line that are kept. More blanks than that at its start are not kept at all, so that what
        follows them is.

    Examples
    --------
    >>> import io
    >>> for line in lines(io.BytesIO(b"\n\n  \na: 1\n" + b" " * 9 + b"b: 2"), 5):
    ...     print(line)
    Line(number=1, data=b'\n\n  \n', size=5)
    Line(number=4, data=b'a: 1\n', size=5)
    Line(number=5, data=b' b: 2', size=13)
    """
    number, kept, size = 1, b"", 0  # of the line that is under way
    read = getattr(stream, "read1", stream.read)  # so that who types is heard line by line
    while block := read(_BLOCK):
        place = 0
        while place < len(block):
            end = block.find(b"\n", place) + 1 or len(block)
            piece = block[place:end]
            if not size and piece.isspace() and piece.endswith(b"\n"):
                end = _end_of_blank_lines(block, place)
                piece = block[place:end]
            place = end
            kept = piece if not size and len(piece) <= limit else _kept(kept, piece, limit)
            size += len(piece)
            if piece.endswith(b"\n"):
                yield Line(number, kept.removeprefix(_UTF8_MARK) if number == 1 else kept, size)
                number, kept, size = number + piece.count(b"\n"), b"", 0
    if size:
        yield Line(number, kept, size)


def _end_of_blank_lines(block: bytes, place: int) -> int:
    """Return where the blank lines end that begin at a place, of which there is one at least."""
    blanks = _BLANKS.match(block, place)
    assert blanks is not None
    return block.rfind(b"\n", place, blanks.end()) + 1


def _kept(kept: bytes, piece: bytes, limit: int) -> bytes:
    """Return what is kept of a line with one piece more."""
    kept += piece[: max(0, limit + 1 - len(kept))]
    if len(kept) <= limit or not kept.isspace():
        return kept
    rest = piece.lstrip()
    return b" " + rest[:limit]  # the blank, so that what follows is not taken for the start of a line

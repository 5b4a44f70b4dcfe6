"""How much of a file the reader takes. Every file is untrusted: each limit guards time or memory."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["DEFAULT_LIMITS", "Limits"]


@dataclass(frozen=True, slots=True)
class Limits:
    """The largest things the reader accepts; all can be set.

    Parameters
    ----------
    puzzle_bytes : int
        Bytes of one puzzle in its file. A file may hold any number of puzzles.
    depth : int
        Lists and keys inside one another. A puzzle needs four.
    faults : int
        Faults reported for one puzzle; the rest are counted.
    text : int
        Characters of an id, a title or a setter's name.

    Examples
    --------
    >>> Limits().puzzle_bytes == 1024 * 1024, Limits(depth=8).depth
    (True, 8)
    """

    puzzle_bytes: int = 1 << 20
    depth: int = 20
    faults: int = 20
    text: int = 1000


DEFAULT_LIMITS = Limits()

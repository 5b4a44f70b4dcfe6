"""Names of verdict files: taken from ids, safe on every system, never the same twice."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Iterator
from itertools import count

__all__ = ["FileNames", "names_for"]

_LONGEST = 60  # characters before the ending; four bytes each stay below what file systems allow
_UNSAFE = re.compile(r"[^\w.#+=@-]+")
_RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?\Z", re.IGNORECASE)


class FileNames:
    """Hands out a name for each puzzle of a run.

    The first puzzle with an id gets that id, as far as it is safe, as its name; others whose name would
    be the same, small and capital letters not told apart, get a mark made of their id and address.

    Examples
    --------
    >>> names = FileNames()
    >>> names.name_for("spring-017", "a.yaml"), names.name_for("../Spring/017", "b.yaml")
    ('spring-017.yaml', 'Spring-017~98a891b3.yaml')
    """

    def __init__(self) -> None:
        self._used: set[str] = set()

    def name_for(self, puzzle_id: str, address: str) -> str:
        """Return the name of the verdict file of a puzzle."""
        name = next(n for n in names_for(puzzle_id, address) if n.casefold() not in self._used)
        self._used.add(name.casefold())
        return name


def names_for(puzzle_id: str, address: str, ending: str = ".yaml") -> Iterator[str]:
    """Yield names for the file of a puzzle, best first, without end.

    Examples
    --------
    >>> names = names_for("CON", "a.yaml")
    >>> next(names), next(names)
    ('CON-.yaml', 'CON-~2fe18119.yaml')
    """
    stem = _safe(puzzle_id)
    yield f"{stem}{ending}"
    for tries in count():
        mark = hashlib.sha256(f"{puzzle_id}\n{address}\n{tries}".encode()).hexdigest()[:8]
        yield f"{stem}~{mark}{ending}"


def _safe(puzzle_id: str) -> str:
    """Return the id without anything that a file system could take for more than a letter."""
    text = unicodedata.normalize("NFC", puzzle_id)
    stem = _UNSAFE.sub("-", text).strip(".-")[:_LONGEST] or "puzzle"
    return f"{stem}-" if _RESERVED.match(stem) else stem

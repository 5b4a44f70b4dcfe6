"""What makes a file unreadable: one `Fault` for each thing that an editor has to put right."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Fault"]


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing in a file that cannot be read, where it is, and how to put it right.

    Parameters
    ----------
    code : str
        Which fault it is; never changes its meaning.
    file : str
        Address of the puzzle: the file, and ``#3`` for the third puzzle of several.
    line : int or None
        Line of the file, counted from 1; None where the fault has no line.
    field : str
        The key, the row or the cage concerned.
    found, allowed, cure : str
        What stands there, what may stand there, and what to do about it.

    Examples
    --------
    >>> print(Fault("kind", "k018.yaml", 5, "puzzle", "'kiler'", "classic, killer", "Did you mean 'killer'?"))
    k018.yaml:5: puzzle: found 'kiler'; allowed: classic, killer. Did you mean 'killer'?
    """

    code: str
    file: str
    line: int | None
    field: str
    found: str
    allowed: str
    cure: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{place}: {self.field}: found {self.found}; allowed: {self.allowed}. {self.cure}"

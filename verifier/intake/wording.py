"""What the intake says to people."""

from __future__ import annotations

from collections.abc import Sequence

from verifier.puzzle.printable import counted, listed

__all__ = ["passed_over"]

EMPTY_FOLDER = ("a folder without puzzle files", "files that end in {endings}", "Name the files themselves.")
"""What was found, what is allowed, what to do."""


def passed_over(count: int, endings: Sequence[str]) -> str:
    """Say that files in folders were not read.

    Examples
    --------
    >>> passed_over(2, [".yaml", ".txt"])
    'two files passed over: in folders only .yaml and .txt are read; name other files one by one'
    """
    return (
        f"{counted(count, 'file')} passed over: in folders only {listed(endings)} are read; "
        "name other files one by one"
    )

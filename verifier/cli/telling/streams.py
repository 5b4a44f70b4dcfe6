"""Standard input, output and error, in whatever state whoever called us left them."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import TextIOWrapper
from typing import TextIO

__all__ = ["STANDARD_ERROR", "let_go", "ready_streams"]

_INPUT, _OUTPUT, STANDARD_ERROR = range(3)


def ready_streams() -> None:
    """Put something in the place of a closed stream, and have the others take every character.

    A closed input is empty, and what is written to a closed output fails as it does on a full disk. The
    numbers of the three are taken at once: else the next file that is opened, such as a ledger, would get
    what is meant for the terminal.
    """
    for number, way in ((_INPUT, os.O_RDONLY), (_OUTPUT, os.O_RDONLY), (STANDARD_ERROR, os.O_WRONLY)):
        _take(number, way)
    if sys.stdin is None:
        sys.stdin = open(_INPUT, encoding="utf-8", closefd=False)  # noqa: SIM115 - as long as the process
    sys.stdout = _speaking(sys.stdout, _OUTPUT)
    sys.stderr = _speaking(sys.stderr, STANDARD_ERROR)


def let_go(number: int = _OUTPUT) -> None:
    """Have nothing more come of what is written to a stream: else Python complains about it at its end."""
    with suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), number)


def _take(number: int, way: int) -> None:
    """Make sure that a number is that of an open file."""
    try:
        os.fstat(number)
    except OSError:
        opened = os.open(os.devnull, way)  # it gets the lowest number that is free: as a rule this one
        if opened != number:
            os.dup2(opened, number)
            os.close(opened)
        os.set_inheritable(number, True)


def _speaking(stream: TextIO | None, number: int) -> TextIO:
    """Return a stream that no letter stops: a file or a pipe gets UTF-8, a terminal what it can show."""
    if stream is None:
        return open(number, "w", encoding="utf-8", errors="replace", closefd=False)
    if isinstance(stream, TextIOWrapper):
        stream.reconfigure(encoding=None if stream.isatty() else "utf-8", errors="replace")
    return stream

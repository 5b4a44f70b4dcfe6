"""Saying things on the terminal: results on standard output, everything else on standard error."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import typer

from verifier.cli import wording
from verifier.cli.telling.exits import Exit
from verifier.cli.telling.streams import STANDARD_ERROR, let_go
from verifier.puzzle.printable import filled, visible

if TYPE_CHECKING:
    from verifier.files.faults import Fault

__all__ = ["keep_trace", "page_ending_or_refuse", "refuse", "refusing_to_write", "say", "show", "tell_faults"]

_PAGES = (".html", ".htm")


def say(text: str) -> None:
    """Print a line for the person at the terminal, on standard error.

    Where it cannot be printed, nobody is there to read it, and the run goes on.
    """
    try:
        typer.echo(visible(text), err=True)
    except OSError:
        let_go(STANDARD_ERROR)


def show(text: str) -> None:
    """Print a line of the result, on standard output."""
    typer.echo(visible(text))


def refuse(text: str) -> NoReturn:
    """Say why a call cannot be answered, and end with the code for it."""
    say(f"gridproof: {text}")
    raise typer.Exit(Exit.UNREADABLE)


def tell_faults(faults: Iterable[Fault]) -> None:
    """Say why something could not be read."""
    say("\n".join(map(str, faults)))


@contextmanager
def refusing_to_write(option: str = "--out") -> Iterator[None]:
    """End the call where what an option names cannot be written."""
    from verifier.intake.papers.files import CannotWriteError

    try:
        yield
    except CannotWriteError as error:
        refuse(filled(wording.CANNOT_WRITE, where=error.where, why=error.why, option=option))


def page_ending_or_refuse(path: Path | None) -> None:
    """End the call where a page would be written over what is no page, such as a puzzle's file."""
    if path is not None and path.suffix.lower() not in _PAGES:
        refuse(filled(wording.WRONG_ENDING, option="--html", path=str(path), endings=_PAGES))


def keep_trace(trace: str, path: str | None = None) -> str | None:
    """Write what Python says about a bug to a file, and return its path; None where no file can be written.

    Parameters
    ----------
    trace : str
        What Python says.
    path : str, optional
        A file to add it to; a new one in the temporary folder when absent.
    """
    try:
        if path is None:
            handle, path = tempfile.mkstemp(prefix="gridproof-", suffix=".txt", text=True)
            os.close(handle)
        with open(path, "a", encoding="utf-8", errors="backslashreplace") as file:
            file.write(f"{visible(trace)}\n")
    except OSError:
        return None
    return path

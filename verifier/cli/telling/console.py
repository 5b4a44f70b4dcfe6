"""Saying things on the terminal: results on standard output, everything else on standard error."""

from __future__ import annotations

import os
import tempfile
from typing import NoReturn

import typer

from verifier.cli.telling.exits import Exit
from verifier.cli.telling.streams import STANDARD_ERROR, let_go
from verifier.puzzle.printable import visible

__all__ = ["keep_trace", "refuse", "say", "show"]


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

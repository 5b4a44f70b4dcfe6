"""A line on the terminal that shows how far a run is."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager

from verifier.cli import wording

__all__ = ["living", "progress"]


@contextmanager
def progress(files: int, *, wanted: bool) -> Iterator[Callable[[int, Mapping[str, int]], None]]:
    """Show how far a run is, on standard error, while it lasts, if that is a terminal.

    Parameters
    ----------
    files : int
        How many files there are to read. A bar moves from file to file; for one file, which may hold any
        number of puzzles, it only shows that there is life.
    wanted : bool
        Whether to show anything.

    Yields
    ------
    callable
        Takes the number of files begun, and the number of puzzles that came to each end.
    """
    if not wanted or not sys.stderr.isatty():
        yield lambda *_: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, SpinnerColumn, TextColumn

    columns = (SpinnerColumn(), BarColumn(bar_width=30), TextColumn("{task.description}"))
    with Progress(*columns, console=Console(stderr=True), transient=True) as shown:
        task = shown.add_task(wording.READING, total=files if files > 1 else None)
        yield lambda begun, counts: shown.update(
            task, completed=begun - 1, description=wording.summary(counts)
        )


@contextmanager
def living() -> Iterator[Callable[[str], None]]:
    """Show a line that changes, on standard error, while something lasts, if that is a terminal.

    Yields
    ------
    callable
        Takes what the line says.
    """
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console

    with Console(stderr=True).status("") as shown:
        yield lambda says: shown.update(says)

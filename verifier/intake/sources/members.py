"""The files in an archive, whatever packed it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BufferedReader

__all__ = ["Member"]


@dataclass(frozen=True, slots=True)
class Member:
    """One file of an archive.

    Parameters
    ----------
    name : str
        As the archive gives it: any characters at all. Nothing is ever unpacked under it.
    open : callable or None
        Returns its contents; to be called, and read, before the next member is asked for.
    trouble : str or None
        The code of the fault that keeps it from being read.
    """

    name: str
    open: Callable[[], BufferedReader] | None = None
    trouble: str | None = None

"""From the words of a command line - files, folders, ``FILE#3``, ``-`` - to the puzzles they name."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from verifier.intake.wording import EMPTY_FOLDER
from verifier.puzzle.faults import Fault
from verifier.puzzle.limits import DEFAULT_LIMITS, Limits
from verifier.puzzle.printable import listed, printable
from verifier.puzzle.reading import Entry, read_address, read_stream

__all__ = ["ENDINGS", "STANDARD_INPUT", "Found", "find_sources", "read_sources"]

ENDINGS = (".yaml", ".yml", ".json", ".jsonl", ".ndjson", ".txt")
"""Files in a folder with other endings are passed over; a file that is named itself is always read."""

STANDARD_INPUT = "-"

_INPUT_NAME = "stdin"
_FIGURES = re.compile(r"([0-9]+)")
_LONGEST_NAME = 1000  # characters of a path in a message


@dataclass(frozen=True, slots=True)
class Found:
    """What the words of a command line name.

    Parameters
    ----------
    addresses : tuple of str
        Paths of files, or ``FILE#3``: each once, in the order of their names with numbers as numbers. The
        order of the words makes no difference.
    standard_input : bool
        Whether to read that, too; it comes last.
    bare_folders : tuple of str
        Folders without any file to read.
    passed_over : int
        Files in folders whose ending is none of `ENDINGS`.
    """

    addresses: tuple[str, ...]
    standard_input: bool = False
    bare_folders: tuple[str, ...] = ()
    passed_over: int = 0


def find_sources(words: Iterable[str], leave_out: Path | None = None) -> Found:
    """Return the files that the words name; folders are searched to the bottom.

    Parameters
    ----------
    words : iterable of str
        Paths of files and folders, ``FILE#3`` for one puzzle of several, ``-`` for standard input. A path
        that does not exist is kept: reading it gives the fault.
    leave_out : Path, optional
        A folder that is not searched, such as the one for the verdicts.
    """
    addresses: dict[str, str] = {}  # by real path, so that a file reached by two ways is read once
    bare: list[str] = []
    standard_input = False
    passed_over = 0
    for word in words:
        if word == STANDARD_INPUT:
            standard_input = True
        elif os.path.isdir(word):
            files = list(_files_below(word, leave_out))
            wanted = [path for path in files if path.lower().endswith(ENDINGS)]
            passed_over += len(files) - len(wanted)
            bare += [] if wanted else [word]
            for path in wanted:
                addresses.setdefault(_real(path), path)
        else:
            addresses.setdefault(_real(word), word)
    in_order = tuple(sorted(addresses.values(), key=_order))
    return Found(in_order, standard_input, tuple(sorted(bare)), passed_over)


def read_sources(found: Found, stdin: BinaryIO, limits: Limits = DEFAULT_LIMITS) -> Iterator[Entry]:
    """Yield the puzzles of all sources in order; a folder without files is an entry with a fault.

    Parameters
    ----------
    found : Found
        What to read.
    stdin : binary file
        Read when it is asked for.
    limits : Limits, optional
        How much of a file to take.
    """
    for folder in found.bare_folders:
        name = printable(folder, _LONGEST_NAME)
        what, allowed, cure = EMPTY_FOLDER
        told = allowed.format(endings=listed(ENDINGS, "or"))
        yield Entry(name, None, (Fault("empty-folder", name, None, "the folder", what, told, cure),))
    for address in found.addresses:
        yield from read_address(address, limits)
    if found.standard_input:
        yield from read_stream(stdin, _INPUT_NAME, limits)


def _files_below(folder: str, leave_out: Path | None) -> Iterator[str]:
    """Yield the files below a folder, hidden ones left out; links to folders are not followed."""
    barred = None if leave_out is None else _real(str(leave_out))
    for place, folders, files in os.walk(folder):
        folders[:] = [f for f in folders if not f.startswith(".") and _real(os.path.join(place, f)) != barred]
        paths = (os.path.join(place, file) for file in files if not file.startswith("."))
        yield from filter(os.path.isfile, paths)


def _real(path: str) -> str:
    try:
        return os.path.realpath(path)
    except ValueError:  # a NUL in the name; reading it gives the fault
        return path


def _order(address: str) -> list[list[str | int]]:
    """Return the key that puts ``k2`` before ``k10``, and a folder's files together."""
    return [
        [int(part) if part.isdecimal() else part for part in _FIGURES.split(name)]
        for name in address.split(os.sep)
    ]

"""What stands in a letter: parts, entries, grids - laid out so that it reads as text and as Markdown."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from textwrap import fill

from verifier.intake.letters import wording
from verifier.puzzle.printable import listed, printable
from verifier.verdict.verdict import Rows

__all__ = ["PARTS", "Entry", "body_of", "file_called", "in_markdown"]

PARTS = ("accepted", "repeats", "rejected", "unreadable")
"""The parts of a letter, in their order."""

_WIDTH = 90
_SIGNS_OF_MARKDOWN = re.compile(r"[\\`*_{}\[\]<>#|~&]|\A[-+=]")
_NUMBER_OF_A_LIST = re.compile(r"\A([0-9]{1,9})([.)])(?=\s|\Z)")
_LAST_NUMBER = re.compile(r"#([0-9]+)(~[0-9]+)?\Z")


@dataclass(frozen=True, slots=True)
class Entry:
    """What a letter says of one submission.

    Parameters
    ----------
    file : str
        What the setter calls the file; see `file_called`.
    part : str
        One of `PARTS`.
    name : str
        The puzzle's title and id; empty where it could not be read.
    says : tuple of str
        What is to be said of it, each a paragraph.
    repairs : tuple of str
        What puts it right.
    grids : tuple of Rows
        The only solution, or two that differ, where what is said speaks of them.
    """

    file: str
    part: str
    name: str = ""
    says: tuple[str, ...] = ()
    repairs: tuple[str, ...] = ()
    grids: tuple[Rows, ...] = ()


def body_of(entries: Sequence[Entry], *, everything: bool = False, markdown: bool = False) -> str:
    """Return what stands in a letter between greeting and farewell.

    Parameters
    ----------
    entries : sequence of Entry
        In the order in which they are told within their part.
    everything : bool
        Whether it tells of all that the setter sent; else of what is new.
    markdown : bool
        Whether signs of Markdown in names and sentences must be kept from meaning anything.

    Examples
    --------
    >>> entry = Entry("ebb.yaml", "accepted", "Ebb, tide-7", ("Tier 2, lane; effort 90.",))
    >>> print(body_of([entry], everything=True))
    This is what became of all the puzzles that you have sent us so far.
    <BLANKLINE>
    Accepted
    --------
    <BLANKLINE>
    - Ebb, tide-7 (in ebb.yaml)
    <BLANKLINE>
      Tier 2, lane; effort 90.
    """
    lay = _in_markdown if markdown else _in_text
    blocks = [lay(wording.ALL if everything else wording.NEWS, "", "")]
    for part in PARTS:
        told = [entry for entry in entries if entry.part == part]
        if told:
            heading = wording.HEADINGS[part]
            blocks.append(f"{heading}\n{'-' * len(heading)}")
            blocks += [block for entry in _told_once(told) for block in _entry(entry, lay)]
            blocks += [lay(wording.ENDINGS[part], "", "")] if part in wording.ENDINGS else []
    return "\n\n".join(blocks)


def file_called(address: str) -> str:
    """Return what the setter calls the file of a submission: no folder or archive, which are the editor's.

    Examples
    --------
    >>> file_called("post/late.zip!week-2/17.yaml#3"), file_called("post/ebb.yaml")
    ('17.yaml, puzzle 3', 'ebb.yaml')
    """
    number = _LAST_NUMBER.search(address)
    path = address[: number.start()] if number else address
    file = printable(re.split(r"[!/\\]", path.rstrip("/\\"))[-1] or path)
    return wording.PUZZLE_OF.format(file=file, number=number[1]) if number else file


def in_markdown(text: str) -> str:
    r"""Return a text in which no sign means anything in Markdown.

    Examples
    --------
    >>> print(in_markdown("*Ebb* & flow"), in_markdown("1. of May"))
    \*Ebb\* \& flow 1\. of May
    """
    return _NUMBER_OF_A_LIST.sub(r"\1\\\2", _SIGNS_OF_MARKDOWN.sub(r"\\\g<0>", text))


_Lay = Callable[[str, str, str], str]
"""Lays a paragraph out: its text, what stands before its first line, and before the others."""


def _in_text(text: str, first: str, others: str) -> str:
    return fill(text, _WIDTH, initial_indent=first, subsequent_indent=others, break_on_hyphens=False)


def _in_markdown(text: str, first: str, _: str) -> str:
    """Keep to one line, which Markdown folds by itself: so no figure comes to begin a line, and a list."""
    return first + in_markdown(text)


def _told_once(entries: Sequence[Entry]) -> list[Entry]:
    """Return entries of which no two say the same; one puzzle that came in several files names them all."""
    files: dict[Entry, list[str]] = {}
    for entry in entries:
        files.setdefault(replace(entry, file=""), []).append(entry.file)
    return [replace(entry, file=listed(dict.fromkeys(names))) for entry, names in files.items()]


def _entry(entry: Entry, lay: _Lay) -> Iterator[str]:
    name = wording.NAMED.format(name=entry.name, file=entry.file) if entry.name else entry.file
    yield lay(name, "- ", "  ")
    for says in entry.says:
        yield lay(says, "  ", "  ")
    if entry.grids:
        yield lay(wording.TWO_SOLUTIONS if len(entry.grids) > 1 else wording.SOLUTION, "  ", "  ")
        yield "\n".join(f"      {row}" for row in _side_by_side(entry.grids))
    if len(entry.repairs) == 1:
        yield lay(wording.ONE_REPAIR.format(says=entry.repairs[0]), "  ", "  ")
    elif entry.repairs:
        yield lay(wording.SEVERAL_REPAIRS, "  ", "  ")
        yield "\n".join(lay(says, "  - ", "    ") for says in entry.repairs)


def _side_by_side(grids: Sequence[Rows]) -> Iterator[str]:
    """Yield the rows of one grid, or of two, in which a star marks a digit that differs."""
    wide = max(len(str(digit)) for row in grids[0] for digit in row)
    for rows in zip(*grids, strict=True):
        told = []
        for row in rows:
            signs = (
                "*" if len(set(here)) > 1 and row is not rows[0] else " " for here in zip(*rows, strict=True)
            )
            told.append("".join(f"{digit:>{wide}}{sign}" for digit, sign in zip(row, signs, strict=True)))
        yield "    ".join(told).rstrip()

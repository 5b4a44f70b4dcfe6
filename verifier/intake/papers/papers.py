"""What an editor finds beside the verdict files: the lists of a run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path
from textwrap import fill

from verifier.intake.ledger.ledger import Ledger
from verifier.intake.papers import wording
from verifier.intake.papers.duplicates import Group, Like, Repeats, duplicates, same_solutions
from verifier.intake.papers.files import remove, write_whole
from verifier.intake.papers.one_page import write_report
from verifier.intake.papers.report import ListedSubmission, listed_in, worth_a_look
from verifier.puzzle.printable import printable, visible

__all__ = ["UNREADABLE", "write_papers"]

UNREADABLE, DUPLICATES = "unreadable.txt", "duplicates.txt"
SAME_SOLUTION, REMARKS = "same-solution.txt", "remarks.txt"
"""Four lists, in the folder of the verdicts."""


def write_papers(ledger: Ledger, folder: Path) -> Repeats:
    """Write the lists anew; those that have become empty go.

    Returns
    -------
    Repeats
        How many groups there are of duplicates, and of puzzles with one solution.

    Raises
    ------
    CannotWriteError
        If the folder cannot be written to.
    """
    unread = (says for one in listed_in(ledger, "unreadable") for says in one.says)
    _write_list(folder / UNREADABLE, wording.UNREADABLE, unread)
    write_report(ledger, folder)
    _write_list(folder / REMARKS, wording.REMARKS, _remarked(listed_in(ledger, "accepted")))
    return Repeats(
        _write_groups(folder / DUPLICATES, wording.DUPLICATES, duplicates(ledger)),
        _write_groups(folder / SAME_SOLUTION, wording.SAME_SOLUTION, same_solutions(ledger)),
    )


def _remarked(listed: Iterable[ListedSubmission]) -> Iterator[str]:
    for one in listed:
        remarks = worth_a_look(one.remarks)
        if remarks:
            yield from (*_entry(one, [remark.says for remark in remarks]), "")


def _entry(one: ListedSubmission, says: Iterable[str]) -> Iterator[str]:
    name = ", ".join(printable(text) for text in (one.id, one.title) if text)
    yield f"{name} ({one.address})" if name else one.address
    for each in says:
        yield fill(each, wording.WIDTH, initial_indent="  - ", subsequent_indent="    ")


def _write_groups(path: Path, opening: str, groups: Iterator[Group]) -> int:
    """Write a list of groups, and return how many there are."""
    met = 0

    def told() -> Iterator[str]:
        nonlocal met
        for group in groups:
            met += 1
            yield from _told(group)

    _write_list(path, opening, told())
    return met


def _told(group: Group) -> Iterator[str]:
    first, *others = group.members
    yield _named(first)
    for other in others:
        yield "  " + wording.LIKE_OTHER.format(puzzle=_named(other), how=wording.HOW_LIKE[other.how])
    if group.more:
        yield "  " + wording.MORE_ALIKE.format(number=group.more)
    yield ""


def _named(like: Like) -> str:
    puzzle = wording.LIKE_FIRST.format(id=printable(like.id), address=like.address)
    return wording.ALREADY_PRINTED.format(puzzle=puzzle) if like.printed else puzzle


def _write_list(path: Path, opening: str, lines: Iterator[str]) -> None:
    first = next(lines, None)
    if first is None:
        remove(path)
    else:
        head = (fill(opening, wording.WIDTH), "", first)
        write_whole(path, (f"{visible(line)}\n" for line in chain(head, lines)))

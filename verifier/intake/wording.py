"""What the intake says to people."""

from __future__ import annotations

from collections.abc import Sequence

from verifier.intake.limits import DEFAULT_BOUNDS, Bounds, Care
from verifier.intake.listing import ENDINGS
from verifier.puzzle.faults import Fault
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.submissions import Submission

__all__ = ["lost_reading", "lost_says", "passed_over", "source_fault"]

_LONGEST_NAME = 5000  # characters of an address

_FAULTS = {
    "empty-folder": (
        "a folder without puzzle files",
        f"files that end in {listed(ENDINGS, 'or', most=20)}",
        "Name the files themselves.",
    ),
    "folder-closed": (
        "a folder that cannot be searched",
        "a folder that can be read",
        "Let it be read, or leave it out.",
    ),
    "link-out": (
        "a link that leads out of the folder",
        "files of the folder itself",
        "Put the file in the place of the link, or name the file itself.",
    ),
    "no-puzzle-column": (
        "a table without a column 'puzzle'",
        "a first line with the names of the columns, one of them 'puzzle'",
        "Write 'puzzle' over the column with the puzzles.",
    ),
    "archive-broken": (
        "an archive that breaks off or is damaged",
        "a whole archive",
        "What was found before that place is judged. Have the archive sent again.",
    ),
    "archive-bomb": (
        "an archive that unpacks to far more than it should",
        "at most {ratio} times the size of the archive",
        "What was found before that place is judged. Do not unpack the archive; ask its sender.",
    ),
    "archive-too-many": (
        "too many files in the archive",
        "at most {members:,} files",
        "Send it in parts.",
    ),
    "archive-empty": (
        "an archive without puzzle files",
        f"files that end in {listed(ENDINGS, 'or', most=20)}",
        "Look into the archive.",
    ),
    "no-such-member": ("no such file in the archive", "a file of the archive", "Correct the name."),
    "member-link": ("a link", "files themselves", "Put the file in the place of the link."),
    "member-archive": ("an archive in an archive", "puzzle files", "Unpack it, and send what is in it."),
    "member-locked": (
        "a file that is locked with a password",
        "files without",
        "Send it without a password.",
    ),
    "member-method": (
        "a file that is packed in a way that is not known here",
        "files packed as usual (deflate)",
        "Pack it again in the usual way.",
    ),
    "member-broken": ("a damaged file", "a whole file", "Have the archive sent again."),
}
"""For each fault of a source: what was found, what is allowed, what to do."""


def source_fault(name: str, code: str, bounds: Bounds = DEFAULT_BOUNDS) -> Submission:
    """Return what stands for a file, a folder or an archive that cannot be read.

    Examples
    --------
    >>> print(source_fault("box.zip!a.yaml", "member-link").faults[0])
    box.zip!a.yaml: the file: found a link; allowed: files themselves. Put the file in the place of the link.
    """
    address = printable(name, _LONGEST_NAME)
    found, allowed, cure = _FAULTS[code]
    told = allowed.format(ratio=bounds.ratio, members=bounds.members)
    field = "the folder" if "folder" in code else "the archive" if code.startswith("archive") else "the file"
    return Submission(address, None, (Fault(code, address, None, field, found, told, cure),))


_LOST = {
    "died": "the process that judged this puzzle was ended from outside, or broke down, {tries} times",
    "time": "the process that judged this puzzle did not answer within {seconds:.0f} seconds, {tries} times",
    "memory": "judging this puzzle took more than {memory:,} MiB of memory, {tries} times",
}
_LOST_CURES = {
    "died": "Most likely the machine ran out of memory. Check the puzzle alone.",
    "time": "Check the puzzle alone, with more time (--seconds).",
    "memory": "Check the puzzle alone, on a machine with more memory, with a higher limit (--memory).",
}


def lost_says(cause: str, care: Care) -> str:
    """Say why a puzzle is undecided whose worker was lost.

    Examples
    --------
    >>> print(lost_says("time", Care(seconds=60, tries=2)).partition(": ")[2].partition(".")[0])
    the process that judged this puzzle did not answer within 60 seconds, 2 times
    """
    told = _LOST[cause].format(seconds=care.seconds, memory=care.memory_bytes >> 20, tries=care.tries)
    return f"Not proved either way: {told}. {_LOST_CURES[cause]}"


def lost_reading(address: str, cause: str) -> Fault:
    """Return the fault of a file over which the worker was lost before the puzzle was read."""
    found = {"time": "a text that takes too long to read", "memory": "a text that takes too much memory"}
    told = found.get(cause, "a text over which the reading broke off")
    return Fault(
        "reading-lost",
        address,
        None,
        "the text",
        told,
        "a puzzle as the README shows it",
        "It is tried again in the next run.",
    )


def passed_over(count: int, endings: Sequence[str]) -> str:
    """Say that files in folders and archives were not read.

    Examples
    --------
    >>> passed_over(2, [".yaml", ".txt"])
    'two files passed over: in folders only .yaml and .txt are read; name other files one by one'
    """
    return (
        f"{counted(count, 'file')} passed over: in folders only {listed(endings, most=20)} are read; "
        "name other files one by one"
    )

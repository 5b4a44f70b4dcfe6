"""What is said of files, folders and archives that cannot be read as puzzles."""

from __future__ import annotations

from collections.abc import Iterator

from verifier.files.faults import Fault
from verifier.files.submissions import Submission
from verifier.intake.limits import DEFAULT_BOUNDS, Bounds
from verifier.intake.sources.listing import ENDINGS
from verifier.puzzle.printable import counted, in_figures, listed, printable

__all__ = ["passed_over", "source_fault"]

_LONGEST_NAME = 5000  # characters of an address

_WITH_ENDINGS = f"files that end in {listed(ENDINGS, 'or', most=20)}"

_FAULTS = {
    "empty-folder": (
        "a folder without puzzle files",
        _WITH_ENDINGS,
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
    "archive-slow": (
        "an archive in which no further puzzle was found within {seconds:.0f} seconds",
        "puzzles, and little else",
        "What was found before that place is judged. It is tried again in the next run.",
    ),
    "file-slow": (
        "a text in which no further puzzle was found within {seconds:.0f} seconds",
        "puzzles, and little else",
        "What was found before that place is judged. It is tried again in the next run.",
    ),
    "own-output": (
        "a verdict, letter, list, table or page that gridproof wrote",
        "a puzzle as it was drawn",
        "Name the file of the puzzle.",
    ),
    "archive-empty": (
        "an archive without puzzle files",
        _WITH_ENDINGS,
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
    found = found.format(seconds=bounds.seconds)
    told = allowed.format(ratio=bounds.ratio, members=bounds.members)
    field = "the folder" if "folder" in code else "the archive" if code.startswith("archive") else "the file"
    return Submission(address, None, (Fault(code, address, None, field, found, told, cure),))


def passed_over(others: int = 0, own: int = 0, settings: int = 0, no_files: int = 0) -> Iterator[str]:
    """Say what was not read as puzzles.

    Parameters
    ----------
    others : int
        Files with other endings.
    own : int
        Files that gridproof wrote.
    settings : int
        House styles, slots and the like.
    no_files : int
        Pipes, sockets and devices.

    Examples
    --------
    >>> list(passed_over(own=1))
    ['one file passed over that gridproof itself wrote (verdicts, letters, lists, tables, pages)']
    >>> list(passed_over(settings=2))
    ['two files passed over with settings and no puzzle (intake.yaml, a house style, slots)']
    """
    for number, says in ((others, _OTHERS), (own, _OWN), (settings, _SETTINGS)):
        if number:
            yield says.format(files=counted(number, "file"), endings=listed(ENDINGS, most=20))
    if no_files:
        yield _NO_FILES.format(things="one" if no_files == 1 else in_figures(no_files))


_OTHERS = "{files} passed over: in folders only {endings} are read; name other files one by one"
_OWN = "{files} passed over that gridproof itself wrote (verdicts, letters, lists, tables, pages)"
_SETTINGS = "{files} passed over with settings and no puzzle (intake.yaml, a house style, slots)"
_NO_FILES = (
    "{things} passed over: no file but a pipe, a socket or a device, for which the run would wait; what is "
    "named itself is read"
)

"""What the intake says to people."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from verifier.files.faults import Fault
from verifier.files.submissions import Submission
from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.intake.limits import DEFAULT_BOUNDS, Bounds, WorkerLimits
from verifier.intake.sources.listing import ENDINGS
from verifier.likeness.guises import Guise
from verifier.puzzle.printable import counted, listed, printable

if TYPE_CHECKING:
    from verifier.intake.papers.duplicates import Repeats
    from verifier.intake.papers.report import Counts, ListedSubmission

__all__ = ["lost_reading", "lost_says", "passed_over", "source_fault"]

MARKER = ".gridproof"
"""The file that says to which ledger an output folder belongs."""

WIDTH = 90
"""Characters of a line of letters and lists."""

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
    found = found.format(seconds=bounds.seconds)
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


def lost_says(cause: str, limits: WorkerLimits) -> str:
    """Say why a puzzle is undecided whose worker was lost.

    Examples
    --------
    >>> print(lost_says("time", WorkerLimits(seconds=60, tries=2)).partition(": ")[2].partition(".")[0])
    the process that judged this puzzle did not answer within 60 seconds, 2 times
    """
    told = _LOST[cause].format(seconds=limits.seconds, memory=limits.memory_bytes >> 20, tries=limits.tries)
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


def own_passed_over(count: int) -> str:
    """Say that what gridproof wrote was not read as puzzles.

    Examples
    --------
    >>> own_passed_over(1)
    'one file passed over that gridproof itself wrote (verdicts, letters, lists, tables, pages)'
    """
    return (
        f"{counted(count, 'file')} passed over that gridproof itself wrote (verdicts, letters, lists, "
        "tables, pages)"
    )


NO_SETTER = "setter unknown"
"""Heads the letter with what nobody has put a name to."""

# By what opens letters and lists, `verifier.intake.sources.own` knows them again. An opening that is put in
# other words must stay there as one of an earlier version.

LETTER = (
    "These puzzles cannot be printed as they are. Below each is what was found, and what to do about it. "
    "Please send them again when they are put right."
)
"""Opens a letter to a setter."""

UNREADABLE = (
    "What could not be read: file and line, what was found there, what may stand there, and what to do about "
    "it."
)
"""Opens the list of what could not be read."""

DUPLICATES = (
    "The puzzles of each group are one and the same. The first of them was printed before, or stands first "
    "in the box; of each other one it is said how it is like the first."
)
"""Opens the list of duplicates."""

REMARKS = (
    "These puzzles are accepted, and nothing here speaks against them. But each has something that its "
    "setter may not have meant: look at it before it goes to print."
)
"""Opens the list of accepted puzzles with remarks."""


_HOW = {
    Guise.SAME: "the same puzzle",
    Guise.TURNED: "the same puzzle, turned, mirrored or complemented",
    Guise.DISGUISED: "the same puzzle in disguise: lines reordered, or digits renamed",
    Guise.SOLUTION: "another puzzle with the same solution",
}

REPEATED = {
    Guise.SAME: "the same puzzle",
    Guise.TURNED: "the same puzzle, turned, mirrored or complemented",
    Guise.DISGUISED: "the same puzzle in disguise, with its lines in another order or its digits renamed",
    Guise.SOLUTION: "the same solution, or one in disguise, under other cages or givens",
}
"""In what way a puzzle repeats a printed one."""

SAME_SOLUTION = (
    "These puzzles have the same solution, as it stands or in disguise (turned, lines reordered, digits "
    "renamed), under other cages or givens. That is no fault, and changes no verdict: it is told so that you "
    "can keep two of them out of one book."
)
"""Opens the list of puzzles with one solution."""


def also(says: str) -> str:
    """Set a remark apart from the reasons in a letter."""
    return f"Not a fault, but please look: {says}"


def like_first(address: str, puzzle_id: str, *, printed: bool) -> str:
    """Name the first of several puzzles that are alike.

    Examples
    --------
    >>> like_first("may.yaml#3", "ebb", printed=True)
    'ebb (may.yaml#3), already printed'
    """
    return f"{printable(puzzle_id)} ({address}){', already printed' if printed else ''}"


def like_other(address: str, puzzle_id: str, how: Guise, *, printed: bool) -> str:
    """Say how another puzzle is like the first.

    Examples
    --------
    >>> like_other("box.zip!7.yaml", "flow", Guise.TURNED, printed=False)
    'flow (box.zip!7.yaml): the same puzzle, turned, mirrored or complemented'
    """
    return f"{like_first(address, puzzle_id, printed=printed)}: {_HOW[how]}"


def more_alike(number: int) -> str:
    """Say that a list of puzzles with one solution goes on.

    Examples
    --------
    >>> more_alike(1980)
    "and 1,980 more; the column 'filling' of the export is the same for all of them"
    """
    return f"and {number:,} more; the column 'filling' of the export is the same for all of them"


_IN_SHORT = {
    "alias": "shorthand of YAML (& or *)",
    "bare-character": "character that is no digit",
    "bare-length": "line too short or too long",
    "boxes": "boxes that do not fit",
    "cannot-open": "file that cannot be opened",
    "cell-name": "cell that is not written as r3c5",
    "empty": "file without a puzzle",
    "file-slow": "file in which no puzzle was found in time",
    "archive-slow": "archive in which no puzzle was found in time",
    "own-output": "file that gridproof wrote",
    "format-newer": "made for a newer gridproof",
    "format-unknown": "format not known",
    "grid": "size of grid not known",
    "key-shape": "key that is no word",
    "kind": "kind of puzzle not known",
    "link-out": "link that leads out of the folder",
    "marks": "marks that do not fit the cages",
    "member-archive": "archive in an archive",
    "member-broken": "damaged file in an archive",
    "member-link": "link in an archive",
    "member-locked": "file locked with a password",
    "member-method": "file packed in a way not known",
    "missing-key": "something left out",
    "mistake-of-ours": "mistake of gridproof",
    "no-puzzle-column": "table without a column 'puzzle'",
    "not-a-map": "no keys with values",
    "not-built": "kind of puzzle not taken yet",
    "not-json": "not JSON",
    "not-utf8": "text not in UTF-8",
    "not-yaml": "not YAML",
    "reading-lost": "text that could not be read in time",
    "tag": "tag of YAML (!)",
    "unknown-key": "word not known",
}
"""Reasons whose code says little to a person; every other code is its own words."""


def reason_in_short(code: str) -> str:
    """Return the code of a reason as a few words.

    Examples
    --------
    >>> reason_in_short("several-solutions"), reason_in_short("kind")
    ('several solutions', 'kind of puzzle not known')
    """
    return _IN_SHORT.get(code, code.replace("-", " "))


def counts_told(counts: Counts, repeats: Repeats) -> str:
    """Return the summary of a ledger: how many of what."""
    lines = [f"{counts.total:,} submissions" if counts.total != 1 else "1 submission"]
    lines += _column(counts.states)
    if counts.reasons:
        lines += ["why", *_column([(reason_in_short(code), number) for code, number in counts.reasons])]
    if counts.tiers:
        lines += ["tiers of the accepted ones"]
        lines += _column([(f"{tier} {name}", number) for tier, name, number in counts.tiers])
    if counts.remarked:
        lines += [f"{counted(counts.remarked, 'accepted puzzle')} with remarks: worth a look before printing"]
    if repeats.duplicates:
        lines += [f"{counted(repeats.duplicates, 'group')} of duplicates"]
    if repeats.same_solutions:
        lines += [f"{counted(repeats.same_solutions, 'group')} of different puzzles with the same solution"]
    return "\n".join(lines)


def _column(pairs: Sequence[tuple[str, int]]) -> list[str]:
    width = max((len(name) for name, _ in pairs), default=0)
    return [f"  {printable(name):<{width}}  {number:>9,}" for name, number in pairs]


def listed_told(one: ListedSubmission) -> str:
    """Return one line of a list: address, id, and the first reason.

    Examples
    --------
    >>> from verifier.intake.papers.report import ListedSubmission
    >>> listed_told(ListedSubmission("a.yaml", "rejected", "ebb", None, None, ("No solution.", "Too large.")))
    'a.yaml  ebb  No solution. (and one reason more)'
    """
    more = f" (and {counted(len(one.says) - 1, 'reason')} more)" if len(one.says) > 1 else ""
    return "  ".join(filter(None, (one.address, printable(one.id or ""), *one.says[:1]))) + more


_CHANGES = {
    "style_name": "the name of the house style",
    "style_content": "the rules of the house style",
    "ladder": "the ladder of techniques",
    "format": "the format of verdicts",
    "gridproof": "gridproof",
    "reader": "the reader of puzzle files",
    "ortools": "the count's solver (ortools)",
    "clingo": "the recount's solver (clingo)",
    "reading_limits": "the limits of reading",
}


def judged_why(
    judged: Mapping[JudgingReason, int], kept: int, changes: Sequence[tuple[str, str, str]]
) -> list[str]:
    """Say what was judged in this run and why, and what was not touched.

    Examples
    --------
    >>> for line in judged_why({JudgingReason.NEW: 3, JudgingReason.MADE_ANEW: 1}, 6, [("ladder", "1", "2")]):
    ...     print(line)
    judged in this run: 3 new, 1 judged again for what has changed
    changed since: the ladder of techniques (1 before, 2 now)
    6 stand as they were
    """
    told = [f"{judged[why]:,} {_WHY[why]}" for why in JudgingReason if judged.get(why)]
    lines = [f"judged in this run: {', '.join(told)}"] if told else []
    if changes:
        lines.append(f"changed since: {listed(map(_change, changes))}")
    return [*lines, f"{kept:,} stand as they were"] if kept else lines


def _change(change: tuple[str, str, str]) -> str:
    name, before, now = change
    told = _CHANGES.get(name, name)
    return told if name in _NOT_TO_BE_SHOWN else f"{told} ({printable(before)} before, {printable(now)} now)"


_NOT_TO_BE_SHOWN = ("style_content", "reading_limits")
"""Changes of which the values say nothing to people."""

_WHY = {
    JudgingReason.NEW: "new",
    JudgingReason.CHANGED: "sent anew under an address that was there before",
    JudgingReason.MADE_ANEW: "judged again for what has changed",
    JudgingReason.PROVISIONAL: "tried again after they had been cut short",
}


def printed_before(number: int) -> str:
    """Say that a run without ``--printed`` compares with what an earlier one was given.

    Examples
    --------
    >>> printed_before(12)
    'compared with twelve printed puzzles of an earlier run; --printed gives others'
    """
    return f"compared with {counted(number, 'printed puzzle')} of an earlier run; --printed gives others"


def folder_of_another_ledger(folder: str) -> str:
    """Say that the verdicts of two ledgers must not mix."""
    return (
        f"--out {printable(folder, 300)} holds the verdicts of another ledger. Give that ledger, or another "
        f"folder. If that ledger is gone, delete the file {MARKER} in the folder: its verdicts can then be "
        "overwritten."
    )


def not_in_the_box(number: int) -> str:
    """Say that the ledger holds more than this run saw."""
    return f"{counted(number, 'submission')} of earlier runs not in the box this time; the ledger keeps them"


def go_on(done: int) -> str:
    """Say how a run that was stopped goes on."""
    return (
        f"Stopped. {counted(done, 'submission').capitalize()} in the ledger. Give the same command again to "
        "go on from there."
    )


FINISHING = "Finishing what is under way; press Ctrl-C again to stop at once."

STOPPED_AT_ONCE = (
    "Stopped at once. What was decided is in the ledger, but for the last moment. Give the same command "
    "again to go on from there."
)

_LEDGER = {
    "busy": "another run is using it. Wait for its end, or give another ledger.",
    "full": "the disk is full or fails. Nothing in it is damaged: free some space, and give the same command "
    "again to go on.",
    "foreign": "it is not a ledger of gridproof. Give another file with --ledger.",
    "version": "it was made by another version of gridproof ({says}). Use that version, or begin a new "
    "ledger.",
    "closed": "it cannot be opened or written to ({says}). Let it be written to, or give another file with "
    "--ledger.",
    "missing": "there is no such file. Give the ledger of a run with --ledger.",
    "damaged": "it cannot be read ({says}). Keep the file, and begin a new ledger: give another file with "
    "--ledger.",
}


def ledger_unusable(where: str, code: str, says: str) -> str:
    """Say why a ledger cannot be used, and what to do."""
    return f"the ledger {printable(where, 300)}: {_LEDGER[code].format(says=says)}"


def no_cluster(address: str, says: str) -> str:
    """Say that a cluster cannot be used."""
    return f"no cluster at {printable(address, 100)}: {printable(says, 300)}"


NO_CLUSTER_LIBRARY = (
    "'--cluster' needs Dask, which is not installed. Install it with: pip install 'gridproof[cluster]'"
)


def listed_in_part(most: int, total: int) -> str:
    """Say on a page that it lists a part of a box, and where the rest is.

    Examples
    --------
    >>> listed_in_part(1000, 23456).partition(". ")[0]
    'Listed are the first 1,000 of 23,456, in the order of their addresses'
    """
    return (
        f"Listed are the first {most:,} of {total:,}, in the order of their addresses. More of them with "
        "'--pages', or only the rejected ones with '--report --list rejected'; all of them, as a table, with "
        "'--report --csv'."
    )


JUDGED_BY_ANOTHER = (
    "This was judged by an earlier version of gridproof, so there is no page: give the box to 'intake' "
    "again, and it is judged anew."
)
"""Stands in the list of a box for a verdict that has no page."""

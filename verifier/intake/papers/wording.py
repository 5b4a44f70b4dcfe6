"""What letters, lists, counts and pages of a box say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from verifier.likeness.guises import Guise
from verifier.puzzle.printable import counted, listed, plural, printable

if TYPE_CHECKING:
    from verifier.intake.papers.by_hand import ByHand
    from verifier.intake.papers.duplicates import Repeated, Repeats
    from verifier.intake.papers.report import Counts, ListedSubmission

__all__ = ["REPEATED", "counts_told", "listed_told", "reason_in_short"]

WIDTH = 90
"""Characters of a line of letters and lists."""

# By what opens lists, `verifier.intake.sources.own` knows them again. An opening that is put in
# other words must stay there as one of an earlier version.

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


REPORT_TITLE = "{title}: report"
REPORT_SUMMARY = "{submissions} that count, as the ledger has them."
OF_THEM_REPEATS, BY_HAND = "accepted repeats", "to look at"
MORE_TO_LOOK_AT = "And {number:,} more: 'gridproof intake --report --list by-hand' lists all of them."
WHY_NOT, TIERS, SETTERS, OVER_TIME = "Sent back for", "Accepted, by tier", "By setter", "Over time"
FIGURES = ("sent", "accepted", "commonest fault", "tiers")
"""What the report of a run on one page is called, and what stands in it."""

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

LIKE_FIRST = "{id} ({address})"
ALREADY_PRINTED = "{puzzle}, already printed"
LIKE_OTHER = "{puzzle}: {how}"
HOW_LIKE = {
    Guise.SAME: "the same puzzle",
    Guise.TURNED: "the same puzzle, turned, mirrored or complemented",
    Guise.DISGUISED: "the same puzzle in disguise: lines reordered, or digits renamed",
    Guise.SOLUTION: "another puzzle with the same solution",
}
MORE_ALIKE = "and {number:,} more; the column 'filling' of the export is the same for all of them"

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
    if number := counts.printed_before + counts.copies:
        accepted = dict(counts.states)["accepted"]
        kinds = [f"{counts.printed_before:,} printed before"] if counts.printed_before else []
        kinds += [_numbered(counts.copies, "copy")] if counts.copies else []
        lines += [f"{accepted:,} accepted, of them {_numbered(number, 'repeat')}: {', '.join(kinds)}"]
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


def _numbered(number: int, noun: str) -> str:
    return f"{number:,} {noun if number == 1 else plural(noun)}"


def _column(pairs: Sequence[tuple[str, int]]) -> list[str]:
    width = max((len(name) for name, _ in pairs), default=0)
    return [f"  {printable(name):<{width}}  {number:>9,}" for name, number in pairs]


def by_hand_told(one: ByHand) -> str:
    """Return one line of what is to be looked at: why, which puzzle, and more of it."""
    return "  ".join(filter(None, (f"{one.why.value}:", one.address, one.name, printable(one.says, None))))


def listed_told(one: ListedSubmission) -> str:
    """Return one line of a list: address, id, the first reason, and what it repeats.

    Examples
    --------
    >>> from verifier.intake.papers.duplicates import Repeated
    >>> from verifier.intake.papers.report import ListedSubmission
    >>> repeats = Repeated(printed=("may/3.yaml",), copied=("b.yaml",))
    >>> listed_told(ListedSubmission("a.yaml", "accepted", "ebb", None, None, (), (), repeats))
    'a.yaml  ebb  repeats may/3.yaml (printed before) and b.yaml'
    >>> listed_told(ListedSubmission("a.yaml", "rejected", "ebb", None, None, ("No solution.", "Too large.")))
    'a.yaml  ebb  No solution. (and one reason more)'
    """
    more = f" (and {counted(len(one.says) - 1, 'reason')} more)" if len(one.says) > 1 else ""
    told = [one.address, printable(one.id or ""), *one.says[:1]]
    return "  ".join(filter(None, told)) + more + (f"  {repeats_told(one.repeats)}" if one.repeats else "")


def repeats_told(repeats: Repeated) -> str:
    """Say what a puzzle repeats."""
    return REPEATS.format(puzzles=listed(each_repeat(repeats)))


def each_repeat(repeats: Repeated) -> Iterator[str]:
    """Yield each puzzle that is repeated, as it is told."""
    yield from (PRINTED_BEFORE.format(address=address) for address in repeats.printed)
    yield from repeats.copied


REPEATS, PRINTED_BEFORE = "repeats {puzzles}", "{address} (printed before)"


LISTED_IN_PART = (
    "Listed are the first {most:,} of {total:,}, in the order of their addresses. More of them with "
    "'--pages', or only the rejected ones with '--report --list rejected'; all of them, as a table, with "
    "'--report --csv'."
)
"""Says on a page that it lists a part of a box, and where the rest is."""

JUDGED_BY_ANOTHER = (
    "This was judged by an earlier version of gridproof, so there is no page: give the box to 'intake' "
    "again, and it is judged anew."
)
"""Stands in the list of a box for a verdict that has no page."""

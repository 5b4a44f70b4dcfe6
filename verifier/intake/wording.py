"""What is said of a run: what was judged and why, how it ended, how it goes on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from verifier.intake.ledger.judging_reason import JudgingReason
from verifier.puzzle.printable import counted, listed, printable
from verifier.puzzle.wording import Wording

__all__ = [
    "ANOTHER_LEDGER",
    "FINISHING",
    "GO_ON",
    "NOT_IN_THE_BOX",
    "STOPPED_AT_ONCE",
    "compared_before",
    "judged_why",
]

BOX_SETTINGS = "the settings of the box"

BOX_SETTINGS_FAULTS = {
    "no-settings": Wording(
        "{what}", "keys such as 'post' and 'ledger', each with a path", "Write 'post: post/', and so on."
    ),
}
"""What to say about each fault of the settings of a box."""

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
    JudgingReason.CHANGED: "sent in the place of another",
    JudgingReason.MOVED: "judged again in another place",
    JudgingReason.MADE_ANEW: "judged again for what has changed",
    JudgingReason.PROVISIONAL: "tried again after they had been cut short",
}

TAKES_NO_REPEATS = "takes no repeats"
PRINTED = "this puzzle was printed before, as it is or in disguise."
COPIED = "this puzzle is the same as another that was sent in, as it is or in disguise."

GONE = "gone from the box: {submissions}, out of counts and letters until sent again"

REPLACED = "{newer} replaces {older}: the same puzzle, corrected by its setter"

CLAIMED = (
    "{newer} has the setter and the id of {older}, which is accepted or on a page: both stay. Look at them, "
    "and take out the one that you do not want ('--forget ADDRESS')."
)


def compared_before(folders: Sequence[tuple[str, str, int]]) -> str:
    """Say with what a run without ``--printed`` compares: folder, day on which it was read, number.

    Examples
    --------
    >>> compared_before([("may", "2026-05-29", 12)])
    'compared with twelve printed puzzles, as earlier runs found them: 12 in may on 2026-05-29'
    """
    printed = counted(sum(number for _, _, number in folders), "printed puzzle")
    told = (f"{number:,} in {printable(folder) or 'a folder'} on {day}" for folder, day, number in folders)
    return f"compared with {printed}, as earlier runs found them: {listed(told)}"


ANOTHER_LEDGER = (
    "--out {folder} holds the verdicts of another ledger. Give that ledger, or another folder. If that "
    "ledger is gone, delete the file {marker} in the folder: its verdicts can then be overwritten."
)

NOT_IN_THE_BOX = (
    "{submissions} of earlier runs not in the box this time; the ledger keeps them: '--forget ADDRESS' takes "
    "one out"
)

GO_ON = "Stopped. {submissions} in the ledger. Give the same command again to go on from there."

FINISHING = "Finishing what is under way; press Ctrl-C again to stop at once."

STOPPED_AT_ONCE = (
    "Stopped at once. What was decided is in the ledger, but for the last moment. Give the same command "
    "again to go on from there."
)

"""The table of a run: one line a puzzle, with the verdict in one word and the reasons in short."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from verifier.puzzle.printable import counted, printable, visible
from verifier.verdict.verdict import Difficulty, Solutions, Verdict

if TYPE_CHECKING:
    from rich.table import Table

    from grader.grading.tiers import TierTable
    from verifier.intake.workers.judging import Judged

__all__ = ["NOT_JUDGED", "UNREADABLE", "Row", "row_of", "styled_table", "table_text"]

NOT_JUDGED, UNREADABLE = "not judged", "unreadable"
"""What stands in the place of a verdict for a puzzle that could not be read, or met a bug of ours."""

COLUMNS = ("puzzle", "verdict", "solutions", "tier", "effort", "minutes", "why")

_COLOURS = {"accepted": "green", "rejected": "red", "undecided": "yellow", UNREADABLE: "magenta"}
_LONGEST_ID = 60  # characters; longer ids are cut in a table


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table.

    Parameters
    ----------
    puzzle : str
        The puzzle's id; the address of one that could not be read.
    verdict : str
        ``accepted``, ``rejected``, ``undecided`` or ``unreadable``.
    solutions : str
        How many; ``2+`` for "at least 2", ``?`` where it is not known.
    tier, effort, minutes : str
        Empty for a puzzle that is not sound; the minutes of the middle solver.
    why : str
        Reasons and remarks in short; empty for an accepted puzzle without a remark.
    """

    puzzle: str
    verdict: str
    solutions: str = ""
    tier: str = ""
    effort: str = ""
    minutes: str = ""
    why: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        """The entries in the order of `COLUMNS`."""
        return (self.puzzle, self.verdict, self.solutions, self.tier, self.effort, self.minutes, self.why)


def row_of(judged: Judged, tiers: TierTable) -> Row:
    """Return the line for one puzzle; the verdict speaks of these tiers."""
    verdict = judged.verdict
    if verdict is None:
        address = printable(judged.address, _LONGEST_ID)
        if not judged.faults:
            return Row(address, NOT_JUDGED, why="a mistake of gridproof's own")
        first, more = judged.faults[0], len(judged.faults) - 1
        line = f"line {first.line}: " if first.line is not None else ""
        why = f"{line}{first.field}: found {first.found}" + (
            f"; {counted(more, 'fault')} more" if more else ""
        )
        return Row(address, UNREADABLE, why=why)
    difficulty = verdict.difficulty
    return Row(
        puzzle=printable(verdict.puzzle.id, _LONGEST_ID),
        verdict=verdict.state.value,
        solutions=_number(verdict.solutions),
        tier=_tier(difficulty, tiers) if difficulty else "",
        effort=str(difficulty.effort) if difficulty and difficulty.effort is not None else "",
        minutes=str(difficulty.minutes.middle) if difficulty and difficulty.minutes else "",
        why=", ".join(_told_in_short(verdict)),
    )


def _tier(difficulty: Difficulty, tiers: TierTable) -> str:
    """Return the tier, and whether it is above that of the hardest technique."""
    if difficulty.tier is None or difficulty.name is None:
        return f"above {difficulty.beyond}"
    lifted = tiers.tier_of.get(difficulty.hardest or "", difficulty.tier) < difficulty.tier
    return f"{difficulty.tier} {printable(difficulty.name)}{' (lifted)' if lifted else ''}"


def _told_in_short(verdict: Verdict) -> Iterable[str]:
    """Return the reasons and remarks in words, each kind once."""
    reasons = [reason.code for reason in verdict.reasons]
    remarks = [f"remark: {remark.code}" for remark in verdict.remarks]
    return dict.fromkeys(code.replace("-", " ") for code in (*reasons, *remarks))


def table_text(rows: Sequence[Row]) -> str:
    """Return the table as plain text: a line of headings, then one line a puzzle, in columns.

    Examples
    --------
    >>> print(table_text([Row("low-tide", "accepted", "1", "4 ridge", "170", "10"),
    ...                   Row("box.yaml#2", "rejected", "2+", why="several solutions")]))
    puzzle      verdict   solutions  tier     effort  minutes  why
    low-tide    accepted  1          4 ridge  170     10
    box.yaml#2  rejected  2+                                   several solutions
    """
    from rich.cells import cell_len

    lines = [COLUMNS, *(row.cells for row in rows)]
    widths = [max(map(cell_len, column)) for column in zip(*lines, strict=True)]
    padded = (
        "  ".join(cell + " " * (width - cell_len(cell)) for cell, width in zip(line, widths, strict=True))
        for line in lines
    )
    return "\n".join(line.rstrip() for line in padded)


def styled_table(rows: Sequence[Row]) -> Table:
    """Return the table for a terminal: in colour, and folded to its width."""
    from rich.table import Table
    from rich.text import Text

    table = Table(*COLUMNS, box=None, pad_edge=False)
    for row in rows:
        cells = [Text(visible(cell)) for cell in row.cells]  # square brackets are no markup
        cells[1].stylize(_COLOURS.get(row.verdict, "bold"))
        table.add_row(*cells)
    return table


def _number(solutions: Solutions) -> str:
    if solutions.count is None:
        return "?"
    return f"{solutions.count}" if solutions.complete else f"{solutions.count}+"

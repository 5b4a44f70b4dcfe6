"""The plan of a page: what stands in each slot, what is lacking, and what to ask for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from verifier.pages import wording
from verifier.pages.drawing.thumbnail import blank, thumbnail
from verifier.pages.styling import page
from verifier.puzzle.printable import printable
from verifier.puzzle.puzzle import Puzzle

__all__ = ["PlanLine", "plan_page"]


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One slot of a page.

    Parameters
    ----------
    slot, day, asked : str
        What it is called, its day, and what it asks for; the day may be empty.
    puzzle : Puzzle or None
        What stands there.
    says : tuple of str
        How hard the puzzle is, or why there is none; each a paragraph.
    """

    slot: str
    day: str
    asked: str
    puzzle: Puzzle | None
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Line:
    slot: str
    day: str
    asked: str
    puzzle: Puzzle | None
    name: str
    setter: str
    picture: Markup | None
    says: tuple[str, ...]


def plan_page(title: str, summary: str, lines: Sequence[PlanLine], notes: Mapping[str, Sequence[str]]) -> str:
    """Return the plan of a page as one HTML file.

    Parameters
    ----------
    title, summary : str
        What it is called, and what is said below.
    lines : sequence of PlanLine
        The slots in order.
    notes : mapping of str to sequence of str
        Lists that follow, by their headings; empty ones are left out.
    """
    grids = dict.fromkeys(line.puzzle.grid for line in lines if line.puzzle is not None)
    return page(
        "plan.html.j2",
        None,
        styles=["desk.css"],
        title=printable(title),
        summary=summary,
        blanks=Markup("").join(map(blank, grids)),
        lines=list(map(_line, lines)),
        notes=[(heading, says) for heading, says in notes.items() if says],
    )


def _line(line: PlanLine) -> _Line:
    puzzle = line.puzzle
    if puzzle is None:
        return _Line(line.slot, line.day, line.asked, None, "", "", None, line.says)
    picture = thumbnail(puzzle, wording.grid_label(puzzle, len(puzzle.givens)))
    setter = printable(puzzle.credits.setter or "")
    return _Line(line.slot, line.day, line.asked, puzzle, wording.name_of(puzzle), setter, picture, line.says)

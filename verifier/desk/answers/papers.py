"""What can be taken from the desk: the walk as a page or as text, a sheet to print, the file itself."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from verifier.desk.drafting.draft_text import draft_text
from verifier.desk.drafting.unfinished import as_judged
from verifier.pages.sheets.pdf import pdf_of
from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
from verifier.pages.walkthrough import page_of
from verifier.pages.wording import sheet_author, sheet_title
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.judge import judge
from verifier.verdict.style.style import HouseStyle
from verifier.walkthrough.text import as_markdown
from verifier.walkthrough.work import Walkthrough, work_through

__all__ = ["PAPERS", "Printout"]


@dataclass(frozen=True, slots=True)
class Printout:
    """Something to print or to keep.

    Parameters
    ----------
    media : str
        What it is, for the browser.
    write : callable
        Makes it of a puzzle, judged by a house style.
    """

    media: str
    write: Callable[[Puzzle, HouseStyle], bytes]


def _walk(puzzle: Puzzle) -> Walkthrough:
    return work_through(as_judged(puzzle))


def _sheet(puzzle: Puzzle, style: HouseStyle) -> bytes:
    puzzle = as_judged(puzzle)
    verdict = judge(puzzle, style)
    hard = verdict.difficulty
    tier = f"tier {hard.tier}, {hard.name}" if hard is not None and hard.tier is not None else ""
    leaves = lay_out([SheetPuzzle(puzzle, tier, verdict.solutions.filling)])
    return pdf_of(leaves, sheet_title([puzzle]), sheet_author([puzzle]))


PAPERS: Mapping[str, Printout] = {
    "walk.html": Printout("text/html", lambda puzzle, _: page_of(_walk(puzzle)).encode()),
    "walk.md": Printout("text/markdown", lambda puzzle, _: as_markdown(_walk(puzzle)).encode()),
    "sheet.pdf": Printout("application/pdf", _sheet),
    "puzzle.yaml": Printout("application/yaml", lambda puzzle, _: draft_text(puzzle).encode()),
}
"""By the name under which the page offers it."""

"""Versions of a puzzle on one page: what was changed, before and after, and what each is like."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from verifier.pages import wording
from verifier.pages.drawing.highlight import Highlight
from verifier.pages.drawing.svg import Picture, drawing
from verifier.pages.rule_key import key_of_rules
from verifier.pages.styling import page
from verifier.puzzle.printable import printable
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Version", "versions_page"]

_MOST_NAME = 60


@dataclass(frozen=True, slots=True)
class Version:
    """A puzzle and another that was made of it.

    Parameters
    ----------
    heading : str
        What stands above it.
    says : tuple of str
        What is to be said, a paragraph each.
    before : Puzzle
        As it was.
    after : Puzzle or None
        As it is; None to show the one alone.
    changed : tuple of int
        The cells by which it is seen what was changed.
    table : tuple of tuple of str
        Lines of a table, the headings of its columns first; empty for none.
    """

    heading: str
    says: tuple[str, ...]
    before: Puzzle
    after: Puzzle | None
    changed: tuple[int, ...]
    table: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class _Shown:
    heading: str
    says: tuple[str, ...]
    panels: tuple[tuple[Markup, str], ...]
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def versions_page(
    title: str, says: Sequence[str], versions: Sequence[Version], captions: tuple[str, str] | None = None
) -> str:
    """Return versions of a puzzle as one HTML file.

    Parameters
    ----------
    title : str
        What it is called.
    says : sequence of str
        What is said of all of them, a paragraph each.
    versions : sequence of Version
        In order, at least one.
    captions : (str, str), optional
        What stands below the two pictures of each.
    """
    below = captions or (wording.BEFORE, wording.AFTER)
    first = versions[0].before
    return page(
        "versions.html.j2",
        first,
        styles=["verdict.css"],
        title=printable(title),
        by_line=wording.by_line(first),
        says=list(says),
        versions=[_shown(version, below) for version in versions],
        bold_differs=wording.BOLD_DIFFERS,
        meanings={**wording.KEY, "focus": wording.KEY["changed"]},
        **key_of_rules(first),
    )


def _shown(version: Version, captions: tuple[str, str]) -> _Shown:
    panels = []
    for puzzle, caption in zip((version.before, version.after), captions, strict=True):
        if puzzle is None:
            continue
        marked = Highlight(focus=tuple(cell for cell in version.changed if cell < puzzle.grid.cell_count))
        label = f"{caption}: {wording.grid_label(puzzle, len(puzzle.givens))}"
        panels.append((drawing(Picture(puzzle, highlight=marked), label), caption))
    columns, *rows = version.table or ((),)
    return _Shown(version.heading, version.says, tuple(panels), columns, tuple(rows))

"""The box page: every puzzle of a run in one table, to be sorted and sifted, with a link to each verdict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from textwrap import wrap

from markupsafe import Markup

from grader.grading.tiers import TierTable, default_tiers
from verifier.pages import wording
from verifier.pages.drawing.svg import element
from verifier.pages.drawing.thumbnail import blank, thumbnail
from verifier.pages.styling import page
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import printable
from verifier.puzzle.puzzle import Puzzle
from verifier.verdict.ends import counted_ends
from verifier.verdict.verdict import Verdict

__all__ = ["BoxLine", "Whole", "box_page"]

MOST_PICTURES = 1000
"""A box with more puzzles than this is listed without pictures: some 2 kB each."""

_HIGH, _WIDE, _ROOM = 100, 84, 26
"""Of the histogram, in units: the tallest bar, the width for each, the room above for its number."""

_LETTERS = 11
"""Letters that fit below a bar."""


@dataclass(frozen=True, slots=True)
class BoxLine:
    """What became of one submission.

    Parameters
    ----------
    address : str
        Where it came from, such as ``box.yaml#3``.
    puzzle : Puzzle or None
        None when it could not be read.
    verdict : Verdict or None
        None when there is none.
    says : str
        Why there is none.
    href : str or None
        Where its verdict page is, as a relative address.
    state : str
        What became of it, in one word; empty to go by puzzle and verdict.
    reasons : tuple of (str, str) or None
        Why, as a code and in words, where that is more than the verdict says.
    repeats : tuple of str
        What it repeats, as it is told.
    """

    address: str
    puzzle: Puzzle | None = None
    verdict: Verdict | None = None
    says: str = ""
    href: str | None = None
    state: str = ""
    reasons: tuple[tuple[str, str], ...] | None = None
    repeats: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Whole:
    """A box of which the page lists a part alone.

    Parameters
    ----------
    states : mapping of str to int
        How many submissions came to which end.
    tiers : mapping of int to int
        How many of the accepted ones are of which tier.
    says : str
        Which part is listed, and where the rest is; may be empty.
    """

    states: Mapping[str, int]
    tiers: Mapping[int, int]
    says: str = ""


def box_page(
    lines: Iterable[BoxLine], title: str, tiers: TierTable | None = None, whole: Whole | None = None
) -> str:
    """Return the list of a box as one HTML file.

    Parameters
    ----------
    lines : iterable of BoxLine
        In the order in which they are listed at first. Each is used once and let go: what is kept of it is
        what its line shows.
    title : str
        What the box is called.
    tiers : TierTable, optional
        The tiers that the verdicts speak of; those of the grader when absent.
    whole : Whole, optional
        What is counted, where that is more than what is listed.

    Returns
    -------
    str
        Every text from the files is escaped; the page loads nothing.
    """
    table = tiers or default_tiers()
    rows = [_row(line) for line in lines]
    if len(rows) > MOST_PICTURES:
        rows = [replace(row, grid=None, picture=None) for row in rows]
    counted = whole or Whole(*counted_ends((row.state, row.tier or None) for row in rows))
    return page(
        "box.html.j2",
        None,
        styles=["box.css"],
        scripts=["box.js"],
        title=printable(title),
        rows=rows,
        blanks=Markup("").join(map(blank, dict.fromkeys(row.grid for row in rows if row.grid is not None))),
        summary=wording.counts_in_words(counted.states),
        note=counted.says,
        states=sorted({row.state for row in rows}),
        tiers=sorted({(row.tier, row.tier_name) for row in rows if row.tier}),
        reasons=sorted({code for row in rows for code, _ in row.reasons}),
        setters=sorted({row.setter for row in rows if row.setter}, key=str.casefold),
        repeats=any(row.repeats for row in rows),
        in_words=wording.code_in_words,
        histogram=_histogram(counted.tiers, table) if counted.tiers else None,
    )


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of the table, ready to be shown; tier 0, effort and minutes None where there is no grade."""

    id: str
    name: str
    address: str
    setter: str
    kind: str
    state: str
    tier: int
    tier_name: str
    effort: int | None
    minutes: int | None
    repeats: tuple[str, ...]
    reasons: tuple[tuple[str, str], ...]
    grid: Grid | None
    picture: Markup | None
    href: str | None


def _row(line: BoxLine) -> _Row:
    puzzle, hard = line.puzzle, line.verdict.difficulty if line.verdict else None
    name = wording.name_of(puzzle) if puzzle else printable(line.address)
    return _Row(
        id=printable(puzzle.credits.id if puzzle else ""),
        name=name,
        address=printable(line.address),
        setter=printable((puzzle.credits.setter if puzzle else None) or ""),
        kind=f"{puzzle.kind} {puzzle.grid.name}" if puzzle else "",
        state=_state(line),
        tier=(hard and hard.tier) or 0,
        tier_name=(hard and hard.name) or "",
        effort=hard.effort if hard else None,
        minutes=hard.minutes.middle if hard and hard.minutes else None,
        repeats=tuple(map(printable, line.repeats)),
        reasons=_reasons(line),
        grid=puzzle.grid if puzzle else None,
        picture=thumbnail(puzzle, wording.grid_label(puzzle, len(puzzle.givens))) if puzzle else None,
        href=line.href,
    )


def _state(line: BoxLine) -> str:
    """Return the verdict in one word, ``unreadable`` or ``not judged``."""
    if line.state:
        return line.state
    if line.verdict is not None:
        return line.verdict.state.value
    return "unreadable" if line.puzzle is None else "not judged"


def _reasons(line: BoxLine) -> tuple[tuple[str, str], ...]:
    """Return why a puzzle is not accepted: codes, and sentences for the setter."""
    if line.verdict is not None and line.reasons is not None:
        return line.reasons
    if line.verdict is None:
        return ((_state(line), line.says),)
    return tuple((reason.code, reason.says) for reason in line.verdict.reasons)


def _lines(name: str) -> list[str]:
    """Return the name of a tier in lines that fit below its bar; house styles have long ones.

    Examples
    --------
    >>> _lines("ridge"), _lines("no light at all")
    (['ridge'], ['no light at', 'all'])
    """
    return wrap(name, _LETTERS, max_lines=3, placeholder="\u2026")


def _histogram(counts: Mapping[int, int], tiers: TierTable) -> Markup:
    """Return how many puzzles there are of each tier, as bars."""
    most = max(counts.values())
    rows = max(len(_lines(name)) for name in tiers.names.values())
    parts = []
    for place, (tier, name) in enumerate(sorted(tiers.names.items())):
        number = counts.get(tier, 0)
        high = round(_HIGH * number / most, 1)
        left = place * _WIDE
        parts.append(element("rect", x=left + 8, y=_ROOM + _HIGH - high, width=_WIDE - 16, height=high))
        for kind, text, down in (
            ("count", f"{number:,}", _ROOM - 5 + _HIGH - high),
            ("tier", str(tier), _ROOM + 16 + _HIGH),
            *(("name", line, _ROOM + _HIGH + 16 * row) for row, line in enumerate(_lines(name), start=2)),
        ):
            parts.append(element("text", text, **{"class": kind}, x=left + _WIDE / 2, y=down))
    return element(
        "svg",
        Markup("").join(parts),
        viewBox=f"0 0 {_WIDE * len(tiers.names)} {_ROOM + _HIGH + 24 + 16 * rows}",
        role="img",
        aria_label=wording.histogram_label(counts, tiers.names),
        **{"class": "histogram"},
    )

"""What every page shares: templates, styles, and the policy that lets nothing else into the page.

A page is one file. Its styles and scripts stand in it, its policy names them by their hashes, and nothing
else is allowed to load or to run: not from the network, and not from a text that a file brought along.
"""

from __future__ import annotations

import hashlib
import json
import re
from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from math import ceil
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from verifier.pages.drawing.figure import marks_in
from verifier.pages.drawing.look import CELL, PENS, faces_of
from verifier.pages.drawing.svg import element, shown
from verifier.puzzle.puzzle import Puzzle

__all__ = ["FITS_A_PHONE", "as_data", "mark_of", "page", "standalone", "templates_mark"]

FITS_A_PHONE = 9
"""Columns that can be read across a phone; a larger grid scrolls in its frame."""

_LEAST_MARK, _GOOD_MARK = 7.0, 8.5
"""The size of pencil marks on the screen, in pixels: the least for a large grid that is seen as a whole, and
that of one which has to be moved in its frame anyway."""

_WIDE_BOARD = 930
"""How wide a grid can be seen as a whole on a desk, in pixels."""

_HEAD = 500
"""Characters of a page within which its mark stands."""

_MARK = re.compile(r'<meta name="gridproof-page" content="([0-9a-f]+)">')

_STYLES = ("colours.css", "grid.css")


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("verifier.pages"),
        autoescape=True,  # every text from a file is escaped, whatever it is called
        finalize=shown,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def page(
    template: str,
    puzzle: Puzzle | None,
    /,
    *,
    styles: Sequence[str],
    scripts: Sequence[str] = (),
    mark: str = "",
    **facts: Any,
) -> str:
    """Return a page as one HTML file that needs nothing else.

    Parameters
    ----------
    template : str
        Its name in ``templates``.
    puzzle : Puzzle or None
        In its pictures; it settles the size of pencil marks. None for a page without such pictures.
    styles, scripts : sequence of str
        Files in ``templates``, besides the styles that every page has.
    mark : str, optional
        Written into its head, where `mark_of` finds it again.
    **facts
        What the template fills in.
    """
    style = "\n".join([*map(_text, (*_STYLES, "page.css", *styles)), grid_style(puzzle) if puzzle else ""])
    script = "\n".join(map(_text, scripts))
    return (
        _environment()
        .get_template(template)
        .render(
            mark=mark,
            policy=_policy(style, script),
            style=Markup(style),
            script=Markup(script),
            signs=definitions(puzzle) if puzzle else "",
            **facts,
        )
    )


def mark_of(text: str) -> str | None:
    """Return the mark of a page that was written; None where the text is no whole page with a mark.

    Examples
    --------
    >>> mark_of('<meta name="gridproof-page" content="1a2b"></html>'), mark_of("<html></html>")
    ('1a2b', None)
    """
    found = _MARK.search(text, 0, _HEAD)
    return found[1] if found and text.rstrip().endswith("</html>") else None


@cache
def templates_mark() -> str:
    """Return what changes with any template, style or script."""
    names = sorted(path.name for path in files("verifier.pages").joinpath("templates").iterdir())
    return _hash("\n".join(map(_text, names)))


def _policy(style: str, script: str) -> str:
    """Return the Content-Security-Policy: this style and this script, and nothing else."""
    return "; ".join(
        [
            "default-src 'none'",
            f"style-src '{_hash(style)}'",
            f"script-src '{_hash(script)}'" if script else "script-src 'none'",
            "img-src data:",  # the empty icon, so that a browser asks for no other
            "base-uri 'none'",
            "form-action 'none'",
        ]
    )


def _hash(text: str) -> str:
    return f"sha256-{b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


@cache
def _text(name: str) -> str:
    return files("verifier.pages").joinpath("templates", name).read_text(encoding="utf-8")


def grid_style(puzzle: Puzzle) -> str:
    """Return the pens and faces of `verifier.pages.drawing.look` as rules of a style sheet."""
    rules = [
        f".grid .{name} {{ stroke-width: {pen.width:g}px;"
        + (f" stroke-dasharray: {' '.join(f'{part:g}' for part in pen.dash)};" if pen.dash else "")
        + (f" stroke-dashoffset: {pen.phase:g};" if pen.phase else "")
        + (f" fill: var(--{pen.fill});" if pen.fill else "")
        + (" stroke-linecap: round;" if pen.round else "")
        + " }"
        for name, pen in PENS.items()
    ]
    marks = marks_in(puzzle).face
    rules += [
        f".grid .{name} {{ font-size: {face.size:g}px;{' font-weight: 700;' if face.bold else ''} }}"
        for name, face in {
            **faces_of(puzzle.grid.digits),
            "mark": marks,
        }.items()
    ]
    if puzzle.grid.columns > FITS_A_PHONE:
        least, good = (
            puzzle.grid.columns * ceil(CELL * size / marks.size) for size in (_LEAST_MARK, _GOOD_MARK)
        )
        least = least if least <= _WIDE_BOARD else good
        rules.append(f":root {{ --board: 60rem; }} .board .grid, .pane .grid {{ min-width: {least}px; }}")
        rules.append(_text("large.css"))
    return "\n".join(rules)


def definitions(puzzle: Puzzle) -> Markup:
    """Return the patterns and signs that the drawings of a page use."""
    face = marks_in(puzzle).face
    reach = round(0.5 * face.size, 1)
    return Markup(_environment().get_template("signs.svg.j2").render(reach=reach))


def standalone(svg: Markup, puzzle: Puzzle) -> str:
    """Return a drawing as an SVG file of its own, with its style and its signs.

    Parameters
    ----------
    svg : Markup
        From `verifier.pages.drawing.svg.drawing`.
    puzzle : Puzzle
        The puzzle in it.
    """
    style = element("style", Markup("\n".join([*map(_text, _STYLES), grid_style(puzzle)])))
    head, body = str(svg).split(">", 1)
    head = head.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"', 1)
    return f"{head}>{style}{definitions(puzzle)}{body}\n"


def as_data(facts: object) -> Markup:
    """Return facts as JSON that can stand in a ``script`` element, whatever texts are in them."""
    text = json.dumps(facts, separators=(",", ":"))
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))

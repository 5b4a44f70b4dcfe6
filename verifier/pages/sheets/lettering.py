"""The letters of print sheets: how wide words are, which letters the font has, and their outlines.

The font ships with the package; see ``fonts/README.md``.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from io import BytesIO
from typing import Any

from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

__all__ = ["font_file", "lacking", "outline", "shortened", "width"]


def font_file(*, bold: bool) -> bytes:
    """Return the font as a TrueType file."""
    name = f"NotoSans-{'Bold' if bold else 'Regular'}.ttf"
    return files("verifier.pages").joinpath("fonts", name).read_bytes()


@dataclass(frozen=True, slots=True)
class _Font:
    """What is read from the file once: names and widths of glyphs, in parts of the size of the type."""

    names: dict[int, str]
    advances: dict[str, float]
    glyphs: Any
    scale: float


@cache
def _font(bold: bool) -> _Font:
    font = TTFont(BytesIO(font_file(bold=bold)))
    scale = 1 / font["head"].unitsPerEm
    advances = {name: wide * scale for name, (wide, _) in font["hmtx"].metrics.items()}
    return _Font(font.getBestCmap(), advances, font.getGlyphSet(), scale)


def width(text: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a text is, in the unit of `size`.

    Examples
    --------
    >>> width("45", 10), width("", 10)
    (11.44, 0)
    """
    font = _font(bold)
    return round(sum(font.advances[font.names.get(ord(letter), ".notdef")] for letter in text) * size, 4)


def shortened(text: str, size: float, most: float, *, bold: bool = False) -> str:
    """Return a text that is at most `most` wide: the end gives way to an ellipsis.

    Examples
    --------
    >>> shortened("Low tide", 10, 100), shortened("Low tide", 10, 30)
    ('Low tide', 'Low…')
    """
    if width(text, size, bold=bold) <= most:
        return text
    while text and width(f"{text}\u2026", size, bold=bold) > most:
        text = text[:-1].rstrip()
    return f"{text}\u2026"


def lacking(text: str) -> str:
    """Return the letters of a text that the font does not have, each once; they are drawn as boxes.

    Examples
    --------
    >>> lacking("Jiří Ωmega"), lacking("潮 tide 潮")
    ('', '潮')
    """
    composed = unicodedata.normalize("NFC", text)
    return "".join(dict.fromkeys(letter for letter in composed if ord(letter) not in _font(False).names))


def outline(text: str, size: float, place: tuple[float, float], *, bold: bool = False) -> str:
    """Return the outlines of a text as the data of an SVG path.

    Parameters
    ----------
    text : str
        On one line.
    size : float
        Of the type.
    place : tuple of (float, float)
        Where the text begins on its base line; down is positive.
    """
    font = _font(bold)
    scale = font.scale * size
    drawn = []
    across, down = place
    for letter in text:
        name = font.names.get(ord(letter), ".notdef")
        pen = SVGPathPen(font.glyphs, ntos=lambda number: f"{number:.2f}".rstrip("0").rstrip("."))
        font.glyphs[name].draw(TransformPen(pen, (scale, 0, 0, -scale, across, down)))
        drawn.append(pen.getCommands())
        across += font.advances[name] * size
    return "".join(drawn)

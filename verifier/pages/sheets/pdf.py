"""Print sheets as PDF: vectors throughout, fonts embedded, the same bytes for the same sheet."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from io import BytesIO

from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from verifier.pages.sheets.lettering import font_file
from verifier.pages.sheets.sheet import Leaf, Stroke, Words

__all__ = ["pdf_of"]


def pdf_of(leaves: Sequence[Leaf], title: str, author: str = "") -> bytes:
    """Return a sheet as the bytes of a PDF file.

    Parameters
    ----------
    leaves : sequence of Leaf
        At least one.
    title, author : str
        What the file says of itself: for the window of whoever looks at it, and for archives.
    """
    _fonts()
    file = BytesIO()
    first_font = _name(bold=False)  # else a font that is not embedded stands in the file
    canvas = Canvas(file, invariant=1, pageCompression=1, lang="en", initialFontName=first_font)  # type: ignore[arg-type]  # the stub has it as a size
    canvas.setTitle(title)
    canvas.setAuthor(author)
    canvas.setSubject("")
    canvas.setCreator("gridproof")
    for leaf in leaves:
        canvas.setPageSize((leaf.paper.width * mm, leaf.paper.height * mm))
        canvas.setLineJoin(1)
        for stroke in leaf.strokes:
            _draw(canvas, stroke, leaf.paper.height)
        canvas.setFillGray(0)
        for words in sorted(leaf.words, key=lambda words: words.grey):
            _write(canvas, words, leaf.paper.height)
        canvas.showPage()
    canvas.save()
    return file.getvalue()


@cache
def _fonts() -> None:
    """Make the font known to the library, once."""
    for bold in (False, True):
        pdfmetrics.registerFont(TTFont(_name(bold=bold), BytesIO(font_file(bold=bold))))


def _name(*, bold: bool) -> str:
    return "NotoSans-Bold" if bold else "NotoSans"


_BUTT, _ROUND = 0, 1


def _draw(canvas: Canvas, stroke: Stroke, height: float) -> None:
    canvas.setLineWidth(stroke.width * mm)
    canvas.setStrokeGray(stroke.grey)
    if stroke.round:
        canvas.setLineCap(_ROUND)
    canvas.setDash([part * mm for part in stroke.dash], stroke.phase * mm)
    path = canvas.beginPath()
    closed = stroke.points[0] == stroke.points[-1]
    (across, down), *others = stroke.points[:-1] if closed else stroke.points
    path.moveTo(across * mm, (height - down) * mm)
    for across, down in others:
        path.lineTo(across * mm, (height - down) * mm)
    if closed:
        path.close()
    if stroke.fill is not None:
        canvas.setFillGray(stroke.fill)
    canvas.drawPath(path, fill=int(stroke.fill is not None))
    if stroke.round:
        canvas.setLineCap(_BUTT)


def _write(canvas: Canvas, words: Words, height: float) -> None:
    if words.grey:
        canvas.setFillGray(words.grey)
    canvas.setFont(_name(bold=words.bold), words.size * mm)
    across, down = words.place
    canvas.drawString(across * mm, (height - down) * mm, words.text)

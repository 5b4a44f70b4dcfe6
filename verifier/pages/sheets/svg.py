"""Print sheets as SVG: one file a page, in mm, with every letter as an outline.

So the file looks the same in every program, whatever fonts are there; its ``desc`` holds the texts.
"""

from __future__ import annotations

from markupsafe import Markup

from verifier.pages.drawing.svg import element, path_data
from verifier.pages.sheets.lettering import outline
from verifier.pages.sheets.sheet import Leaf, Stroke

__all__ = ["svg_of"]


def svg_of(leaf: Leaf, title: str, author: str = "") -> str:
    """Return a page of a sheet as an SVG file.

    Parameters
    ----------
    leaf : Leaf
        The page.
    title, author : str
        What the file says of itself: for the window of whoever looks at it, and for archives.
    """
    wide, high = leaf.paper.width, leaf.paper.height
    parts = [
        element("title", title),
        _metadata(title, author),
        element("desc", " ".join(words.text for words in leaf.words)),
        element("rect", width=wide, height=high, fill="#fff"),
        element("g", Markup("").join(map(_drawn, leaf.strokes)), fill="none", stroke_linejoin="round"),
        element(
            "g",
            Markup("").join(
                element(
                    "path",
                    d=outline(words.text, words.size, words.place, bold=words.bold),
                    **({"fill": _shade(words.grey)} if words.grey else {}),
                )
                for words in leaf.words
            ),
        ),
    ]
    svg = element(
        "svg",
        Markup("").join(parts),
        xmlns="http://www.w3.org/2000/svg",
        width=f"{wide:g}mm",
        height=f"{high:g}mm",
        viewBox=f"0 0 {wide:g} {high:g}",
    )
    return f"{svg}\n"


def _metadata(title: str, author: str) -> Markup:
    """Return title and author as archives read them: RDF (W3C), in the terms of Dublin Core (ISO 15836)."""
    facts = element("dc:title", title) + (element("dc:creator", author) if author else Markup(""))
    about = element("rdf:Description", facts, **{"rdf:about": ""})
    return element("metadata", element("rdf:RDF", about, **_TERMS))


_TERMS = {
    "xmlns:rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "xmlns:dc": "http://purl.org/dc/elements/1.1/",
}


def _drawn(stroke: Stroke) -> Markup:
    more = {} if stroke.fill is None else {"fill": _shade(stroke.fill)}
    if stroke.round:
        more["stroke_linecap"] = "round"
    if stroke.dash:
        more["stroke_dasharray"] = " ".join(f"{part:g}" for part in stroke.dash)
        more["stroke_dashoffset"] = f"{stroke.phase:g}"
    return element(
        "path",
        d=path_data(stroke.points),
        stroke=_shade(stroke.grey),
        stroke_width=stroke.width,
        **more,
    )


def _shade(grey: float) -> str:
    """Return a grey, 0 for black and 1 for white, as a colour."""
    return "#" + 3 * f"{round(255 * grey):02x}"

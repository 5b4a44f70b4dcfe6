"""Pictures as SVG: a puzzle, what is written in it, and what a step points at.

A drawing names its parts by class; colours and fonts come from the style of the page (`grid_style` and
``templates/colours.css``), patterns and signs from `definitions`, which a page holds once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from markupsafe import Markup, escape

from verifier.pages.drawing.edge_signs import frames_of
from verifier.pages.drawing.figure import (
    coordinates,
    digit_numbers,
    frame_of,
    grid_lines,
    marks_in,
    rule_lines,
    rule_numbers,
    totals,
)
from verifier.pages.drawing.highlight import NOTHING, Highlight
from verifier.pages.drawing.house_signs import house_tints
from verifier.pages.drawing.look import BENEATH, CELL, PENS
from verifier.pages.drawing.outlines import Point, Polyline, outlines
from verifier.pages.drawing.run_signs import blocked_cells
from verifier.pages.drawing.shapes import Number, PenLine, Piece
from verifier.puzzle.masks import bits
from verifier.puzzle.printable import visible
from verifier.puzzle.puzzle import Puzzle

__all__ = [
    "Picture",
    "drawing",
    "drawn_pieces",
    "element",
    "path_data",
    "picture_body",
    "pointed_at",
    "shown",
]


@dataclass(frozen=True, slots=True)
class Picture:
    """What a drawing shows.

    Parameters
    ----------
    puzzle : Puzzle
        Grid, cages and givens.
    written : mapping of int to int
        Digits that a solver wrote in, by cell; those in cells with a given are passed over.
    marks : mapping of int to int
        Pencil marks: for a cell, the mask of its open digits.
    highlight : Highlight
        What it points at.
    """

    puzzle: Puzzle
    written: Mapping[int, int] = field(default_factory=dict)
    marks: Mapping[int, int] = field(default_factory=dict)
    highlight: Highlight = NOTHING


def drawing(picture: Picture, label: str, classes: str = "grid") -> Markup:
    """Return a picture as an ``svg`` element, to stand in a page that holds the `definitions`.

    Parameters
    ----------
    picture : Picture
        What to show.
    label : str
        What a screen reader says in its place.
    classes : str, optional
        Of the element, for the style of the page.
    """
    frame = frame_of(picture.puzzle)
    return element(
        "svg",
        picture_body(picture),
        viewBox=f"{frame.left:g} {frame.top:g} {frame.width:g} {frame.height:g}",
        role="img",
        aria_label=label,
        **{"class": classes},
    )


def picture_body(picture: Picture) -> Markup:
    """Return the layers of a picture, the lowest first.

    Only the layers ``under``, ``bands``, ``digits``, ``marks`` and ``over`` change from step to step.
    """
    puzzle = picture.puzzle
    grid = puzzle.grid
    givens = dict(puzzle.givens)
    placed = {cell for cell, _ in picture.highlight.placed}
    written = {c: d for c, d in picture.written.items() if c not in givens and c not in placed}
    layers = {name: _layer(name, [parts]) for name, parts in pointed_at(picture).items()}
    numbers = [*coordinates(puzzle), *digit_numbers(puzzle, "given", givens), *totals(puzzle)]
    rules = rule_lines(puzzle)
    beneath = [line for line in rules if PENS[line.pen].level == BENEATH]
    return Markup("").join(
        (
            element("rect", **{"class": "paper"}, width=grid.columns * CELL, height=grid.rows * CELL),
            _layer("tints", tints) if (tints := list(_strokes(house_tints(puzzle)))) else "",
            _layer("blocked", _strokes(blocked_cells(puzzle))) if grid.blocked else "",
            layers["under"],
            _layer("tracks", _strokes(beneath)) if beneath else "",
            _layer("lines", _strokes(grid_lines(puzzle))),
            layers["bands"],
            _layer("cages", _strokes(rules[len(beneath) :])),
            _layer("numbers", map(_number, [*numbers, *rule_numbers(puzzle)])),
            _layer("digits", (_number(number) for number in digit_numbers(puzzle, "digit", written))),
            _layer("marks", _marks(picture)),
            layers["over"],
        )
    )


def drawn_pieces(pieces: Iterable[Piece]) -> Markup:
    """Return lines and numbers as they are drawn, the numbers upon the lines."""
    drawn = list(pieces)
    lines = sorted((p for p in drawn if isinstance(p, PenLine)), key=lambda line: PENS[line.pen].level)
    return Markup("").join([*_strokes(lines), *(_number(p) for p in drawn if isinstance(p, Number))])


def pointed_at(picture: Picture) -> dict[str, Markup]:
    """Return what the layers hold that show what a picture points at."""
    parts = {"under": _under(picture), "bands": _bands(picture), "over": _over(picture)}
    return {name: Markup("").join(drawn) for name, drawn in parts.items()}


def _layer(name: str, parts: Iterable[Markup]) -> Markup:
    return element("g", Markup("").join(parts), **{"class": name})


def _strokes(lines: Iterable[PenLine]) -> Iterator[Markup]:
    """Yield one path for each pen: all lines that it draws."""
    by_pen: dict[str, list[str]] = {}
    for line in lines:
        by_pen.setdefault(line.pen, []).append(path_data(line.points))
    for pen, data in by_pen.items():
        yield element("path", **{"class": pen}, d="".join(data))


def _number(number: Number) -> Markup:
    across, down = number.place
    return element("text", number.text, **{"class": number.face}, x=across, y=down)


def _marks(picture: Picture) -> Iterator[Markup]:
    marks = marks_in(picture.puzzle)
    half = 0.36 * marks.face.size
    gone, placed = set(picture.highlight.gone), dict(picture.highlight.placed)
    for cell, mask in picture.marks.items():
        for digit in () if cell in placed else bits(mask):
            across, down = _spot(picture.puzzle, cell, digit)
            kind = "mark gone" if (cell, digit) in gone else "mark"
            yield element("text", str(digit), **{"class": kind}, x=across, y=round(down + half, 2))


def _under(picture: Picture) -> Iterator[Markup]:
    """Yield what lies below the lines: the premises."""
    puzzle, highlight = picture.puzzle, picture.highlight
    houses = _house_shapes(puzzle)
    yield from (_use("look", _corner(cell, puzzle.grid.columns)) for cell in highlight.looks)
    for house in highlight.houses:
        yield element("path", **{"class": "house"}, d=houses[house])
    for cage in highlight.cages:
        rule = puzzle.premises[len(puzzle.full_houses) + cage]  # cages, and the rules that come after them
        around = [*outlines(rule.cells, puzzle.grid.columns), *frames_of(puzzle, rule)]
        yield element("path", **{"class": "premise"}, d="".join(map(path_data, around)))
    yield from (_use("focus", _corner(cell, puzzle.grid.columns)) for cell in highlight.focus)
    yield from (_use("swing", _corner(cell, puzzle.grid.columns)) for cell in highlight.swings)


def _bands(picture: Picture) -> Iterator[Markup]:
    """Yield what lies upon the borders: the lines round houses."""
    houses = _house_shapes(picture.puzzle)
    for kind, numbers in (("sight", picture.highlight.sights), ("band", picture.highlight.houses)):
        yield from (element("path", **{"class": kind}, d=houses[house]) for house in numbers)


def _over(picture: Picture) -> Iterator[Markup]:
    """Yield what lies above the marks: what goes, what is placed, and the links of a chain."""
    puzzle, highlight = picture.puzzle, picture.highlight
    columns = puzzle.grid.columns
    for cell, sign in highlight.signs:
        left, top = _corner(cell, columns)
        yield element("text", sign.replace("-", "\u2212"), **{"class": "sign"}, x=left + 53, y=top + 16)
    yield from (_use("strike", _spot(puzzle, cell, digit)) for cell, digit in highlight.gone)
    yield from (
        _use("on" if on else "off", _spot(puzzle, cell, digit)) for cell, digit, on in highlight.nodes
    )
    for link in highlight.links:
        yield element("path", **{"class": "strong" if link.strong else "weak"}, d=link.path)
    for cell, digit in highlight.placed:
        yield _use("stamp", _corner(cell, columns))
        yield from map(_number, digit_numbers(puzzle, "placed", {cell: digit}))


def _house_shapes(puzzle: Puzzle) -> list[str]:
    """Return the path round each house in which every digit stands."""
    return [
        "".join(map(path_data, outlines(house.cells, puzzle.grid.columns, inset=0)))
        for house in puzzle.full_houses
    ]


def _spot(puzzle: Puzzle, cell: int, digit: int) -> Point:
    """Return the middle of a digit as a pencil mark."""
    left, top = _corner(cell, puzzle.grid.columns)
    across, down = marks_in(puzzle).places[digit]
    return round(left + across, 2), round(top + down, 2)


def _corner(cell: int, columns: int) -> tuple[int, int]:
    return cell % columns * CELL, cell // columns * CELL


def _use(name: str, place: Point) -> Markup:
    return element("use", href=f"#{name}", x=f"{place[0]:g}", y=f"{place[1]:g}")


def path_data(points: Polyline) -> str:
    """Return points as the data of a path; lines along the grid need one number each.

    Examples
    --------
    >>> path_data(((0, 0), (60, 0), (60, 30), (0, 0)))
    'M0 0H60V30Z'
    """
    before = points[0]
    data = [f"M{before[0]:g} {before[1]:g}"]
    closed = points[-1] == points[0]
    for point in points[1:-1] if closed else points[1:]:
        if point[1] == before[1]:
            data.append(f"H{point[0]:g}")
        elif point[0] == before[0]:
            data.append(f"V{point[1]:g}")
        else:
            data.append(f"L{point[0]:g} {point[1]:g}")
        before = point
    return "".join(data) + ("Z" if closed else "")


def element(name: str, content: str | Markup = "", **attributes: object) -> Markup:
    """Return an element with everything in it escaped; ``_`` in a name of an attribute stands for ``-``.

    Examples
    --------
    >>> element("text", "<b>", x=3.5, aria_label='"')
    Markup('<text x="3.5" aria-label="&#34;">&lt;b&gt;</text>')
    """
    given = Markup("").join(
        Markup(' {}="{}"').format(key.replace("_", "-"), _plain(value)) for key, value in attributes.items()
    )
    if not content:
        return Markup("<{}{}/>").format(Markup(name), given)
    return Markup("<{0}{1}>{2}</{0}>").format(Markup(name), given, escape(shown(content)))


def shown(value: object) -> object:
    """Return what stands in a page or a drawing for a value: texts pass `visible`, markup of ours stays."""
    return visible(value) if isinstance(value, str) and not isinstance(value, Markup) else value


def _plain(value: object) -> object:
    return f"{value:g}" if isinstance(value, float) else shown(value)

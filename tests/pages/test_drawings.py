"""Drawings as SVG: what people see, compared as a whole; and what must hold of every drawing."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from itertools import combinations
from math import dist
from pathlib import Path

import pytest
from hypothesis import given, settings

from grader.ladder import LADDER
from tests.pages.scenes import STEPS, picture_of, puzzle_named
from tests.snapshots import assert_snapshot
from tests.strategies import GRIDS, puzzles
from verifier.pages.drawing.look import CELL, FACES, faces_of, marks_of
from verifier.pages.drawing.svg import Picture, drawing, picture_body
from verifier.pages.styling import standalone
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

SNAPSHOTS = Path(__file__).parent / "snapshots"
CHANGING = ("under", "bands", "marks", "over")


def a_line_each(svg: str) -> str:
    """An element a line, so that a difference can be read."""
    return re.sub(r">\s*<", ">\n<", svg).strip() + "\n"


@pytest.mark.parametrize("name", ["killer", "classic", "pocket", "large"])
def test_a_puzzle_is_drawn_as_in_the_snapshot(name: str) -> None:
    puzzle = puzzle_named(name)
    svg = standalone(drawing(Picture(puzzle), name), puzzle)
    assert_snapshot(SNAPSHOTS / f"{name}.svg", a_line_each(svg))


@pytest.mark.parametrize("family", sorted(STEPS))
def test_a_step_of_each_family_points_at_what_the_snapshot_says(family: str) -> None:
    body = ElementTree.fromstring(f"<svg>{picture_body(picture_of(family))}</svg>")
    layers = [layer for layer in body if layer.get("class") in CHANGING]
    text = "".join(ElementTree.tostring(layer, encoding="unicode") for layer in layers)
    assert_snapshot(SNAPSHOTS / f"step-{family}.svg", a_line_each(text))


@pytest.mark.parametrize("family", ["chains", "clusters", "almost_locked"])
def test_arrows_of_a_chain_may_cross_but_none_runs_along_another(family: str) -> None:
    links = sorted(picture_of(family).highlight.links, key=lambda link: -dist(link.start, link.end))
    for long, short in combinations(links, 2):
        near = [point for point in long.points() if min(dist(point, spot) for spot in short.points()) < 6]
        assert len(near) <= 2  # of eleven


def test_every_family_has_a_step_here() -> None:
    families = {technique.find.__module__.removeprefix("grader.techniques.") for technique in LADDER}
    assert families <= set(STEPS)


@settings(max_examples=50)
@given(puzzles())
def test_every_puzzle_is_drawn_as_well_formed_svg_with_all_that_is_in_it(puzzle: Puzzle) -> None:
    svg = ElementTree.fromstring(standalone(drawing(Picture(puzzle), "label"), puzzle))
    texts: dict[str, list[str]] = {}
    for text in svg.iter("{http://www.w3.org/2000/svg}text"):
        texts.setdefault(text.get("class", ""), []).append(text.text or "")
    assert texts.get("total", []) == [str(cage.total) for cage in puzzle.cages]
    assert texts.get("given", []) == [str(digit) for _, digit in puzzle.givens]
    assert len(texts["coordinate"]) == puzzle.grid.rows + puzzle.grid.columns


def test_the_total_stands_in_the_first_cell_of_its_cage() -> None:
    puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((6, 5, 9), 12)])
    (total,) = re.findall(r'class="total" x="([\d.]+)" y="([\d.]+)">12<', picture_body(Picture(puzzle)))
    assert [float(place) // CELL for place in total] == [1, 1]  # r2c2


def test_pieces_of_a_cage_are_tied_together() -> None:
    grid = Grid.square(4)
    apart = make_puzzle("killer", grid, cages=[Cage((0, 3, 15), 7)])
    whole = make_puzzle("killer", grid, cages=[Cage((0, 1, 2), 7)])
    assert 'class="tie"' in picture_body(Picture(apart))
    assert 'class="tie"' not in picture_body(Picture(whole))


@pytest.mark.parametrize("caged", [False, True])
@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: f"{grid.name}-{grid.boxes_name}")
def test_marks_stay_in_their_cell_and_off_each_other(grid: Grid, caged: bool) -> None:
    marks = marks_of(grid.digits, caged=caged)
    high = 0.72 * marks.face.size  # of figures; one is at most 0.64 wide (common practice, no source)
    places = list(marks.places.values())
    wide = [0.64 * marks.face.size * len(str(digit)) for digit in marks.places]
    for number, (x, y) in enumerate(places):
        assert wide[number] / 2 < x < CELL - wide[number] / 2
        assert high / 2 < y < CELL - high / 2
        for other in range(number):
            apart_x, apart_y = abs(x - places[other][0]), abs(y - places[other][1])
            assert apart_x >= 1.1 * (wide[number] + wide[other]) / 2 or apart_y >= high


def test_marks_stay_below_the_total() -> None:
    foot_of_total = 5 + 0.72 * FACES["total"].size
    for digits in (4, 9, 16, 25):
        marks = marks_of(digits, caged=True)
        assert min(y for _, y in marks.places.values()) - 0.36 * marks.face.size >= foot_of_total


@pytest.mark.parametrize("digits", [9, 25])
def test_digits_fit_their_cells(digits: int) -> None:
    for name in ("given", "digit", "placed"):
        assert 0.7 * faces_of(digits)[name].size * len(str(digits)) < CELL - 10

"""The outlines of cages: closed, inside their own cells, one for each piece and each hole."""

from __future__ import annotations

from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from verifier.pages.drawing.look import CELL, INSET, PERIOD
from verifier.pages.drawing.outlines import Polyline, loops, outlines

COLUMNS, ROWS = 7, 6

cells = st.sets(st.integers(0, COLUMNS * ROWS - 1), min_size=1)
"""Any cells of a grid: pieces, rings, pieces that touch at a corner."""


@st.composite
def cages(draw: st.DrawFn) -> set[int]:
    """Cells in one piece, as a cage has them."""
    piece = {draw(st.integers(0, COLUMNS * ROWS - 1))}
    for _ in range(draw(st.integers(0, 20))):
        around = {other for cell in piece for other in beside(cell)} - piece
        piece.add(draw(st.sampled_from(sorted(around))))
    return piece


def beside(cell: int, *, corners: bool = False) -> set[int]:
    """The cells that share a border with a cell, or a corner as well."""
    row, column = divmod(cell, COLUMNS)
    ways = [(0, 1), (1, 0), (0, -1), (-1, 0)] + ([(1, 1), (1, -1), (-1, 1), (-1, -1)] if corners else [])
    return {
        (row + down) * COLUMNS + column + across
        for down, across in ways
        if 0 <= row + down < ROWS and 0 <= column + across < COLUMNS
    }


def pieces(of: set[int], *, corners: bool = False) -> int:
    """How many pieces some cells fall into, by networkx."""
    graph: nx.Graph[int | str] = nx.Graph()
    graph.add_nodes_from(of)
    graph.add_edges_from((cell, other) for cell in of for other in beside(cell, corners=corners) & of)
    return nx.number_connected_components(graph) if of else 0


def holes(of: set[int]) -> int:
    """How many holes some cells leave: pieces of the rest that do not reach the rim, by networkx."""
    graph: nx.Graph[int | str] = nx.Graph()
    rest = set(range(COLUMNS * ROWS)) - of
    graph.add_nodes_from([*rest, "outside"])
    graph.add_edges_from((cell, other) for cell in rest for other in beside(cell, corners=True) & rest)
    graph.add_edges_from((cell, "outside") for cell in rest if len(beside(cell, corners=True)) < 8)
    return nx.number_connected_components(graph) - 1


def area(corners: tuple[tuple[int, int], ...]) -> float:
    """The cells inside a loop, by the shoelace formula; those of a hole count as less than none."""
    around = pairwise((*corners, corners[0]))
    return sum(c1 * r2 - c2 * r1 for (r1, c1), (r2, c2) in around) / 2


def points_on(line: Polyline) -> list[tuple[float, float]]:
    """Points along a line, a unit apart; the lines run along the grid."""
    found = []
    for (x1, y1), (x2, y2) in pairwise(line):
        length = round(abs(x2 - x1) + abs(y2 - y1))
        found += [(x1 + (x2 - x1) * i / length, y1 + (y2 - y1) * i / length) for i in range(length)]
    return found


@given(cells)
def test_there_is_one_loop_for_each_piece_and_each_hole(of: set[int]) -> None:
    assert len(loops(of, COLUMNS)) == pieces(of) + holes(of)


@given(cages())
def test_a_cage_in_one_piece_has_one_outline_and_one_more_for_each_hole(of: set[int]) -> None:
    assert len(outlines(of, COLUMNS)) == 1 + holes(of)


@given(cells)
def test_loops_hold_as_many_cells_as_there_are(of: set[int]) -> None:
    assert sum(map(area, loops(of, COLUMNS))) == len(of)


@given(cells)
def test_every_outline_is_closed_and_runs_along_the_grid(of: set[int]) -> None:
    for line in outlines(of, COLUMNS):
        assert line[0] == line[-1]
        assert all((x1 == x2) != (y1 == y2) for (x1, y1), (x2, y2) in pairwise(line))


@given(cells, st.sampled_from([1, INSET, 20]))
def test_an_outline_stays_inside_its_own_cells_and_off_every_other(of: set[int], inset: int) -> None:
    for line in outlines(of, COLUMNS, inset):
        for x, y in points_on(line):
            near = {
                int((y + down) // CELL) * COLUMNS + int((x + across) // CELL)
                for down in (-inset + 0.5, inset - 0.5)
                for across in (-inset + 0.5, inset - 0.5)
            }
            assert near <= of


@given(cells)
def test_every_corner_falls_on_the_middle_of_a_dash(of: set[int]) -> None:
    for line in outlines(of, COLUMNS):
        run = 0.0
        for (x1, y1), (x2, y2) in pairwise(line[:-1]):
            run += abs(x2 - x1) + abs(y2 - y1)
            assert run % PERIOD == PERIOD / 2  # a line begins amid a gap


@given(cages(), st.sampled_from([1, 2, 3]))
def test_an_opening_leaves_room_at_the_first_corner_alone(of: set[int], figures: int) -> None:
    opened, closed = outlines(of, COLUMNS, opening=(figures, 1)), outlines(of, COLUMNS)
    first = min(of)
    corner = (first % COLUMNS * CELL + INSET, first // COLUMNS * CELL + INSET)
    across, down = (corner[0] + (figures + 0.5) * PERIOD, corner[1]), (corner[0], corner[1] + 1.5 * PERIOD)
    assert (opened[0][0], opened[0][-1]) == (across, down)
    assert set(opened[0][1:-1]) == set(closed[0][1:-1]) - {corner}
    assert opened[1:] == closed[1:]


@pytest.mark.parametrize(
    ("of", "expected"),
    [
        ({0}, [((0, 0), (0, 1), (1, 1), (1, 0))]),
        ({0, 8}, [((0, 0), (0, 1), (1, 1), (1, 0)), ((1, 1), (1, 2), (2, 2), (2, 1))]),  # touch at a corner
        (
            {0, 1, 2, 7, 9, 14, 15, 16},  # a ring
            [((0, 0), (0, 3), (3, 3), (3, 0)), ((1, 1), (2, 1), (2, 2), (1, 2))],
        ),
    ],
)
def test_loops_of_some_shapes(of: set[int], expected: list[tuple[tuple[int, int], ...]]) -> None:
    assert loops(of, COLUMNS) == expected

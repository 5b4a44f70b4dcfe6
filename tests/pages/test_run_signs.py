"""Pictures of kakuros: every total stands once where people look for it, and blocked cells hold nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scripts.build_corpus import CORPUS
from tests.pages.test_drawings import a_line_each
from tests.snapshots import assert_snapshot
from verifier.files.reading import read_file, read_text
from verifier.pages.drawing.highlight import Highlight
from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.svg import Picture, drawing, picture_body
from verifier.pages.rule_key import signs_in_words
from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
from verifier.puzzle.puzzle import Puzzle

SNAPSHOTS = Path(__file__).parent / "snapshots"

BARRED = """puzzle: kakuro
grid: 3x4
runs:
  - {total: 7, cells: r1c1 r1c2 r1c3}
  - {total: 16, cells: r2c1 r2c2}
  - {total: 12, cells: r2c3 r2c4}
  - {total: 11, cells: r1c1 r2c1}
  - {total: 5, cells: r1c3 r2c3}
  - {total: 9, cells: r2c4 r3c4}
"""
"""Runs at the edge, one behind another across, and one below a blocked cell."""


def barred() -> Puzzle:
    (entry,) = read_text(BARRED.encode(), "barred.yaml")
    assert entry.puzzle is not None
    return entry.puzzle


def of_the_corpus() -> list[Puzzle]:
    found = (entry.puzzle for file in (CORPUS / "kakuro").iterdir() for entry in read_file(file))
    return [puzzle for puzzle in found if puzzle is not None]


def numbers_in(body: str, *faces: str) -> dict[str, list[tuple[float, float]]]:
    """The places of numbers, in cells across and down from the corner of the grid."""
    places: dict[str, list[tuple[float, float]]] = {}
    for face in faces:
        for x, y, text in re.findall(rf'class="{face}" x="([-\d.]+)" y="([-\d.]+)">(\d+)<', body):
            places.setdefault(text, []).append((float(x) / CELL, float(y) / CELL))
    return places


def test_a_kakuro_is_drawn_as_in_the_snapshot() -> None:
    assert_snapshot(SNAPSHOTS / "kakuro.svg", a_line_each(drawing(Picture(barred()), "kakuro")))


def test_every_total_is_drawn_once() -> None:
    for puzzle in (*of_the_corpus(), barred()):
        drawn = numbers_in(picture_body(Picture(puzzle)), "run", "total")
        assert sorted(text for text, places in drawn.items() for _ in places) == sorted(
            str(cage.total) for cage in puzzle.cages
        )


def test_the_total_across_stands_above_the_slanting_line_and_the_total_down_below_it() -> None:
    (entry,) = read_text(b"puzzle: kakuro\ngrid: 3x3\ncells: |\n  8\\7 . .\n  . . #\n  . . #\n", "k.yaml")
    assert entry.puzzle is not None
    drawn = numbers_in(picture_body(Picture(entry.puzzle)), "run")
    (across,), (down,) = drawn["7"], drawn["8"]
    assert across[0] > across[1] > 0
    assert 1 > down[1] > down[0]


def test_a_total_of_a_run_at_the_edge_stands_outside_and_of_one_behind_a_bar_in_its_first_cell() -> None:
    drawn = numbers_in(picture_body(Picture(barred())), "run", "total")
    assert drawn["16"][0][0] < 0
    assert drawn["5"][0][1] < 0
    assert [int(place) for place in drawn["12"][0]] == [2, 1]
    (said,) = signs_in_words(barred())
    assert "on the left across" in said


@pytest.mark.parametrize("layer", ["puzzle", "solution"])
def test_a_blocked_cell_holds_no_digit(layer: str) -> None:
    puzzle = barred()
    filling = tuple(0 if cell in puzzle.grid.blocked else 5 for cell in range(12))
    if layer == "puzzle":
        assert numbers_in(picture_body(Picture(puzzle, dict(enumerate(filling)))), "digit").keys() == {"5"}
    else:
        *_, solutions = lay_out([SheetPuzzle(puzzle, solution=filling)])
        assert sum(words.text == "5" for words in solutions.words) == len(puzzle.grid.cells)
        assert "0" not in {words.text for words in solutions.words}


def test_a_step_points_at_the_total_too() -> None:
    puzzle = barred()
    body = picture_body(Picture(puzzle, highlight=Highlight(cages=(0,))))
    assert body.count('class="premise"') == 1
    (data,) = re.findall(r'class="premise" d="([^"]+)"', body)
    assert data.count("M") == 2

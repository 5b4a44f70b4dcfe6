"""Houses that are not the usual ones, from the file and back."""

from __future__ import annotations

import pytest

from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle

HEAD = "puzzle: classic\ngrid: {size}x{size}\n"
CROOKED = "boxes: |\n  a a a b\n  c a b b\n  c c d b\n  c d d d\n"


def read(text: str, size: int = 4) -> Puzzle:
    (entry,) = read_text((HEAD.format(size=size) + text).encode(), "box.yaml")
    assert entry.faults == ()
    assert entry.puzzle is not None
    return entry.puzzle


def names(puzzle: Puzzle) -> list[str]:
    """The houses of a puzzle beside rows and columns."""
    return [house.name for house in puzzle.houses if house.kind not in ("row", "column")]


def test_boxes_of_any_shape_are_numbered_by_their_first_cells() -> None:
    puzzle = read(CROOKED)
    assert names(puzzle) == ["box 1", "box 2", "box 3", "box 4"]
    assert puzzle.houses[9].cells == (3, 6, 7, 11)


def test_a_map_that_draws_the_usual_boxes_is_none() -> None:
    usual = read("")
    assert read("boxes: |\n  b b a a\n  b b a a\n  x x y y\n  x x y y\n") == usual
    upright = "boxes: |\n  " + "\n  ".join(["a a b b c c"] * 3 + ["d d e e f f"] * 3) + "\n"
    assert read(upright, 6).grid == Grid.square(6, (3, 2))


@pytest.mark.parametrize(
    ("word", "drawn"),
    [
        ("yes", ["falling diagonal", "rising diagonal"]),
        ("falling", ["falling diagonal"]),
        ("rising", ["rising diagonal"]),
        ("no", []),
    ],
)
def test_diagonals(word: str, drawn: list[str]) -> None:
    assert names(read(f"diagonals: {word}\n"))[4:] == drawn


def test_extra_houses() -> None:
    puzzle = read("extra_houses: |\n  . x x y\n  . x x y\n  . . . y\n  . . . y\n")
    assert names(puzzle)[4:] == ["extra house 1", "extra house 2"]
    assert puzzle.houses[-2].cells == (1, 2, 5, 6)


def test_without_boxes_any_square_will_do() -> None:
    assert names(read("boxes: none\n", 5)) == []
    assert read("boxes: none\n", 25).grid.digits == 25


@pytest.mark.parametrize(
    "text",
    [
        CROOKED,
        "boxes: none\n",
        "diagonals: rising\n",
        "diagonals: yes\nextra_houses: |\n  . x x .\n  . x x .\n  . . . .\n  . . . .\n",
        CROOKED + "diagonals: falling\n",
    ],
)
def test_what_is_written_reads_back_equal(text: str) -> None:
    puzzle = read(text)
    (again,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert again.puzzle == puzzle

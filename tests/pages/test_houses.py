"""Houses beside rows, columns and boxes in pictures: tinted, told apart by shape, explained in the key."""

from __future__ import annotations

from itertools import pairwise

from verifier.pages.drawing.figure import grid_lines
from verifier.pages.drawing.house_signs import house_tints
from verifier.pages.drawing.svg import Picture, drawing
from verifier.pages.rule_key import meanings_of
from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.house import House

FOUR = Grid.square(4)
PLAIN = make_puzzle("classic", FOUR)
CROSSED = make_puzzle("classic", FOUR, houses=(*FOUR.houses, *FOUR.diagonals))
ANNEXE = make_puzzle("classic", FOUR, houses=(*FOUR.houses, House("extra house", 1, (5, 6, 9, 10))))


def area(points: tuple[tuple[float, float], ...]) -> float:
    """Twice the area inside a closed line; positive where it goes round clockwise."""
    return sum(x * v - u * y for (x, y), (u, v) in pairwise(points))


def test_every_tint_goes_round_the_same_way_so_that_none_takes_another_away() -> None:
    tints = [*house_tints(CROSSED), *house_tints(ANNEXE)]
    assert len(tints) == 3
    assert all(area(tint.points) > 0 for tint in tints)


def test_a_diagonal_has_a_line_and_an_extra_house_dots() -> None:
    plain, annexe = (len(list(grid_lines(puzzle))) for puzzle in (PLAIN, ANNEXE))
    assert "annexe" in {line.pen for line in grid_lines(ANNEXE)}
    assert annexe == plain + 1
    assert "annexe" not in {line.pen for line in grid_lines(CROSSED)}


def test_usual_puzzles_have_no_tint_and_no_entry_in_the_key() -> None:
    assert "tint" not in drawing(Picture(PLAIN), "plain")
    assert meanings_of(PLAIN) == []


def test_the_key_says_what_each_means_once() -> None:
    assert [meaning.says for meaning in (*meanings_of(CROSSED), *meanings_of(ANNEXE))] == [
        "tinted band with a line: a diagonal, which holds every digit once",
        "tinted cells with a dotted outline: an extra house, which holds every digit once",
    ]


def test_they_are_tinted_on_paper_too() -> None:
    leaves = [lay_out([SheetPuzzle(puzzle)], solutions=False)[0] for puzzle in (PLAIN, CROSSED)]
    tinted = [sum(stroke.fill is not None for stroke in leaf.strokes) for leaf in leaves]
    assert tinted == [0, 2]

"""The signs of rules: each has one of its own, none hides another, and the key tells what each means."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from itertools import combinations
from math import dist, hypot
from pathlib import Path

import pytest

from grader.board.steps import Step
from tests.pages.scenes import puzzle_named
from tests.pages.test_drawings import a_line_each
from tests.snapshots import assert_snapshot
from verifier.files.so_far import SoFar
from verifier.pages import wording
from verifier.pages.drawing.figure import LINES, frame_of, marks_in, rule_lines, rule_numbers, totals
from verifier.pages.drawing.highlight import highlight_of
from verifier.pages.drawing.look import CELL, faces_of
from verifier.pages.drawing.svg import Picture, drawing, pointed_at
from verifier.pages.drawing.thumbnail import thumbnail
from verifier.pages.help_page import help_page
from verifier.pages.rule_key import SAMPLES, meanings_of, rules_in_words, sample, signs_in_words
from verifier.pages.sheets.lettering import width
from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
from verifier.pages.verdict_page import verdict_page
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule
from verifier.verdict.judge import judge
from verifier.walkthrough.helping import help_from

SNAPSHOTS = Path(__file__).parent / "snapshots"
FOUR = Grid.square(4)
ROW, COLUMN = (0, 1, 2, 3), (0, 4, 8, 12)


def with_clues(*clues: Rule, cages: tuple[Cage, ...] = (), grid: Grid = FOUR) -> Puzzle:
    return make_puzzle("killer" if cages else "classic", grid, cages=cages, clues=clues)


EDGE = with_clues(
    *(Sandwich(cells, 5) for cells in (ROW, COLUMN)),
    *(Skyscraper(cells, 2) for cells in (ROW, COLUMN, ROW[::-1], COLUMN[::-1])),
    *(LittleKiller(cells, 13) for cells in ((0, 5, 10, 15), (1, 6, 11), (1, 4), (14, 9, 4), (12, 9, 6, 3))),
)
"""Clues of all kinds, on all sides, and more than one before a line."""


@pytest.mark.parametrize("kind", SAMPLES, ids=lambda kind: kind.word)
def test_a_rule_is_drawn_as_in_the_snapshot(kind: type[Rule]) -> None:
    assert_snapshot(SNAPSHOTS / f"rule-{kind.word}.svg", a_line_each(sample(kind)))


def test_every_rule_with_a_picture_but_the_cage_is_in_the_key() -> None:
    assert set(SAMPLES) == set(LINES) - {Cage}
    assert set(wording.SIGNS) == {kind.word for kind in SAMPLES}


def test_no_two_signs_look_alike_without_their_numbers_and_colours() -> None:
    shapes = [re.sub(r">\d+<", "><", sample(kind)) for kind in SAMPLES]
    assert len(set(shapes)) == len(shapes)


@pytest.mark.parametrize("cells", [(0, 1), (0, 4)])
def test_two_marks_on_one_border_stand_side_by_side(cells: tuple[int, int]) -> None:
    one, other = (number.place for number in rule_numbers(with_clues(Ratio(cells, 2), Difference(cells, 1))))
    assert dist(one, other) >= 20
    border = 0 if cells == (0, 1) else 1
    assert one[border] == other[border]


def test_clues_at_the_edge_stand_outside_the_grid_inside_the_picture_and_off_each_other() -> None:
    frame, size = frame_of(EDGE), 4 * CELL
    places = [number.place for number in rule_numbers(EDGE)]
    assert len(places) == 11
    for x, foot in places:
        assert not (0 < x < size and 0 < foot < size)
        assert frame.left + 8 < x < frame.left + frame.width - 8
        assert frame.top + 12 < foot < frame.top + frame.height
    for one, other in combinations(places, 2):
        assert abs(one[0] - other[0]) >= 18 or abs(one[1] - other[1]) >= 14


def pointing_at(puzzle: Puzzle, *words: str) -> str:
    """What lies under the picture of a step that rests on rules of these kinds."""
    numbers = [number for number, rule in enumerate(puzzle.premises) if rule.word in words]
    step = Step("a-step", removes=((0, 2),), rules=tuple(numbers))
    return pointed_at(Picture(puzzle, highlight=highlight_of(step, puzzle)))["under"]


def test_a_step_that_rests_on_a_clue_at_the_edge_points_at_its_cells_and_at_the_clue() -> None:
    beyond = Skyscraper(ROW, 3)  # in the second lane, since there is a little killer in the first
    under = pointing_at(with_clues(beyond, LittleKiller((8, 5, 2), 7)), "skyscraper")
    assert under == '<path class="premise" d="M10 5H235V55H5V5ZM-63 15H-33V45H-63Z"/>'


def test_a_step_that_rests_on_a_rule_of_the_whole_grid_points_at_no_part_of_it() -> None:
    assert pointing_at(with_clues(ChessMove("king", ((0, 5), (1, 4)))), "no_repeats") == ""


def test_a_skyscraper_that_is_seen_from_the_right_stands_on_the_right() -> None:
    (number,) = rule_numbers(with_clues(Skyscraper(ROW[::-1], 3)))
    assert number.place[0] > 4 * CELL
    assert 0 < number.place[1] < CELL


def test_without_clues_at_the_edge_the_picture_is_as_large_as_ever() -> None:
    assert frame_of(with_clues(Greater((0, 1)))) == frame_of(with_clues())


@pytest.mark.parametrize("size", [4, 6, 9])
def test_pencil_marks_keep_clear_of_signs(size: int) -> None:
    """A dot on the middle of a border has a radius of 9.5, a ring on a corner one of 15."""
    marks = marks_in(with_clues(Consecutive((0, 1)), grid=Grid.square(size)))
    half = 0.3 * marks.face.size
    for x, y in marks.places.values():
        assert half + 9.5 <= x <= CELL - 9.5 - half
        assert hypot(x - half, y - half) >= 15


def test_a_total_stands_in_another_cell_where_a_ring_lies_upon_its_corner() -> None:
    ring = Quadruple((0, 1, 4, 5), (1, 2))
    (usual,) = totals(with_clues(cages=(Cage((5, 6), 3),)))
    (moved,) = totals(with_clues(ring, cages=(Cage((5, 6), 3),)))
    assert moved.place == (usual.place[0] + CELL, usual.place[1])


def test_an_arrow_leaves_a_long_circle_from_the_cell_that_it_touches() -> None:
    (_, line, _) = rule_lines(with_clues(Arrow((0, 1), (6, 10))))
    assert dist(line.points[0], (1.5 * CELL, 0.5 * CELL)) == pytest.approx(22, abs=0.2)


def test_each_kind_of_sign_is_explained_once() -> None:
    puzzle = with_clues(Whisper((0, 1), 2), Whisper((4, 5), 2), Skyscraper(ROW, 2))
    assert [meaning.says for meaning in meanings_of(puzzle)] == signs_in_words(puzzle)
    assert signs_in_words(puzzle) == [
        "double line: neighbours on it differ by at least 2",
        "number in a pointed frame: from there, so many digits are greater than all before them",
    ]


def test_whispers_that_differ_bear_their_numbers() -> None:
    puzzle = with_clues(Whisper((0, 1), 2), Whisper((4, 5), 3))
    assert [number.text for number in rule_numbers(puzzle)] == ["2", "3"]
    assert signs_in_words(puzzle) == ["double line: neighbours on it differ by at least the number on it"]


def test_the_puzzle_in_words_names_every_clue_with_its_cells() -> None:
    clues = (Thermometer((0, 1, 6)), Greater((4, 0)), LittleKiller((8, 13), 5), Skyscraper(COLUMN, 3))
    assert rules_in_words(with_clues(*clues, cages=(Cage((2, 3), 5),))) == [
        "The cage of 5 in r1c3 and r1c4",
        "The sign that r2c1 is greater than r1c1",
        "The thermometer from r1c1 to r2c3: r1c1, r1c2, r2c3",
        "The little killer 5 from r3c1 to r4c2",
        "The skyscraper clue 3 at the top of column 1",
    ]


def test_a_page_has_the_key_and_the_clues_in_words() -> None:
    puzzle = with_clues(Thermometer((0, 1, 6)), Ratio((4, 5), 2))
    page = verdict_page(puzzle, judge(puzzle))
    told = (*signs_in_words(puzzle), *rules_in_words(puzzle))
    assert [says for says in told if says not in page] == []
    assert "Grid 4x4, two clues, 0 of 16 cells filled" in page
    assert "signs-of-rules" not in verdict_page(with_clues(), judge(with_clues())).partition("</style>")[2]


def test_a_page_that_tells_what_is_wrong_and_no_step_has_the_key_too() -> None:
    puzzle = puzzle_named("thermometer")
    page = help_page(help_from(puzzle, SoFar(((0, 4),))))  # the bulb of four cells, in a grid of six
    assert "Four cells rise from r1c1, so it is at most 3" in page
    assert signs_in_words(puzzle)[0] in page


def test_a_sheet_keeps_clues_at_the_edge_on_the_paper_and_says_what_signs_mean() -> None:
    (leaf,) = lay_out([SheetPuzzle(EDGE)] * 4, per_page=4, solutions=False)
    points = [point for stroke in leaf.strokes for point in stroke.points] + [w.place for w in leaf.words]
    assert all(14 < x < leaf.paper.width - 14 and 10 < y < leaf.paper.height - 10 for x, y in points)
    said = " ".join(words.text for words in leaf.words)
    assert said.count("from there, so many digits are greater than all before them.") == 4


def test_a_long_key_is_set_small_and_stays_on_the_paper() -> None:
    """Six on a page, each with signs of all kinds: the grid keeps most of the room."""
    puzzle = with_clues(*(SAMPLES[kind].moved((0, 1, 2, 4, 5, 6)) for kind in SAMPLES))
    (leaf,) = lay_out([SheetPuzzle(puzzle)] * 6, per_page=6, solutions=False)
    right = [words.place[0] + width(words.text, words.size, bold=words.bold) for words in leaf.words]
    assert max(right) < leaf.paper.width - 14
    assert {words.size for words in leaf.words if "digits" in words.text} == {2.1}


def test_large_numbers_keep_within_their_signs() -> None:
    """A figure is at most 0.64 of its size wide (common practice, no source)."""
    grid = Grid.square(16)
    ring = Quadruple((0, 1, 16, 17), (10, 12, 14, 16))
    places = [number.place[0] for number in rule_numbers(with_clues(ring, grid=grid))]
    assert places[1] - places[0] > 2 * 0.64 * faces_of(16)["value"].size
    sandwich = with_clues(Sandwich(tuple(range(16)), 120), grid=grid)
    (number,), bars = rule_numbers(sandwich), [line.points[0][0] for line in rule_lines(sandwich)]
    assert max(bars) - min(bars) > 3 * 0.64 * faces_of(16)[number.face].size


def test_a_number_in_a_filled_dot_is_printed_light() -> None:
    (leaf,) = lay_out([SheetPuzzle(with_clues(Ratio((0, 1), 2)))], solutions=False)
    assert [words.text for words in leaf.words if words.grey] == ["2"]
    assert [stroke.fill for stroke in leaf.strokes if stroke.fill is not None] == [0.0]


def test_a_thumbnail_has_lines_and_a_dot_for_each_mark() -> None:
    small = thumbnail(with_clues(Thermometer((0, 1, 6)), Greater((4, 0)), Ratio((14, 15), 2)), "small")
    assert 'class="ways" d="M5 5L15 5L25 15"' in small
    assert small.count("h0") == 3  # the bulb is one
    ElementTree.fromstring(small)


def test_a_thumbnail_of_a_killer_has_neither() -> None:
    small = thumbnail(with_clues(cages=(Cage((0, 1), 3),)), "small")
    assert "ways" not in small
    assert "dots" not in small


def test_all_of_it_is_well_formed() -> None:
    ElementTree.fromstring(drawing(Picture(EDGE), "label"))

"""Each remark: a puzzle that earns it, with the sentence, and one that nearly does."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from tests.evidence.stand_ins import ONE, codes
from tests.strategies import puzzles
from verifier.files.reading import read_text
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.verdict.judge import judge
from verifier.verdict.remarks import remarks_on
from verifier.verdict.style.style import HouseStyle


def drawn(rows: str) -> Puzzle:
    """A killer of 4x4 with these rows of marks; its totals are all 9."""
    marks = dict.fromkeys(mark for mark in rows.split() if mark != ".")
    cages = "".join(f"  {row}\n" for row in rows.split("\n"))
    totals = ", ".join(f"'{mark}': 9" for mark in marks)
    text = f"puzzle: killer\ngrid: 4x4\ncages: |\n{cages}totals: {{{totals}}}\n"
    (entry,) = read_text(text.encode(), "box.yaml")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def told(puzzle: Puzzle, style: HouseStyle | None = None) -> list[tuple[str, str, tuple[str, ...]]]:
    remarks = remarks_on(puzzle) if style is None else remarks_on(puzzle, style)
    return [(remark.code, remark.says, remark.cells) for remark in remarks]


COVERED = "a a b b\nc c d d\ne e f f\ng g h h"


def test_an_ordinary_puzzle_earns_none() -> None:
    assert told(drawn(COVERED)) == []


def test_a_mark_used_for_cages_that_do_not_touch_is_one_cage_in_pieces() -> None:
    assert told(drawn(COVERED.replace("h h", "a a"))) == [
        (
            "cage-in-pieces",
            "The mark 'a' stands in cells that do not touch: r1c1 r1c2 and r4c3 r4c4. They count as one cage "
            "of 9, in pieces. Were two cages meant? Then give each a mark and a total of its own.",
            ("r1c1", "r1c2", "r4c3", "r4c4"),
        )
    ]


def test_cells_that_meet_in_a_corner_do_not_touch() -> None:
    (remark,) = remarks_on(drawn("a b b .\n. a . .\nc c . .\n. . . ."))
    assert remark.cells == ("r1c1", "r2c2")


def test_a_cage_of_a_list_in_pieces_is_told_without_a_mark() -> None:
    puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 5, 15), 9)])
    assert told(puzzle) == [
        (
            "cage-in-pieces",
            "The cage of 9 lies in pieces that do not touch: r1c1, r2c2 and r4c4. Were three cages meant? "
            "Then list each with a total of its own.",
            ("r1c1", "r2c2", "r4c4"),
        )
    ]


def test_the_only_cell_in_no_cage() -> None:
    assert told(drawn(COVERED.replace("c c d d", "c c c ."))) == [
        (
            "one-bare-cell",
            "Every cell but r2c4 is in a cage. Was r2c4 forgotten? Then put it into its cage.",
            ("r2c4",),
        )
    ]


def test_two_bare_cells_are_the_setters_way_of_drawing() -> None:
    assert told(drawn(COVERED.replace("d d", ". ."))) == []


def test_a_classic_has_no_cages_to_remark_on() -> None:
    assert told(make_puzzle("classic", Grid.square(4), givens={0: 1})) == []


def test_a_cage_of_one_cell() -> None:
    assert told(drawn("a a . .\n. . b .\n. . . .\n. . . .")) == [
        (
            "one-cell-cage",
            "The cage of 9 at r2c3 has one cell, which gives its digit away. Were other cells of it "
            "forgotten?",
            ("r2c3",),
        )
    ]


def test_several_cages_of_one_cell_are_one_remark() -> None:
    (remark,) = remarks_on(drawn("a . . .\n. b . .\n. . c c\n. . . ."))
    assert remark.says == (
        "The cages of 9 at r1c1 and 9 at r2c2 have one cell each, which gives the digit away. Were other "
        "cells of them forgotten?"
    )
    assert remark.cells == ("r1c1", "r2c2")


@pytest.mark.parametrize(("one", "other"), [("l", "1"), ("O", "0"), ("i", "j"), ("a1", "al")])
def test_marks_that_look_alike_side_by_side(one: str, other: str) -> None:
    rows = COVERED.replace("c c", f"{one} {one}").replace("d d", f"{other} {other}")
    first, second = sorted((one, other))
    assert told(drawn(rows)) == [
        (
            "marks-alike",
            f"The marks '{first}' and '{second}' look alike, and their cages touch at r2c2 and r2c3. Compare "
            "these cells with the draft; marks that nobody takes for one another are safer.",
            ("r2c2", "r2c3"),
        )
    ]


def test_marks_that_look_alike_far_apart_harm_nobody() -> None:
    assert told(drawn(COVERED.replace("a a", "l l").replace("h h", "1 1"))) == []


def test_a_mark_is_shown_without_what_a_terminal_would_act_on() -> None:
    puzzle = replace(drawn(COVERED), marks=("\x1b[31ml", "\x1b[31m1", *"bbccddeeffgghh"))
    (remark,) = remarks_on(puzzle)
    assert remark.says.isprintable()


@pytest.mark.parametrize(
    ("rows", "rule"),
    [
        (COVERED.replace("h h", "a a"), {"cages_in_one_piece": True}),
        (COVERED.replace("c c d d", "c c c ."), {"cages_cover_the_grid": True}),
        ("a . . .\n. b b .\n. . . .\n. . . .", {"smallest_cage": 2}),
    ],
)
def test_what_the_house_style_rejects_is_not_remarked_on_as_well(rows: str, rule: dict[str, bool]) -> None:
    puzzle = drawn(rows)
    style = HouseStyle("Harbour Page", **rule)  # type: ignore[arg-type]
    assert len(told(puzzle)) == 1
    assert told(puzzle, style) == []
    assert any(reason.code.startswith("style-") for reason in judge(puzzle, style).reasons)


def test_a_remark_stands_in_the_verdict_and_rejects_nothing() -> None:
    marks = ["i" if cell in ONE.cages[0].cells else "x" for cell in range(ONE.grid.cell_count)]
    marks[next(c for c in range(16) if c in (ONE.cages[0].cells[-1] + 1, ONE.cages[0].cells[-1] + 4))] = "j"
    verdict = judge(replace(ONE, marks=tuple(marks)))
    assert codes(verdict) == ["accepted"]
    assert [remark.code for remark in verdict.remarks] == ["marks-alike"]


@given(puzzles())
def test_remarks_name_cells_of_the_grid_each_once(puzzle: Puzzle) -> None:
    for remark in remarks_on(puzzle):
        cells = [puzzle.grid.cell_at(name) for name in remark.cells]
        assert None not in cells
        assert cells == sorted(set(cells), key=lambda cell: cell or 0)
        assert remark.says.isprintable()


def housed(drawn: str, key: str = "boxes") -> Puzzle:
    """A classic of 4x4 with boxes or extra houses as drawn."""
    rows = "".join(f"  {row}\n" for row in drawn.split("\n"))
    (entry,) = read_text(f"puzzle: classic\ngrid: 4x4\n{key}: |\n{rows}".encode(), "box.yaml")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


def test_a_box_in_pieces_is_asked_about() -> None:
    assert told(housed("a a a b\na c b b\nc c d d\nc b d d")) == [
        (
            "house-in-pieces",
            "Box 2 lies in pieces that do not touch: r1c4 r2c3 r2c4 and r4c2. Does a cell bear the mark of "
            "another house?",
            ("r1c4", "r2c3", "r2c4", "r4c2"),
        )
    ]


def test_an_extra_house_in_pieces_is_asked_about_and_a_diagonal_is_not() -> None:
    puzzle = housed("a . . .\n. a . .\n. a . .\n. . . a", "extra_houses")
    assert [code for code, _, _ in told(puzzle)] == ["house-in-pieces"]
    crossed = make_puzzle(
        "classic", Grid.square(4), houses=(*Grid.square(4).houses, *Grid.square(4).diagonals)
    )
    assert told(crossed) == []


def test_boxes_in_one_piece_are_not() -> None:
    assert told(housed("a a a b\na c b b\nc c d b\nc d d d")) == []

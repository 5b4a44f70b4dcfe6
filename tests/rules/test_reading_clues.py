"""Marks, lines and clues at the edge in a file: what is read, and that it is written as it was."""

from __future__ import annotations

import pytest

from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule

HEAD = "puzzle: classic\ngrid: 4x4\n"

SAME_AS_WRITTEN = {
    "{consecutive: r1c1 r1c2}": Consecutive((0, 1)),
    "{ratio: 2, cells: r1c1 r2c1}": Ratio((0, 4), 2),
    "{difference: 3, cells: r1c1 r1c2}": Difference((0, 1), 3),
    "{pair_sum: 5, cells: r1c1 r1c2}": PairSum((0, 1), 5),
    "{even: r1c1}": Even((0,)),
    "{odd: r1c1 r3c3}": Odd((0, 10)),
    "{quadruple: 1 1 4, cells: r1c1 r1c2 r2c1 r2c2}": Quadruple((0, 1, 4, 5), (1, 1, 4)),
    "{thermometer: r2c2 r1c1}": Thermometer((5, 0)),
    "{arrow: r1c1, cells: r2c2 r2c3}": Arrow((0,), (5, 6)),
    "{arrow: r1c1 r2c1, cells: r1c2 r1c3 r1c4}": Arrow((0, 4), (1, 2, 3)),
    "{palindrome: r1c1 r1c2 r2c3}": Palindrome((0, 1, 6)),
    "{renban: r1c1 r1c2 r2c3}": Renban((0, 1, 6)),
    "{whisper: 2, cells: r1c1 r1c2 r2c3}": Whisper((0, 1, 6), 2),
    "{between: r1c1 r1c2 r2c3}": Between((0, 1, 6)),
    "{region_sum: r1c1 r1c2 r1c3 r2c2}": RegionSum(((0, 1), (2,), (5,))),
    "{sandwich: 5, line: row 2}": Sandwich((4, 5, 6, 7), 5),
    "{sandwich: 0, line: column 2}": Sandwich((1, 5, 9, 13), 0),
    "{skyscraper: 2, line: row 2, from: left}": Skyscraper((4, 5, 6, 7), 2),
    "{skyscraper: 2, line: row 2, from: right}": Skyscraper((7, 6, 5, 4), 2),
    "{skyscraper: 3, line: column 1, from: bottom}": Skyscraper((12, 8, 4, 0), 3),
    "{little_killer: 7, cells: r4c3 r3c4}": LittleKiller((14, 11), 7),
}

READ_ALIKE = {
    "{consecutive: [r1c2, r1c1]}": Consecutive((0, 1)),
    "{cells: r1c2 r1c1, ratio: 2}": Ratio((0, 1), 2),
    "{quadruple: [4, 1], cells: [r2c2, r1c1, r1c2, r2c1]}": Quadruple((0, 1, 4, 5), (1, 4)),
    "{odd: r3c3 r1c1}": Odd((0, 10)),
    "{arrow: r2c1 r1c1, cells: r1c2}": Arrow((0, 4), (1,)),
    "{palindrome: r2c3 r1c2 r1c1}": Palindrome((0, 1, 6)),
    "{region_sum: [r2c2, r1c3, r1c2, r1c1]}": RegionSum(((0, 1), (2,), (5,))),
}


def read(text: str) -> Puzzle:
    (entry,) = read_text((HEAD + text).encode(), "box.yaml")
    assert entry.faults == ()
    assert entry.puzzle is not None
    return entry.puzzle


@pytest.mark.parametrize(("text", "rule"), SAME_AS_WRITTEN.items())
def test_a_clue_is_read_and_written_as_it_was(text: str, rule: Rule) -> None:
    puzzle = read(f"clues:\n  - {text}\n")
    assert puzzle.rules[-1] == rule
    assert f"clues:\n  - {text}\n" in write_puzzle(puzzle)


@pytest.mark.parametrize(("text", "rule"), READ_ALIKE.items())
def test_the_order_of_cells_and_keys_means_nothing_where_it_says_nothing(text: str, rule: Rule) -> None:
    assert read(f"clues:\n  - {text}\n").rules[-1] == rule


def test_a_line_that_comes_back_into_a_box_begins_a_new_part() -> None:
    irregular = "boxes: |\n  a a b b\n  a c b b\n  a c d d\n  c c d d\n"
    (rule,) = (
        r for r in read(irregular + "clues: [{region_sum: r3c1 r3c2 r2c1}]\n").rules if r.word == "region_sum"
    )
    assert rule == RegionSum(((4,), (9,), (8,)))


def test_an_arrow_whose_tens_stand_last_is_not_written() -> None:
    puzzle = make_puzzle("classic", Grid.square(4), clues=[Arrow((1, 0), (4, 8))])
    with pytest.raises(ValueError, match="whose tens stand to the right"):
        write_puzzle(puzzle)


MARKS = "clues:\n  - {ratio: 2, cells: r1c1 r1c2}\n  - {consecutive: r1c3 r1c4}\n"


def unmarked(text: str) -> dict[str, Unmarked]:
    return {rule.kind: rule for rule in read(text).rules if isinstance(rule, Unmarked)}


def test_all_marked_speaks_of_neighbours_without_such_a_mark() -> None:
    found = unmarked("all_marked: ratio\n" + MARKS)
    assert found["ratio"].values == (2,)
    assert len(found["ratio"].pairs) == 23
    assert (0, 1) not in found["ratio"].pairs


def test_where_all_of_both_are_marked_either_mark_will_do_for_a_1_beside_a_2() -> None:
    found = unmarked("all_marked: [ratio, consecutive, pair_sum]\n" + MARKS)
    assert found["ratio"].pairs == found["consecutive"].pairs
    assert {(0, 1), (2, 3)}.isdisjoint(found["ratio"].pairs)
    assert (found["pair_sum"].values, len(found["pair_sum"].pairs)) == ((), 24)


def test_all_marked_is_written_as_it_was() -> None:
    puzzle = read("all_marked: [consecutive, ratio]\n" + MARKS)
    assert "all_marked: [consecutive, ratio]\n" in write_puzzle(puzzle)
    (again,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert again.puzzle == puzzle

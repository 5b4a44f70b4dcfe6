"""Rules of the whole grid, from the file to the count."""

from __future__ import annotations

from dataclasses import replace

import pytest

from verifier.counting.count import count_solutions
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import turned_images, turned_key
from verifier.pages.sheets.sheet import SheetPuzzle, lay_out
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Credits, Puzzle, make_puzzle, rules_of
from verifier.puzzle.rules.chess_move import ChessMove
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.not_consecutive import NotConsecutive
from verifier.puzzle.spoken_rules import rules_to_say
from verifier.recount.recount import recount_solutions

HEAD = "puzzle: classic\ngrid: 4x4\n"


def read(text: str) -> Puzzle:
    (entry,) = read_text((HEAD + text).encode(), "box.yaml")
    assert entry.faults == ()
    assert entry.puzzle is not None
    return entry.puzzle


def test_a_piece_may_stand_alone_or_in_a_list() -> None:
    both = read("no_repeats: [knight, king]\n")
    assert [rule.piece for rule in rules_of(both.rules, ChessMove)] == ["knight", "king"]
    (knight,) = rules_of(read("no_repeats: knight\n").rules, ChessMove)
    assert knight.pairs[:3] == ((0, 6), (0, 9), (1, 7))


@pytest.mark.parametrize(
    ("kind", "values", "says"),
    [
        ("consecutive", (), "all consecutive neighbours are marked"),
        ("ratio", (2, 3), "all neighbours in the ratio 2 or 3 are marked"),
        ("ratio", (), "all neighbours are marked that are in the ratio of a mark"),
        ("pair_sum", (10,), "all neighbours that add up to 10 are marked"),
        ("pair_sum", (), "all neighbours are marked that add up to the sum of a mark"),
    ],
)
def test_that_all_marks_are_there_is_said(kind: str, values: tuple[int, ...], says: str) -> None:
    puzzle = make_puzzle("classic", Grid.square(4), clues=[Unmarked(kind, values, ((0, 1),))])
    assert rules_to_say(puzzle) == says


def test_no_is_no_rule() -> None:
    assert read("not_consecutive: no\n") == read("")
    assert len(rules_of(read("not_consecutive: yes\n").rules, NotConsecutive)[0].pairs) == 24


@pytest.mark.parametrize(
    "text",
    ["no_repeats: knight\n", "no_repeats: [knight, king]\nnot_consecutive: yes\n", "not_consecutive: yes\n"],
)
def test_what_is_written_reads_back_equal(text: str) -> None:
    puzzle = read(text)
    assert text in write_puzzle(puzzle)
    (again,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert again.puzzle == puzzle


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("no_repeats: knight\n", "No two equal digits stand a knight's move apart."),
        ("not_consecutive: yes\n", "No neighbours differ by one."),
        ("diagonals: rising\n", "Every digit stands once in the rising diagonal."),
        ("", ""),
    ],
)
def test_a_sheet_says_below_the_puzzle_what_its_picture_does_not_show(text: str, said: str) -> None:
    puzzle = replace(read(text), credits=Credits("a"))
    (leaf, *_) = lay_out([SheetPuzzle(puzzle)], per_page=6, solutions=False)
    words = [words.text for words in leaf.words]
    assert said in " ".join(words)
    assert any(word.endswith(".") for word in words) == bool(said)


def test_permutations_without_consecutive_neighbours() -> None:
    """OEIS A002464: 1, 0, 0, 2, 14, 90, 646, 5242, 47622."""
    for size, wanted in ((4, 2), (5, 14), (6, 90), (7, 646), (9, 47622)):
        row = House("row", 1, tuple(range(size)))
        pairs = tuple((cell, cell + 1) for cell in range(size - 1))
        puzzle = make_puzzle(
            "classic", Grid(1, size, 0, 0, size), houses=(row,), clues=[NotConsecutive(pairs)]
        )
        assert count_solutions(puzzle, wanted + 1).count == wanted
        if size < 9:
            assert recount_solutions(puzzle, wanted + 1).count == wanted


@pytest.mark.parametrize("text", ["no_repeats: knight\n", "no_repeats: king\n", "not_consecutive: yes\n"])
def test_turned_puzzles_have_the_same_keys(text: str) -> None:
    puzzle = read(text + "givens: |\n  1 . . .\n  . . . .\n  . 3 . .\n  . . . .\n")
    for grid, places in turned_images(puzzle.grid):
        turned = puzzle.moved(grid, places)
        assert turned is not None
        assert (turned_key(turned), structure_key(turned)) == (turned_key(puzzle), structure_key(puzzle))

"""Which marks are taken for one another, and that none of ours are."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given

from tests.strategies import puzzles
from verifier.files.fields.lookalikes import DISTINCT_LETTERS, alike, misread
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.puzzle import Puzzle


@pytest.mark.parametrize("pair", ["l1", "lI", "I1", "O0", "oO", "ij", "cC", "S5", "B8"])
def test_signs_that_look_alike(pair: str) -> None:
    assert alike(pair[0], pair[1])
    assert alike(f"a{pair[0]}", f"a{pair[1]}")


@pytest.mark.parametrize("pair", ["aA", "bd", "jl", "il", "eE", "12"])
def test_signs_that_do_not(pair: str) -> None:
    assert not alike(pair[0], pair[1])


def test_a_mark_is_not_like_itself_nor_like_a_longer_one() -> None:
    assert not alike("l", "l")
    assert not alike("l", "1l")


@pytest.mark.parametrize("word", ["", "13", "nine", "l0S4.", "O3", "-l", "lIlIlIl", "l³", "٣l"])
def test_no_number_is_read_into_other_words(word: str) -> None:
    assert misread(word) is None


def test_none_of_our_own_letters_is_taken_for_another() -> None:
    assert not any(alike(one, other) for one, other in combinations(DISTINCT_LETTERS, 2))


@given(puzzles())
def test_no_two_marks_of_a_written_puzzle_look_alike(puzzle: Puzzle) -> None:
    (entry,) = read_text(write_puzzle(puzzle).encode(), "box.yaml")
    assert entry.puzzle is not None
    marks = set(entry.puzzle.marks)
    assert len(marks) == len({mark for mark in marks if not any(alike(mark, other) for other in marks)})

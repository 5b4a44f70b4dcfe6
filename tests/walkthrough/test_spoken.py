"""Cells said in full: nothing is lost, and no cell is drawn into a list it does not belong to."""

from __future__ import annotations

import re

import pytest

from grader.walking.walk import walk
from tests.grader.words.test_story import from_corpus, told
from verifier.walkthrough.spoken import spoken


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("r5c2 is 9. r1c1 is 4.", "Row 5, column 2 is 9. Row 1, column 1 is 4."),
        ("3 goes from r1c5, r1c6 and r1c7.", "3 goes from row 1, columns 5, 6 and 7."),
        ("6 is in r4c8 or r6c8.", "6 is in column 8, row 4 or 6."),
        (
            "8 goes in r3c4 and r3c6 can only be 2.",
            "8 goes in row 3, column 4 and row 3, column 6 can only be 2.",
        ),
        ("9 in r7c5 and 4 in r7c4.", "9 in row 7, column 5 and 4 in row 7, column 4."),
        ("r1c1, r2c4 and r5c5 make 9.", "Row 1, column 1; row 2, column 4; and row 5, column 5 make 9."),
        ("the cage of 10 at r3c4", "the cage of 10 at row 3, column 4"),
    ],
)
def test_cells_are_said_as_one_would_point_them_out(written: str, said: str) -> None:
    assert spoken(written) == said


@pytest.mark.parametrize("name", ["killers/slack-water", "classics/ballast"])
def test_a_spoken_walk_has_no_name_of_a_cell_left(name: str) -> None:
    text = told(walk(from_corpus(f"{name}.yaml")).shortened())
    assert re.search(r"r\d+c\d+", text)
    assert not re.search(r"r\d+c\d+", spoken(text))

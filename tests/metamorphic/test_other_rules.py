"""The grade of a puzzle with any rules is the same in its turned, mirrored and complemented forms."""

from __future__ import annotations

import pytest

from scripts.check_corpus import expected_entries
from tests.corpus.puzzles import puzzle_at
from tests.metamorphic.test_invariance import figures
from verifier.likeness.turned import turned_images
from verifier.puzzle.puzzle import Puzzle

FOLDERS = ("rules", "marks", "lines", "edge", "mixed", "kakuro")
SMALL = 40
"""Cells of a puzzle that is tried; the others are of the same kinds, and larger."""


def sound() -> list[str]:
    return [
        address
        for address, entry in expected_entries().items()
        if "recorded" in entry and address.startswith(FOLDERS) and puzzle_at(address).grid.cell_count < SMALL
    ]


def forms(puzzle: Puzzle, number: int) -> list[Puzzle]:
    """A form of a puzzle that is turned or mirrored, and that one complemented where its rules allow it."""
    digits = puzzle.grid.digits
    images = list(turned_images(puzzle.grid))
    grid, places = images[1 + number % (len(images) - 1)]
    names = [range(digits + 1), (0, *range(digits, 0, -1))]
    return [form for each in names if (form := puzzle.moved(grid, places, each)) is not None]


@pytest.mark.parametrize(("number", "address"), list(enumerate(sound())))
def test_a_turned_and_a_complemented_puzzle_grade_the_same(number: int, address: str) -> None:
    puzzle = puzzle_at(address)
    for form in forms(puzzle, number):
        assert figures(form) == figures(puzzle)

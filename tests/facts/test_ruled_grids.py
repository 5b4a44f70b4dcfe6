"""How many grids obey a rule of the whole grid, or further houses.

Latin squares: OEIS A002860 and A274806, from memory. The grids of 4x4 and 6x6 under a rule: brute force over
the 288 (OEIS A107739) and the 28,200,960, made for the reference data and counted anew; no published source.
"""

from __future__ import annotations

import pytest

from tests.rules.shapes import fillings_of
from verifier.counting.count import count_solutions
from verifier.files.reading import read_text
from verifier.puzzle.puzzle import Puzzle
from verifier.recount.recount import recount_solutions

MIDDLE = "extra_houses: |\n  . . . .\n  . a a .\n  . a a .\n  . . . .\n"


def empty(size: int, rules: str) -> Puzzle:
    """A grid without givens, with these lines in its file."""
    (entry,) = read_text(f"puzzle: classic\ngrid: {size}x{size}\n{rules}".encode(), "box.yaml")
    assert entry.puzzle is not None, entry.faults
    return entry.puzzle


@pytest.mark.parametrize(
    ("rules", "wanted"),
    [
        ("", 288),
        ("diagonals: yes\n", 48),
        ("diagonals: falling\n", 48),
        ("diagonals: rising\n", 48),
        (MIDDLE, 168),
        ("no_repeats: knight\n", 24),
        ("no_repeats: king\n", 0),
        ("not_consecutive: yes\n", 0),
    ],
)
def test_grids_of_4x4(rules: str, wanted: int) -> None:
    puzzle = empty(4, rules)
    assert len(fillings_of(puzzle)) == wanted
    assert count_solutions(puzzle, 300).count == wanted
    assert recount_solutions(puzzle, 300).count == wanted


@pytest.mark.parametrize(
    ("rules", "wanted"),
    [("no_repeats: [knight, king]\n", 0), ("not_consecutive: yes\n", 48)],
)
def test_grids_of_6x6(rules: str, wanted: int) -> None:
    tally = count_solutions(empty(6, rules), 100)
    assert (tally.count, tally.complete) == (wanted, True)


@pytest.mark.parametrize(
    ("size", "rules", "wanted"),
    [
        (4, "", 576),  # A002860
        (4, "diagonals: yes\n", 48),  # A274806
        (5, "diagonals: yes\n", 960),  # A274806
        (4, "diagonals: falling\n", 48),  # brute force
        (5, "diagonals: falling\n", 5760),  # brute force
    ],
)
def test_latin_squares(size: int, rules: str, wanted: int) -> None:
    puzzle = empty(size, f"boxes: none\n{rules}")
    for tally in (count_solutions(puzzle, 6000), recount_solutions(puzzle, 6000)):
        assert (tally.count, tally.complete) == (wanted, True)

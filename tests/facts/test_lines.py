"""Published numbers of rows and lines that obey one clue."""

from __future__ import annotations

from collections import Counter
from math import comb, factorial

import pytest

from tests.reference import facts
from tests.rules.shapes import solved_by
from verifier.counting.count import count_solutions
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import BESIDE, apart
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.marks.unmarked import Unmarked
from verifier.puzzle.rules.rule import Rule
from verifier.recount.recount import recount_solutions

FOUR = Grid.square(4)


def row(size: int, *rules: Rule) -> Puzzle:
    """A row in which every digit stands."""
    cells = tuple(range(size))
    return solved_by(
        make_puzzle("classic", Grid(1, size, 0, 0, size), houses=(House("row", 1, cells),)), *rules
    )


def line(length: int, rule: Rule) -> Puzzle:
    """Cells with the digits 1 to 9 and no rule but one."""
    return solved_by(make_puzzle("classic", Grid(1, length, 0, 0, 9), houses=()), rule)


def fillings(puzzle: Puzzle, most: int = 10_000) -> int:
    """The number of fillings on which both witnesses agree."""
    tally, again = count_solutions(puzzle, most), recount_solutions(puzzle, most)
    assert tally.complete
    assert tally.count == again.count
    return tally.count


@pytest.mark.parametrize(
    ("size", "numbers"), [(4, [6, 11, 6, 1]), (6, [120, 274, 225, 85, 15, 1]), (7, [720, 1764])]
)
def test_rows_by_how_many_digits_are_seen(size: int, numbers: list[int]) -> None:
    """Stirling numbers of the first kind without signs (OEIS A008275)."""
    cells = tuple(range(size))
    assert [fillings(row(size, Skyscraper(cells, seen))) for seen in range(1, len(numbers) + 1)] == numbers


def test_rows_of_nine_of_which_much_is_seen() -> None:
    """The end of row 9 of OEIS A008275: 546, 36, 1."""
    cells = tuple(range(9))
    assert [fillings(row(9, Skyscraper(cells, seen))) for seen in (7, 8, 9)] == [546, 36, 1]


def test_up_down_permutations_of_nine() -> None:
    """OEIS A000111, a(9)."""
    signs = [Greater((cell + 1, cell) if cell % 2 == 0 else (cell, cell + 1)) for cell in range(8)]
    assert count_solutions(row(9, *signs), 10_000).count == 7936


@pytest.mark.parametrize("length", range(2, 10))
def test_thermometers_are_sets_of_digits(length: int) -> None:
    """Each choice of digits stands in one order: 9 choose length."""
    assert fillings(line(length, Thermometer(tuple(range(length))))) == comb(9, length)


@pytest.mark.parametrize("length", range(2, 6))
def test_renbans_are_runs_in_any_order(length: int) -> None:
    """As many runs as there are first digits, each in every order."""
    assert fillings(line(length, Renban(tuple(range(length))))) == (10 - length) * factorial(length)


@pytest.mark.parametrize("length", range(2, 6))
def test_palindromes_are_told_by_their_first_half(length: int) -> None:
    """9 to the power of half the length, rounded up."""
    assert fillings(line(length, Palindrome(tuple(range(length))))) == 9 ** ((length + 1) // 2)


@pytest.mark.parametrize("length", range(2, 5))
def test_arrows_of_one_cell(length: int) -> None:
    """Ways to write a number up to 9 as a sum of so many in order: 9 choose length."""
    assert fillings(line(length + 1, Arrow((0,), tuple(range(1, length + 1))))) == comb(9, length)


@pytest.mark.reference
def test_whispers_and_between_lines_and_sandwiches() -> None:
    known = facts()["lines_with_digits_1_to_9"]
    for length in range(2, 6):
        wanted = known["whisper_5_by_length_1_to_9_repeats_allowed"]["value"][length - 1]
        assert fillings(line(length, Whisper(tuple(range(length)), 5))) == wanted
    for length in (3, 4, 5):
        wanted = known["between_by_length_3_to_6_repeats_allowed"]["value"][length - 3]
        assert fillings(line(length, Between(tuple(range(length))))) == wanted
    totals = facts()["permutations_1_to_9"]["by_sum_between_1_and_9"]["value"]
    for total in (1, 33, 34):
        assert fillings(row(9, Sandwich(tuple(range(9)), total))) == totals.get(total, 0)


@pytest.mark.reference
def test_pairs_of_different_digits_by_the_mark_that_is_true_of_them() -> None:
    known = facts()["pairs_of_different_digits_1_to_9"]["value"]
    different = House("row", 1, (0, 1))

    def pairs(rule: Rule) -> int:
        return fillings(solved_by(make_puzzle("classic", Grid(1, 2, 0, 0, 9), houses=(different,)), rule))

    assert pairs(Greater((0, 1))) == known["greater"]
    assert pairs(Consecutive((0, 1))) == known["consecutive"]
    assert [pairs(Ratio((0, 1), ratio)) for ratio in (2, 3)] == [known["ratio_2"], known["ratio_3"]]
    assert {by: pairs(Difference((0, 1), by)) for by in range(1, 9)} == known["difference"]


@pytest.mark.reference
def test_4x4_grids_by_what_is_seen_and_by_their_marks() -> None:
    def grids(*rules: Rule) -> int:
        return fillings(make_puzzle("classic", FOUR, clues=rules))

    seen = facts()["grids_4x4_by_digits_seen_from_the_left_of_row_1"]["value"]
    assert {count: grids(Skyscraper((0, 1, 2, 3), count)) for count in range(1, 5)} == seen
    pairs = apart(FOUR, BESIDE)
    known = facts()["grids_4x4_that_obey"]["value"]
    assert grids(Unmarked("pair_sum", (5,), pairs)) == known["no_neighbours_that_add_up_to_5"]
    assert grids(Unmarked("ratio", (2,), pairs)) == known["no_neighbours_in_ratio_2"]
    marks = [Consecutive(pair) for pair in pairs]
    every = count_solutions(make_puzzle("classic", FOUR), 1000).solutions
    by_number = Counter(sum(mark.holds(filling) for mark in marks) for filling in every)
    assert by_number == facts()["grids_4x4_by_number_of_consecutive_neighbours"]["value"]

"""Clues that no filling can obey: each with its sentence, and a near miss that some filling obeys."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.snapshots import assert_snapshot
from verifier.counting.count import count_solutions
from verifier.puzzle.checking.arithmetic import arithmetic_checks
from verifier.puzzle.checking.clue_checks import WHY_NOT
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
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

FOUR = Grid.square(4)
ROW, SQUARE, BETWEEN_BOXES = (0, 1, 2, 3), (0, 1, 4, 5), (1, 2, 5, 6)

NEVER_AND_SOMETIMES: list[tuple[Rule, Rule]] = [
    (Ratio((0, 1), 5), Ratio((0, 1), 4)),
    (Ratio((0, 1), 1), Ratio((0, 1), 2)),
    (Difference((0, 1), 4), Difference((0, 1), 3)),
    (Difference((0, 1), 0), Difference((0, 1), 1)),
    (PairSum((0, 1), 2), PairSum((0, 1), 3)),
    (PairSum((0, 1), 8), PairSum((0, 1), 7)),
    (Even((0, 1, 2)), Even((0, 1, 6))),
    (Odd((0, 4, 12)), Odd((0, 4, 13))),
    (Quadruple(SQUARE, (1, 1)), Quadruple(BETWEEN_BOXES, (1, 1))),
    (Quadruple(BETWEEN_BOXES, (1, 1, 1)), Quadruple(BETWEEN_BOXES, (1, 1, 2, 2))),
    (Thermometer((0, 1, 2, 3, 7)), Thermometer((0, 1, 2, 3))),
    (Renban((0, 1, 2, 3, 7)), Renban((0, 1, 2, 3))),
    (Whisper((0, 1, 2), 4), Whisper((0, 1, 6), 3)),
    (Palindrome((0, 1, 4)), Palindrome((0, 5, 10))),
    (Between((0, 1, 2, 3, 7)), Between((0, 1, 2, 3))),
    (Arrow((0,), (1, 2, 3)), Arrow((0,), (1, 2))),
    (Arrow((0, 1), (2, 3)), Arrow((0, 1), (2, 3, 7, 6, 10))),
    (RegionSum(((0, 4, 5), (6,))), RegionSum(((4, 5), (6,)))),
    (Sandwich(ROW, 1), Sandwich(ROW, 3)),
    (Sandwich(ROW, 6), Sandwich(ROW, 5)),
    (Skyscraper(ROW, 0), Skyscraper(ROW, 1)),
    (Skyscraper(ROW, 5), Skyscraper(ROW, 4)),
    (LittleKiller((1, 4), 2), LittleKiller((1, 4), 3)),
    (LittleKiller((0, 5, 10, 15), 15), LittleKiller((0, 5, 10, 15), 14)),
]


def with_clue(rule: Rule) -> Puzzle:
    return make_puzzle("classic", FOUR, clues=[rule])


def says(rule: Rule) -> list[str]:
    return [check.says for check in arithmetic_checks(with_clue(rule)) if not check.passed]


@pytest.mark.parametrize("never", [never for never, _ in NEVER_AND_SOMETIMES], ids=repr)
def test_a_clue_that_can_never_hold_is_told_and_no_filling_obeys_it(never: Rule) -> None:
    assert len(says(never)) == 1
    assert count_solutions(with_clue(never), 1).count == 0


@pytest.mark.parametrize("sometimes", [sometimes for _, sometimes in NEVER_AND_SOMETIMES], ids=repr)
def test_a_near_miss_passes_and_some_filling_obeys_it(sometimes: Rule) -> None:
    assert says(sometimes) == []
    assert count_solutions(with_clue(sometimes), 1).count == 1


def test_two_figures_for_the_same_cells_are_told() -> None:
    clues = [Skyscraper(ROW, 2), Skyscraper(ROW, 3), Skyscraper(ROW[::-1], 1)]
    both = make_puzzle("classic", FOUR, clues=clues)
    (check,) = arithmetic_checks(both)
    assert check.says == (
        "The skyscraper clue 2 at the left of row 1 (r1c1, r1c2, r1c3 and r1c4) and the skyscraper clue 3 at "
        "the left of row 1 can never hold both. Take one of the two out, or correct it."
    )


def test_there_is_an_example_for_every_rule_that_is_checked() -> None:
    assert {type(never) for never, _ in NEVER_AND_SOMETIMES} == set(WHY_NOT)


def test_every_sentence_reads_as_agreed() -> None:
    lines = [f"{sentence}\n" for never, _ in NEVER_AND_SOMETIMES for sentence in says(never)]
    assert_snapshot(Path(__file__).parent / "snapshots" / "clue_checks.txt", "\n".join(lines))


def test_a_puzzle_is_told_that_its_clues_can_hold_only_where_some_might_not() -> None:
    def codes(rule: Rule) -> list[str]:
        return [check.code for check in arithmetic_checks(with_clue(rule))]

    assert codes(Skyscraper(ROW, 2)) == ["clue"]
    assert codes(Greater((0, 1))) == []

"""Clues that were drawn in the wrong place: what is tried in their stead, and what `mend` finds."""

from __future__ import annotations

import pytest

from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.repairs.changes import RuleChange, changed
from verifier.diagnosis.repairs.near_readings import NEAR, near
from verifier.diagnosis.repairs.readings import FITTED, OTHERS, fitted
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.puzzle.all_marked import all_marked
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.between import Between
from verifier.puzzle.rules.lines.palindrome import Palindrome
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.lines.renban import Renban
from verifier.puzzle.rules.lines.thermometer import Thermometer
from verifier.puzzle.rules.lines.whisper import Whisper
from verifier.puzzle.rules.marks.consecutive import Consecutive
from verifier.puzzle.rules.marks.difference import Difference
from verifier.puzzle.rules.marks.greater import Greater
from verifier.puzzle.rules.marks.pair_sum import PairSum
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

FOUR = Grid.square(4)
SOLUTION = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
ROW = (0, 1, 2, 3)

TRIED: list[tuple[Rule, list[Rule]]] = [
    (
        Consecutive((0, 1)),
        [Consecutive((0, 4)), Consecutive((1, 2)), Consecutive((1, 5)), Consecutive((4, 5))],
    ),
    (Greater((0, 1)), [Greater((4, 0)), Greater((1, 2)), Greater((5, 4))]),
    (PairSum((10, 11), 5), [PairSum((11, 15), 5), PairSum((6, 7), 5)]),
    (Even((0,)), [Odd((0,)), Even((1,)), Even((4,))]),
    (Odd((0, 1)), [Even((0, 1)), Odd((1, 4)), Odd((1,)), Odd((0, 5))]),
    (Quadruple((0, 1, 4, 5), (1, 4)), [Quadruple((0, 1, 4, 5), (1, 3)), Quadruple((1, 2, 5, 6), (1, 4))]),
    (Thermometer((0, 1, 2)), [Thermometer((2, 1, 0)), Thermometer((0, 1)), Thermometer((0, 1, 2, 7))]),
    (Whisper((0, 1, 2), 2), [Whisper((1, 2), 2), Whisper((0, 1, 2, 3), 2), Whisper((2, 1, 0, 5), 2)]),
    (Palindrome((0, 1, 6)), [Palindrome((0, 1)), Palindrome((0, 1, 6, 10))]),
    (Renban((0, 1, 6)), [Renban((1, 6)), Renban((4, 0, 1, 6))]),
    (Between((0, 1, 2, 3)), [Between((0, 1, 2)), Between((0, 1, 2, 3, 7))]),
    (Arrow((5,), (0, 1)), [Arrow((5,), (0,)), Arrow((5,), (0, 1, 2))]),
    (RegionSum(((0, 1), (2,))), [RegionSum(((1,), (2,))), RegionSum(((0, 1), (2, 7)))]),
    (Sandwich(ROW, 5), [Sandwich((4, 5, 6, 7), 5)]),
    (Skyscraper((4, 5, 6, 7), 2), [Skyscraper((7, 6, 5, 4), 2), Skyscraper(ROW, 2)]),
    (LittleKiller((1, 4), 6), [LittleKiller((2, 5, 8), 6), LittleKiller((1, 6, 11), 6)]),
]

NOT_TRIED: list[tuple[Rule, Rule]] = [
    (Consecutive((0, 1)), Consecutive((2, 3))),
    (Even((0,)), Even((5,))),
    (Between((0, 1, 2)), Between((0, 1))),
    (Arrow((5,), (0, 1)), Arrow((5,), (1,))),
    (RegionSum(((0, 1), (2,))), RegionSum(((0, 1),))),
    (Sandwich(ROW, 5), Sandwich((0, 4, 8, 12), 5)),
    (LittleKiller((1, 4), 6), LittleKiller((4, 1), 6)),
]


def with_clues(*clues: Rule) -> Puzzle:
    return make_puzzle("classic", FOUR, clues=clues)


@pytest.mark.parametrize(("clue", "others"), TRIED, ids=repr)
def test_what_lies_near_is_tried_and_a_file_can_say_it(clue: Rule, others: list[Rule]) -> None:
    found = near(clue, with_clues(clue))
    assert set(others) <= set(found)
    assert clue not in found
    for other in found:
        (entry,) = read_text(write_puzzle(with_clues(other)).encode(), "box.yaml")
        assert entry.puzzle is not None
        assert other in entry.puzzle.rules


@pytest.mark.parametrize(("clue", "other"), NOT_TRIED, ids=repr)
def test_what_lies_far_is_not_tried(clue: Rule, other: Rule) -> None:
    assert other not in near(clue, with_clues(clue))


def test_what_the_puzzle_has_already_is_not_tried() -> None:
    assert Even((1,)) not in near(Even((0,)), with_clues(Even((0,)), Even((1,))))


def test_there_is_an_example_of_every_clue() -> None:
    assert {type(clue) for clue, _ in TRIED} | {Ratio, Difference} == set(NEAR)


@pytest.mark.parametrize(
    ("clue", "meant"),
    [
        (Ratio((0, 4), 2), Ratio((0, 4), 3)),
        (Difference((0, 4), 1), Difference((0, 4), 2)),
        (PairSum((0, 4), 5), PairSum((0, 4), 4)),
        (Whisper((0, 4, 1), 2), Whisper((0, 4, 1), 1)),
        (Sandwich(ROW, 0), Sandwich(ROW, 5)),
        (Skyscraper((7, 6, 5, 4), 1), Skyscraper((7, 6, 5, 4), 2)),
        (LittleKiller((2, 7), 4), LittleKiller((2, 7), 5)),
    ],
    ids=repr,
)
def test_a_figure_is_fitted_to_a_filling(clue: Rule, meant: Rule) -> None:
    assert fitted(clue, SOLUTION) == meant
    assert type(clue) in FITTED
    assert type(clue) in OTHERS or len(clue.cells) == 2


def test_a_ratio_that_is_no_whole_number_is_not_fitted() -> None:
    assert fitted(Ratio((1, 2), 2), SOLUTION) is None


GIVENS = [Given(0, 1), Given(1, 2), Given(2, 3), Given(7, 2), Given(8, 2), Given(13, 3)]
MEANT_AND_DRAWN: list[tuple[Rule, Rule, str]] = [
    (Ratio((6, 10), 4), Ratio((6, 10), 3), "Change the ratio 3 between r2c3 and r3c3 to the ratio 4 between"),
    (Thermometer((6, 2, 3)), Thermometer((6, 2, 3, 7)), "Take r2c4 off the thermometer from r2c3 to r2c4."),
    (Palindrome((3, 6, 5)), Palindrome((3, 6)), "Add r2c2 to the palindrome from r1c4 to r2c3."),
    (
        Skyscraper((3, 2, 1, 0), 1),
        Skyscraper(ROW, 1),
        "at the left of row 1 into the skyscraper clue 1 at the right",
    ),
]


@pytest.mark.parametrize(("meant", "drawn", "says"), MEANT_AND_DRAWN, ids=repr)
def test_mend_finds_the_clue_that_was_meant(meant: Rule, drawn: Rule, says: str) -> None:
    found = diagnose(with_clues(*GIVENS, drawn), seconds=5)
    (change,) = next(mend.changes for mend in found.mends if mend.changes == (RuleChange(drawn, meant),))
    assert says in change.says(FOUR)
    assert change.record(FOUR) == {"what": "clue", "from": drawn.record(FOUR), "to": meant.record(FOUR)}


def test_mend_adds_a_mark_that_is_missing_where_all_are_there() -> None:
    consecutive = [pair for pair in all_marked(FOUR, ["consecutive"], [])[0].pairs if _differ_by_one(pair)]
    marks = [Consecutive(pair) for pair in consecutive]
    all_but_one = with_clues(*GIVENS[:2], *marks[1:], *all_marked(FOUR, ["consecutive"], marks[1:]))
    found = diagnose(all_but_one, seconds=5)
    assert (RuleChange(None, marks[0]),) in [mend.changes for mend in found.mends]
    mended = changed(all_but_one, [RuleChange(None, marks[0])])
    assert mended == with_clues(*GIVENS[:2], *marks, *all_marked(FOUR, ["consecutive"], marks))


def _differ_by_one(pair: tuple[int, int]) -> bool:
    return Consecutive(pair).holds(SOLUTION)


def test_a_claimed_solution_tells_what_was_meant() -> None:
    drawn = make_puzzle("classic", FOUR, clues=[*GIVENS, Thermometer((2, 6))], solution=SOLUTION)
    found = diagnose(drawn, seconds=5)
    assert found.mends[0].changes == (RuleChange(Thermometer((2, 6)), Thermometer((6, 2))),)


def test_the_last_step_of_a_conflict_keeps_its_reason() -> None:
    found = diagnose(with_clues(Renban((1, 5, 10)), Renban((10, 13))), seconds=5)
    (conflict,) = [finding for finding in found.findings if finding.code == "conflict"]
    assert conflict.facts["steps"][-1] == (
        "In column 2, 4 has to be in r1c2, r2c2, r3c2 or r4c2: no digit is left for r3c3."
    )

"""A sign between two neighbours, from the file to the picture: each part with an example and a near miss."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from tests.rules.shapes import solved_by
from verifier.counting.count import count_solutions
from verifier.diagnosis.diagnose import diagnose
from verifier.diagnosis.report import in_words
from verifier.files.reading import read_text
from verifier.files.writing import write_puzzle
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import turned_key
from verifier.pages.drawing.figure import rule_lines
from verifier.pages.drawing.svg import Picture, drawing
from verifier.puzzle.checking.claim import solution_check
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.marks.greater import Greater
from verifier.recount.recount import recount_solutions
from verifier.verdict.judge import judge

FOUR = Grid.square(4)
SIGNS = [Greater(pair) for pair in [(8, 4), (10, 6), (11, 10), (13, 14)]]
DRAWN = make_puzzle("classic", FOUR, clues=SIGNS)
"""Four signs, no given, one solution."""


def read(text: str) -> Puzzle | None:
    (entry,) = read_text(text.encode(), "box.yaml")
    return entry.puzzle and replace(entry.puzzle, credits=DRAWN.credits)


def test_the_first_cell_is_the_greater_one() -> None:
    assert Greater((0, 1)).holds((2, 1))
    assert not Greater((0, 1)).holds((1, 2))
    assert not Greater((0, 1)).holds((2, 2))


def test_its_name_and_its_record() -> None:
    sign = Greater((1, 0))
    assert sign.called(FOUR) == "the sign that r1c2 is greater than r1c1"
    assert sign.record(FOUR) == {"greater": "r1c2 r1c1"}


def test_a_complement_turns_it_round_and_other_names_of_digits_bar_it() -> None:
    assert Greater((0, 1)).relabelled((0, 4, 3, 2, 1)) == Greater((1, 0))
    assert Greater((0, 1)).relabelled((0, 1, 2, 3, 4)) == Greater((0, 1))
    assert Greater((0, 1)).relabelled((0, 2, 1, 3, 4)) is None


@pytest.mark.parametrize("cells", ["r1c2 r1c1", "[r1c2, r1c1]"])
def test_a_file_names_the_greater_cell_first(cells: str) -> None:
    puzzle = read(f"puzzle: classic\ngrid: 4x4\nclues:\n  - {{greater: {cells}}}\n")
    assert puzzle == make_puzzle("classic", FOUR, clues=[Greater((1, 0))])


def test_what_is_written_reads_back_equal() -> None:
    assert "clues:\n  - {greater: r3c1 r2c1}\n  - {greater: r3c3 r2c3}\n" in write_puzzle(DRAWN)
    assert read(write_puzzle(DRAWN)) == DRAWN


@pytest.mark.parametrize(("size", "wanted"), [(4, 5), (5, 16), (6, 61), (7, 272), (8, 1385)])
def test_signs_in_turn_along_a_row_leave_the_up_down_permutations(size: int, wanted: int) -> None:
    """Euler's zigzag numbers (OEIS A000111)."""
    row = Grid(1, size, 0, 0, size)
    signs = [Greater((a, b) if a % 2 else (b, a)) for a, b in pairwise(range(size))]
    puzzle = solved_by(make_puzzle("classic", row, houses=(House("row", 1, tuple(range(size))),)), *signs)
    assert count_solutions(puzzle, 2000).count == recount_solutions(puzzle, 2000).count == wanted


def test_a_ring_of_signs_has_no_solution() -> None:
    ring = [Greater(pair) for pair in [(0, 1), (1, 5), (5, 4), (4, 0)]]
    verdict = judge(make_puzzle("classic", FOUR, clues=ring))
    assert verdict.solutions.count == 0
    assert "no filling obeys every house, clue and given" in verdict.reasons[0].says
    open_ring = judge(make_puzzle("classic", FOUR, clues=[*ring[:3], Greater((0, 4))]))
    assert open_ring.solutions.count == 2


def test_a_verdict_names_it_and_two_witnesses_agree() -> None:
    verdict = judge(DRAWN)
    assert (verdict.solutions.count, verdict.solutions.complete) == (1, True)
    assert verdict.puzzle.rules == ("greater",)
    assert [witness.says for witness in verdict.witnesses] == [1, 1]


def test_a_claimed_solution_that_breaks_it_is_told_where() -> None:
    claim = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    check = solution_check(make_puzzle("classic", FOUR, clues=[Greater((0, 1))], solution=claim))
    assert check is not None
    assert "r1c1 has 1 and r1c2 has 2, but the sign between them says that r1c1 is greater" in check.says
    kept = solution_check(make_puzzle("classic", FOUR, clues=[Greater((1, 0))], solution=claim))
    assert kept is not None
    assert kept.passed


def test_a_sign_that_points_the_wrong_way_is_turned_by_mend() -> None:
    right, wrong = SIGNS[0], Greater(SIGNS[0].cells[::-1])
    found = diagnose(DRAWN.changed([right], [wrong, Given(4, 1), Given(8, 2)]))
    assert "the sign that r2c1 is greater than r3c1" in in_words(found)
    changes = [change for mend in found.mends for change in mend.changes]
    assert any(wrong in change.gone and right in change.come for change in changes)


def test_puzzles_are_alike_when_turned_and_not_when_a_sign_is() -> None:
    turned = DRAWN.moved(FOUR, range(15, -1, -1), (0, 4, 3, 2, 1))
    other = DRAWN.changed(SIGNS[:1], [Greater(SIGNS[0].cells[::-1])])
    assert turned is not None
    for key in (turned_key, structure_key):
        assert key(turned) == key(DRAWN)
        assert key(other) != key(DRAWN)


def test_its_angle_is_open_towards_the_greater_cell() -> None:
    def points(sign: Greater) -> tuple[tuple[float, float], ...]:
        (line,) = rule_lines(make_puzzle("classic", FOUR, clues=[sign]))
        return line.points

    assert points(Greater((0, 1))) == ((54, 38.4), (66, 30), (54, 21.6))  # >
    assert points(Greater((1, 0))) == ((66, 21.6), (54, 30), (66, 38.4))  # <
    assert points(Greater((0, 4)))[1] == (30, 66)  # the tip points down, to the smaller one
    assert 'class="angle"' in drawing(Picture(DRAWN), "signs")


def test_signs_keep_credits_and_claim() -> None:
    assert replace(DRAWN, solution=(1,) * 16).rules == DRAWN.rules

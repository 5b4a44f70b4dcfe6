"""Marks, lines and edge clues: each technique with all that it tells, and a near miss that tells nothing."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from grader.board.board import Board, board_from_text
from grader.ladder import TECHNIQUES
from grader.words.narrate import tell, where_to_look
from verifier.puzzle.rules.cage import Cage
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
from verifier.puzzle.rules.marks.parity import Even, Odd
from verifier.puzzle.rules.marks.quadruple import Quadruple
from verifier.puzzle.rules.marks.ratio import Ratio
from verifier.puzzle.rules.rule import Rule

ROW = tuple(range(9))
SIX = tuple(range(6))
BLOCK = (0, 1, 9, 10)


class Case(NamedTuple):
    """A technique on a board with clues; `near` differs from it so little that nothing is found."""

    technique: str
    clues: tuple[Rule, ...]
    board: str
    near: str
    says: tuple[str, ...]
    size: int = 9

    def told(self, text: str) -> tuple[str, ...]:
        board = self.drawn(text)
        found = TECHNIQUES[self.technique].find(board)
        return tuple(tell(step, board.layout, board) for step in found)

    def drawn(self, text: str) -> Board:
        return board_from_text(text, size=self.size, clues=self.clues)


CASES = (
    Case(
        "last-cell-of-clue",
        (Arrow((0,), (1, 2)),),
        "9 2 4567",
        "9 2 456",
        ("r1c3 is the last empty cell of the arrow from r1c1 to r1c3: r1c3 is 7.",),
    ),
    Case(
        "mirrored-digit",
        (Palindrome((0, 1, 2)),),
        "7 . 1357",
        "7? . 1357",
        ("r1c3 mirrors r1c1 on the palindrome from r1c1 to r1c3: r1c3 is 7.",),
    ),
    Case(
        "even-and-odd",
        (Even((0,)), Odd((1,))),
        "124 2345",
        "24 35",
        ("r1c1 is marked as even: 1 goes from r1c1.", "r1c2 is marked as odd: 2 and 4 go from r1c2."),
    ),
    Case(
        "never-fits",
        (Whisper((0, 1), 5),),
        "56 123",
        "6 123",
        ("No digit fits beside 5 by the whisper from r1c1 to r1c2: 5 goes from r1c1.",),
    ),
    Case(
        "rising-bounds",
        (Thermometer((0, 1, 2)),),
        "5 68 68",
        "5 67 78",
        (
            "r1c2 is one cell further down than r1c3, which is at most 8, so r1c2 is at most 7: 8 "
            "goes from r1c2.",
            "r1c3 is one cell further up than r1c2, which is at least 6, so r1c3 is at least 7: 6 "
            "goes from r1c3.",
        ),
    ),
    Case(
        "rising-bounds",
        (Thermometer((0, 1, 2)),),
        "12 234 234",
        "12 23 34",
        (
            "Two cells rise from r1c2, so it is at most 3: 4 goes from r1c2.",
            "Three cells rise to r1c3, so it is at least 3: 2 goes from r1c3.",
        ),
        4,
    ),
    Case(
        "enclosed-bounds",
        (Between((0, 1, 2)),),
        "34 1345 567",
        "34 45 567",
        ("r1c2 lies between r1c1 and r1c3, which are both at least 3: 1 and 3 go from r1c2.",),
    ),
    Case(
        "enclosed-bounds",
        (Between((0, 1, 2)),),
        "19 129 19",
        "19 2 19",
        (
            "r1c2 lies between r1c1 and r1c3, and one of them is smaller: 1 goes from r1c2.",
            "r1c2 lies between r1c1 and r1c3, and one of them is greater: 9 goes from r1c2.",
        ),
    ),
    Case(
        "enclosing-ends",
        (Between((0, 1, 2, 3)),),
        "258 34 67 89",
        "2 34 67 89",
        (
            "5 in r1c1 would be neither smaller nor greater than all of r1c2 and r1c3: 5 goes from r1c1.",
            "r1c4 cannot be the smaller end of the line between r1c1 and r1c4, so r1c1 is: 8 goes from r1c1.",
        ),
    ),
    Case(
        "enclosing-ends",
        (Between((0, 1, 2, 3)),),
        "12 34 34 45",
        "12 34 34 5",
        ("4 in r1c4 would leave r1c2 and r1c3 too few digits between the ends: 4 goes from r1c4.",),
    ),
    Case(
        "low-and-high",
        (Whisper((0, 1, 2), 5),),
        "1289 67 1289",
        "1289 46 1289",
        (
            "r1c2 is high, and low and high take turns on the whisper from r1c1 to r1c3: "
            "8 and 9 go from r1c1 and r1c3.",
        ),
    ),
    Case(
        "mirrored-candidates",
        (Palindrome((0, 1, 2)),),
        "35 . 345",
        "35 . 35",
        ("r1c3 mirrors r1c1 on the palindrome from r1c1 to r1c3, where there is no 4: 4 goes from r1c3.",),
    ),
    Case(
        "seen-heights",
        (Skyscraper(ROW, 4),),
        "67 78" + " 1" * 7,
        "6 7" + " 1" * 7,
        (
            "The skyscraper clue 4 at the left of row 1 sees 3 more behind r1c1, all of them higher: "
            "7 goes from r1c1.",
            "With one cell before r1c2, the skyscraper clue 4 at the left of row 1 sees enough "
            "only if it is at "
            "most 7: 8 goes from r1c2.",
        ),
    ),
    Case(
        "seen-heights",
        (Skyscraper(ROW, 1),),
        "89" + " 1" * 8,
        "9" + " 1" * 8,
        ("The skyscraper clue 1 at the left of row 1 sees only one, so the first is 9: 8 goes from r1c1.",),
    ),
    Case(
        "block-cells",
        (Quadruple(BLOCK, (1, 4, 9)),),
        "2 1345\n149 149",
        "2 149\n149 149",
        (
            "The quadruple of 1, 4 and 9 in r1c1, r1c2, r2c1 and r2c2 still needs 1, 4 and 9 in "
            "its three empty "
            "cells: 3 and 5 go from r1c2.",
        ),
    ),
    Case(
        "block-cells",
        (Quadruple(BLOCK, (1,)),),
        "23 145\n23 23",
        "23 145\n23 123",
        ("The quadruple of 1 in r1c1, r1c2, r2c1 and r2c2 has 1 only in r1c2: 4 and 5 go from r1c2.",),
    ),
    Case(
        "certain-in-block",
        (Quadruple(BLOCK, (5,)),),
        "135 357 2345 1 1 1 1 1 1\n123 789 1\n1 1 1",
        "135 357 234 1 1 1 1 1 1\n123 789 1\n1 1 1",
        ("The quadruple of 5 in r1c1, r1c2, r2c1 and r2c2 has its 5 in r1c1 or r1c2: 5 goes from r1c3.",),
    ),
    Case(
        "windows",
        (Renban((0, 1, 2)),),
        "8? 456789 6789",
        "8? 6789 6789",
        ("A renban of three with 8 in it can only be 678 or 789: 4 and 5 go from r1c2.",),
    ),
    Case(
        "certain-in-windows",
        (Renban((0, 1, 2)),),
        "1234 1234 1234 24",
        "1234 1234 1234 14",
        ("The renban from r1c1 to r1c3 has 2 in any case, in r1c1, r1c2 or r1c3: 2 goes from r1c4.",),
        4,
    ),
    Case(
        "certain-in-windows",
        (Renban((0, 1, 2)),),
        "14 3 124 1",
        "14 3 2 1",
        ("The renban from r1c1 to r1c3 has 2 in any case, and only r1c3 can take it: 1 and 4 go from r1c3.",),
        4,
    ),
    Case(
        "arrow-circle",
        (Arrow((0,), (1, 2)),),
        "56789 123 45",
        "5678 123 45",
        ("r1c2 and r1c3 make at most 8, so the circle is no more: 9 goes from r1c1.",),
    ),
    Case(
        "arrow-circle",
        (Arrow((0, 1), (9, 10, 11)),),
        "12 1234\n89 89 57",
        "2 34\n89 89 57",
        (
            "r2c1, r2c2 and r2c3 make at least 22, so the circle is no less: 1 goes from r1c1.",
            "r2c1, r2c2 and r2c3 make at least 22, so the circle is no less: 1 and 2 go from r1c2.",
        ),
    ),
    Case(
        "circle-digits",
        (Arrow((0, 1), (9, 10, 11)),),
        "12 2345678\n12 89 89",
        "2 2345678\n12 89 89",
        (
            "With 1 in r1c1, r2c1, r2c2 and r2c3 would make at least 19, and the circle at most 18: "
            "1 goes from r1c1.",
        ),
    ),
    Case(
        "arrow-line",
        (Arrow((0,), (1, 2)),),
        "678 2356 34",
        "678 35 34",
        ("The circle in r1c1 is at most 8, and the rest of its line makes at least 3: 6 goes from r1c2.",),
    ),
    Case(
        "diagonal-bounds",
        (LittleKiller((2, 10, 18), 10),),
        ". . 3456\n. 23\n23",
        ". . 5\n. 23\n23",
        (
            "The other cells of the little killer 10 from r1c3 to r3c1 make at least 5, so r1c3 is "
            "at most 5: "
            "6 goes from r1c3.",
            "The other cells of the little killer 10 from r1c3 to r3c1 make at most 5, so r1c3 is "
            "at least 5: "
            "3 and 4 go from r1c3.",
        ),
    ),
    Case(
        "equal-part-bounds",
        (RegionSum(((0, 1), (3,))),),
        "123456 12 . 345",
        "1234 12 . 345",
        (
            "The part of the region sum line from r1c1 to r1c4 with r1c1 makes as much as r1c4, at most 5, "
            "and at least 1 without r1c1: 5 and 6 go from r1c1.",
        ),
    ),
    Case(
        "equal-part-totals",
        (RegionSum(((0, 1), (3,))),),
        "1234 34 . 45",
        "12 34 . 45",
        (
            "The parts of the region sum line from r1c1 to r1c4 can only make 4 or 5 in common: 3 "
            "and 4 go from r1c1.",
        ),
    ),
    Case(
        "sandwich-ends",
        (Sandwich((0, 1, 2, 3), 5),),
        "123 123 234 234",
        "124 23 23 134",
        ("The sandwich 5 of row 1 needs two cells between 1 and 4: 1 goes from r1c2 and 4 goes from r1c3.",),
        4,
    ),
    Case(
        "sandwich-filling",
        (Sandwich(SIX, 5),),
        "45 16 234 23 16 45",
        "45 16 23 23 16 45",
        (
            "1 and 6 of the sandwich 5 of row 1 can only be r1c2 and r1c5, with 23 between them: 4 "
            "goes from r1c3.",
        ),
        6,
    ),
    Case(
        "sandwich-filling",
        (Sandwich((0, 1, 2, 3), 2),),
        "124 23 14 134",
        "14 2 14 3",
        (
            "1 and 4 of the sandwich 2 of row 1 can only be r1c1 and r1c3, with 2 between them: "
            "only 1 and 4 stay in r1c1, only 2 stays in r1c2 and only 3 stays in r1c4.",
        ),
        4,
    ),
    Case(
        "too-few-partners",
        (Ratio((0, 1), 2), Ratio((1, 2), 2)),
        "124 12 24",
        "124 2 24",
        ("1 in r1c2 would leave only 2 for r1c1 and r1c3, and they see each other: 1 goes from r1c2.",),
    ),
    Case(
        "mark-chain",
        (Consecutive((0, 1)), Consecutive((1, 2))),
        "12 23 345",
        "12 23 34",
        ("Going along the marks from r1c1 to r1c3, 5 never stands in r1c3.",),
    ),
    Case(
        "highest-places",
        (Skyscraper((0, 1, 2, 3), 2),),
        "23 1 34 234",
        "3 1 4 2",
        (
            "For the skyscraper clue 2 at the left of row 1 to see 2, 4 has to be in r1c3: "
            "3 goes from r1c3 and 4 goes from r1c4.",
        ),
        4,
    ),
    Case(
        "low-and-high-in-house",
        (Whisper((0, 4, 1), 2),),
        "1234 1234 12 1234",
        "1234 1234 123 1234",
        (
            "With r1c1 and r1c2 low, row 1 would have three low digits, and there are two: "
            "only 3 and 4 stay in r1c1 and r1c2 and only 1 and 2 stay in r2c1.",
        ),
        4,
    ),
    Case(
        "few-clue-ways",
        (Renban((0, 1, 2)),),
        "123 2 134 24",
        "13 2 134 24",
        ("By the renban from r1c1 to r1c3, r1c1 and r1c3 can only be 1-3, 3-1 or 3-4: 2 goes from r1c1.",),
        4,
    ),
    Case(
        "few-clue-ways",
        (Arrow((0,), (1, 2, 8)),),
        "4 12 12 13\n23 34 34 34\n1? 234 234 234\n234 234 234 234",
        "4 12 12 3?\n23 34 34 34\n1? 234 234 234\n234 234 234 234",
        (
            "By the arrow from r1c1 to r3c1, r1c2 and r1c3 can only be 1-2 or 2-1, each time with 1 in "
            "r1c2 or r1c3: 1 goes from r1c4.",
        ),
        4,
    ),
    Case(
        "clue-conflicts",
        (Renban((0, 1, 2)),),
        "45 36 57 67",
        "45 36 57 678",
        (
            "With 5 in r1c1, r1c2 and r1c3 could only be 6-7 by the renban from r1c1 to r1c3, and that would "
            "leave nothing for r1c4: 5 goes from r1c1.",
            "With 7 in r1c3, r1c1 and r1c2 could only be 5-6 by the renban from r1c1 to r1c3, and that would "
            "leave nothing for r1c4: 7 goes from r1c3.",
        ),
    ),
    Case(
        "clue-arrangements",
        (Skyscraper((0, 1, 2, 3), 2),),
        "2 13 134 134",
        "2 1 4 3",
        (
            "Going through all ways to fill the skyscraper clue 2 at the left of row 1, 3 never "
            "stands in r1c2, "
            "1 and 3 never stand in r1c3 and 1 and 4 never stand in r1c4.",
        ),
        4,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.technique)
def test_it_is_told_with_its_reason(case: Case) -> None:
    assert case.told(case.board) == case.says


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.technique)
def test_a_near_miss_tells_nothing(case: Case) -> None:
    assert case.told(case.near) == ()


def test_one_is_told_to_look_at_the_clue() -> None:
    case = CASES[0]
    board = case.drawn(case.board)
    (step,) = TECHNIQUES[case.technique].find(board)
    assert where_to_look(step, board.layout) == "Look at the arrow from r1c1 to r1c3."


PARTS = RegionSum(((0, 1), (3, 4)))
"""Two parts of a line, two cells each."""


def test_a_cage_within_a_part_makes_its_total() -> None:
    board = board_from_text(". . . 1245 .", [Cage((0, 1), 6)], clues=[PARTS])
    (step,) = TECHNIQUES["equal-part-bounds"].find(board)
    assert tell(step, board.layout) == (
        "The part of the region sum line from r1c1 to r1c5 with r1c5 makes as much as r1c1 and r1c2, at most "
        "6, and at least 1 without r1c5: 6, 7, 8 and 9 go from r1c5."
    )
    assert board.layout.cage_numbers.start in step.rules


def test_a_cage_that_a_part_does_not_hold_whole_says_nothing() -> None:
    board = board_from_text(". . . 1245 .", [Cage((0, 1, 2), 6)], clues=[PARTS])
    assert not list(TECHNIQUES["equal-part-bounds"].find(board))


def test_a_part_that_a_cage_fills_leaves_one_total() -> None:
    board = board_from_text("15 15 . 24 245", [Cage((0, 1), 6)], clues=[PARTS])
    (step,) = TECHNIQUES["equal-part-totals"].find(board)
    assert tell(step, board.layout) == (
        "The parts of the region sum line from r1c1 to r1c5 can only make 6 in common: 5 goes from r1c5."
    )

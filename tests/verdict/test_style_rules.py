"""Each rule of a house style: a puzzle that keeps it, and one that a setter gets back, with the sentence."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grader.grading.grade import grade
from grader.grading.replay import replay
from tests.evidence.stand_ins import NONE, ONE, codes, says
from verifier.puzzle.checking.arithmetic import Check
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.verdict import hardness
from verifier.verdict.judge import judge
from verifier.verdict.style.checks import STYLE_CODES, style_checks
from verifier.verdict.style.style import PLAIN, HouseStyle
from verifier.verdict.verdict import Difficulty

CLASSIC = make_puzzle("classic", Grid.square(4), givens={0: 1, 3: 4, 12: 4, 15: 1})

DIAGONAL = make_puzzle(
    "classic", Grid.square(4), houses=(*Grid.square(4).houses, *Grid.square(4).diagonals[:1])
)

ASKING_ALL = HouseStyle(
    "Harbour Page",
    kinds=("killer",),
    grids=("4x4",),
    rules=("none",),
    rules_not_accepted=("sandwich",),
    tiers=(1, 2, 3, 4, 5, 6),
    techniques_not_accepted=("trial", "jellyfish"),
    smallest_cage=2,
    largest_cage=3,
    cages_in_one_piece=True,
    fewest_givens=0,
    most_givens=0,
    symmetry=("half-turn",),
    credits=("title", "setter"),
)
"""`ONE` keeps all of these."""


def difficulty(puzzle: Puzzle) -> Difficulty | None:
    found = hardness.graded(replay(puzzle), PLAIN)
    return found and found.difficulty


def only(style: HouseStyle, puzzle: Puzzle, *, graded: bool = False) -> Check:
    """Return the one check that a style with one rule makes."""
    (check,) = style_checks(style, puzzle, difficulty(puzzle) if graded else None)
    return check


def test_the_plain_style_asks_for_nothing() -> None:
    assert list(style_checks(PLAIN, ONE, difficulty(ONE))) == []


def test_a_puzzle_that_keeps_every_rule_is_accepted() -> None:
    verdict = judge(ONE, ASKING_ALL)
    assert codes(verdict) == ["accepted"]
    assert [c.code for c in verdict.checks if c.code in STYLE_CODES] == [
        code for code in STYLE_CODES if code != "style-uncovered"
    ]


@pytest.mark.parametrize(
    ("puzzle", "style", "code", "says"),
    [
        (
            CLASSIC,
            {"kinds": ("killer",)},
            "style-kind",
            "takes only killer puzzles; this one is a classic.",
        ),
        (ONE, {"grids": ("6x6", "9x9")}, "style-grid", "takes only grids of 6x6 and 9x9; this grid is 4x4."),
        (
            ONE,
            {"smallest_cage": 3},
            "style-cage-size",
            "asks for at least 3 cells in each cage; the cage of 3 in r1c1 and r1c2 has 2, the cage of 6 in "
            "r1c4 and r2c4 has 2, the cage of 4 in r3c2 and r4c2 has 2 and the cage of 3 in r4c3 and r4c4 "
            "has 2. Join or divide the cages.",
        ),
        (
            make_puzzle("killer", Grid.square(4), cages=[Cage((0, 5), 4), Cage((1, 2), 3)]),
            {"cages_in_one_piece": True},
            "style-cage-in-pieces",
            "asks for cages in one piece, edge to edge; the cage of 4 in r1c1 and r2c2 lies in pieces. "
            "Redraw the cages.",
        ),
        (
            make_puzzle("killer", Grid.square(4), cages=[Cage(tuple(range(2, 16)), 38)]),
            {"cages_cover_the_grid": True},
            "style-uncovered",
            "asks for cages that cover the grid; no cage holds r1c1 and r1c2. Draw cages there.",
        ),
        (
            DIAGONAL,
            {"rules": ("thermometer", "extra_houses")},
            "style-rule",
            "takes no further rules but thermometer and extra houses; this one has diagonals. Take that out, "
            "or send the puzzle elsewhere.",
        ),
        (
            DIAGONAL,
            {"rules": ("none",)},
            "style-rule",
            "takes no rules beyond those of classics and killers; this one has diagonals. Take that out, or "
            "send the puzzle elsewhere.",
        ),
        (
            DIAGONAL,
            {"rules_not_accepted": ("diagonals", "even")},
            "style-rule",
            "takes no puzzle with diagonals or even; this one has diagonals. Take that out, or send the "
            "puzzle elsewhere.",
        ),
        (CLASSIC, {"fewest_givens": 5}, "style-givens", "asks for at least 5 givens; this puzzle has 4."),
        (CLASSIC, {"most_givens": 3}, "style-givens", "asks for at most 3 givens; this puzzle has 4."),
        (
            make_puzzle("classic", Grid.square(4), givens={0: 1, 15: 2, 1: 3}),
            {"symmetry": ("half-turn", "left-right")},
            "style-symmetry",
            "asks for givens in half-turn or left-right symmetry; for half-turn symmetry r1c2 holds a given "
            "and r4c3 does not. Add or take away givens in pairs.",
        ),
        (
            CLASSIC,
            {"credits": ("title", "setter")},
            "style-credits",
            "asks for a title and a setter; the file has no title and no setter. Add the lines 'title:' and "
            "'setter:'.",
        ),
    ],
)
def test_a_puzzle_against_a_rule_gets_a_sentence_for_its_setter(
    puzzle: Puzzle, style: dict[str, object], code: str, says: str
) -> None:
    check = only(replace(HouseStyle("Harbour Page"), **style), puzzle)  # type: ignore[arg-type]
    assert (check.code, check.passed) == (code, False)
    assert check.says == f"House style Harbour Page: {says}"


def test_a_tier_that_is_not_accepted_is_named_with_the_hardest_technique() -> None:
    check = only(HouseStyle("Harbour Page", tiers=(6,)), ONE, graded=True)
    assert check.code == "style-tier"
    assert "takes only tier 6; this puzzle is tier" in check.says
    assert "the hardest technique it needs is" in check.says


HARDER = make_puzzle(
    "killer",
    Grid.square(4),
    cages=[Cage((6, 7, 10), 7), Cage((13, 14), 5), Cage((1, 4, 5), 9), Cage((8, 9, 12), 7)],
)


def test_a_puzzle_beyond_the_tiers_is_worked_through_no_further_where_the_house_says_so() -> None:
    whole = judge(HARDER)
    assert whole.difficulty is not None
    assert whole.difficulty.tier == 2
    short = judge(HARDER, HouseStyle("Harbour Page", tiers=(1,), stop_beyond_tiers=True))
    assert codes(short) == ["rejected", "style-tier"]
    assert short.reasons[0].says == (
        "House style Harbour Page: takes only tier 1; this puzzle needs more than tier 1; it was worked "
        "through no further."
    )
    assert says(short) == {"cp-sat": 1, "clingo": 1}
    assert short.difficulty is not None
    assert (short.difficulty.tier, short.difficulty.solved_by_logic, short.difficulty.beyond) == (
        None,
        None,
        1,
    )


def test_a_puzzle_within_the_tiers_gets_the_grade_that_the_whole_ladder_gives() -> None:
    style = HouseStyle("Harbour Page", tiers=(2,))
    assert judge(HARDER, replace(style, stop_beyond_tiers=True)).difficulty == judge(HARDER, style).difficulty


def test_a_technique_that_is_not_accepted_is_named_with_its_steps() -> None:
    check = only(HouseStyle("Harbour Page", techniques_not_accepted=("hidden-single-box",)), ONE, graded=True)
    assert (check.code, check.passed) == ("style-technique", False)
    assert "this puzzle needs hidden-single-box (" in check.says


def test_rules_about_tiers_and_techniques_are_no_question_for_a_broken_puzzle() -> None:
    verdict = judge(NONE, HouseStyle("Harbour Page", tiers=(1,), techniques_not_accepted=("trial",)))
    assert codes(verdict) == ["rejected", "no-solution"]


def test_a_puzzle_against_the_house_style_is_rejected_but_counted_and_graded() -> None:
    verdict = judge(ONE, HouseStyle("Harbour Page", most_givens=0, largest_cage=1))
    assert codes(verdict) == ["rejected", "style-cage-size"]
    assert verdict.solutions.count == 1
    assert verdict.difficulty is not None


def test_every_rule_that_is_broken_is_a_reason() -> None:
    verdict = judge(NONE, HouseStyle("Harbour Page", credits=("title",), kinds=("classic",)))
    assert codes(verdict) == ["rejected", "no-solution", "style-kind", "style-credits"]


def test_a_house_style_can_name_the_tiers() -> None:
    tier = grade(replay(ONE)).tier
    difficulty = judge(ONE, HouseStyle("Harbour Page", tier_names=((tier, "slack water"),))).difficulty
    assert difficulty is not None
    assert difficulty.name == "slack water"


def test_cages_of_a_classic_are_no_question() -> None:
    style = HouseStyle("Harbour Page", smallest_cage=2, cages_in_one_piece=True, cages_cover_the_grid=True)
    assert list(style_checks(style, CLASSIC, None)) == []


def test_a_cage_across_the_edge_of_the_grid_is_in_pieces() -> None:
    """r1c4 and r2c1 follow one another in reading order, and do not touch."""
    puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((3, 4), 3)])
    assert not only(HouseStyle("Harbour Page", cages_in_one_piece=True), puzzle).passed


def test_many_faulty_cages_are_counted_not_all_named() -> None:
    grid = Grid.square(9)
    cages = [Cage((row * 9 + column,), 1) for row in range(3) for column in range(9)]
    check = only(HouseStyle("Harbour Page", smallest_cage=2), make_puzzle("killer", grid, cages=cages))
    assert "and 22 more" in check.says

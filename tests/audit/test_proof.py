"""The prover against plain enumeration: every way to fill the cells that the premises speak of."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.reference import load, puzzle_of, solution_of
from verifier.audit.premises import Claim, Premises
from verifier.audit.proof import Answer, prove
from verifier.puzzle.grid import Grid
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum

GRID = Grid.square(4)
ROW = House("row", 1, (0, 1, 2, 3))
CELLS = range(5)  # row 1, and the cell below its first


def by_enumeration(premises: Premises, claims: list[Claim]) -> Answer:
    """The answer, found by trying every filling of the five cells."""
    looks = dict(premises.looks)
    for digits in product(*(looks.get(cell, (1, 2, 3, 4)) for cell in CELLS)):
        fits = all(rule.holds(digits) for rule in premises.rules)
        if fits and any((digits[cell] == digit) is not stands for cell, digit, stands in claims):
            return Answer.REFUTED
    return Answer.PROVED


cells = st.sampled_from(CELLS)
groups = st.lists(cells, min_size=1, max_size=3, unique=True).map(lambda found: tuple(sorted(found)))
open_digits = st.sets(st.integers(1, 4), min_size=1).map(lambda found: tuple(sorted(found)))


@st.composite
def premises(draw: st.DrawFn) -> Premises:
    sums = st.dictionaries(cells, st.sampled_from([1, -1, 2]), min_size=1, max_size=3)
    return Premises(
        digits=4,
        rules=(
            *((ROW,) if draw(st.booleans()) else ()),
            *(Cage(draw(groups), draw(st.integers(1, 9))) for _ in range(draw(st.integers(0, 2)))),
            *(
                LinearSum(tuple(sorted(draw(sums).items())), draw(st.integers(-2, 8)))
                for _ in range(draw(st.integers(0, 1)))
            ),
        ),
        looks=tuple(sorted(draw(st.dictionaries(cells, open_digits)).items())),
    )


claims = st.lists(st.tuples(cells, st.integers(1, 4), st.booleans()), min_size=1, max_size=2)


@settings(max_examples=300, deadline=None)
@given(premises(), claims)
def test_the_prover_says_what_enumeration_says(told: Premises, claimed: list[Claim]) -> None:
    assert prove(told, claimed) is by_enumeration(told, claimed)


def test_a_step_that_claims_nothing_is_refuted() -> None:
    assert prove(Premises(4, (ROW,), ()), []) is Answer.REFUTED


def test_all_claims_must_follow_not_only_one_of_them() -> None:
    told = Premises(4, (), ((0, (1,)),))
    assert prove(told, [(0, 1, True)]) is Answer.PROVED
    assert prove(told, [(0, 1, True), (1, 1, True)]) is Answer.REFUTED


def test_a_digit_that_is_not_open_cannot_be_placed() -> None:
    assert prove(Premises(4, (), ((0, (1, 2)),)), [(0, 3, True)]) is Answer.REFUTED


@pytest.mark.reference
def test_a_question_that_needs_more_work_than_allowed_stays_open() -> None:
    record = load("classic_hard")[1]
    puzzle, solution = puzzle_of(record), solution_of(record)
    assert solution is not None
    empty = next(cell for cell in range(81) if cell not in dict(puzzle.givens))
    told = Premises(9, puzzle.houses, tuple((cell, (digit,)) for cell, digit in puzzle.givens))
    assert prove(told, [(empty, solution[empty], True)], work=1e-4) is Answer.OPEN
    assert prove(told, [(empty, solution[empty], True)]) is Answer.PROVED


@pytest.mark.parametrize("total", [44, 45])
def test_a_cage_as_large_as_a_house_makes_the_house_total(total: int) -> None:
    cage = Cage(tuple(range(9)), total)
    expected = Answer.PROVED if total == 44 else Answer.REFUTED  # from what cannot be, anything follows
    assert prove(Premises(9, (cage,), ()), [(0, 1, True)]) is expected

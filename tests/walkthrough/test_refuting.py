"""What rules a wrong digit out: proved again by the auditor, who shares no model with the count."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest

from grader.walking.walk import walk
from tests.corpus.puzzles import puzzle_at
from verifier.audit.premises import Premises
from verifier.audit.proof import Answer, prove
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule
from verifier.walkthrough.wrong.refuting import MOST_RULES, Disproof, clash_of, refuted

NAMES = ["killers/coopers-yard.yaml", "killers/storm-cone.yaml", "classics/ballast.yaml"]


@cache
def slips(name: str) -> tuple[tuple[Puzzle, dict[int, int], Disproof], ...]:
    """Four grids, filled to a half, each with a wrong digit that no digit in sight rules out."""
    puzzle, rng = puzzle_at(name), Random(12)
    walked = walk(puzzle).shortened()
    assert walked.filling is not None
    placed = [cell for taken in walked.steps for cell, _ in taken.step.places]
    entries = dict(puzzle.givens) | {cell: walked.filling[cell] for cell in placed[: len(placed) // 2]}
    empty = [cell for cell in range(puzzle.grid.cell_count) if cell not in entries]
    open_still = [
        (cell, digit)
        for cell in empty
        for digit in puzzle.grid.all_digits
        if digit != walked.filling[cell] and clash_of(puzzle, entries, cell, digit) is None
    ]
    found = [refuted(puzzle, entries, *slip, WorkAllowance()) for slip in rng.sample(open_still, 4)]
    return tuple((puzzle, entries, each) for each in found if each is not None)


def answer(found: Disproof, rules: tuple[Rule, ...], digits: int) -> Answer:
    """Whether rules, and the digits beside the wrong one, rule it out."""
    looks = tuple((cell, (digit,)) for cell, digit in found.beside)
    return prove(Premises(digits, rules, looks), [(found.cell, found.digit, False)])


@pytest.mark.parametrize("name", NAMES)
def test_what_is_cited_rules_the_digit_out_and_nothing_of_it_can_be_left_out(name: str) -> None:
    assert len(slips(name)) == 4
    for puzzle, entries, found in slips(name):
        assert dict(found.beside).items() <= entries.items()
        assert answer(found, found.rules, puzzle.grid.digits) is Answer.PROVED
        if len(found.rules) <= MOST_RULES:
            for rule in found.rules:
                less = tuple(other for other in found.rules if other is not rule)
                assert answer(found, less, puzzle.grid.digits) is not Answer.PROVED


@pytest.mark.parametrize("name", NAMES)
def test_the_steps_that_show_it_cite_these_rules_alone_and_do_not_place_the_right_digit(name: str) -> None:
    for _, _, found in slips(name):
        for taken in found.steps:
            cited = {taken.board.layout.rules[number] for number in taken.step.rules}
            assert cited <= set(found.rules)
            assert found.contradiction or found.cell not in dict(taken.step.places)


def test_a_right_digit_is_not_refuted() -> None:
    puzzle = puzzle_at("classics/ballast.yaml")
    filling = walk(puzzle).filling
    assert filling is not None
    cell = next(cell for cell in range(81) if cell not in dict(puzzle.givens))
    assert refuted(puzzle, dict(puzzle.givens), cell, filling[cell], WorkAllowance()) is None

"""The grade and the count of a puzzle do not change when it is turned, mirrored, permuted or relabelled.

What makes a puzzle hard does not depend on where on the page a cage lies, nor on the order in which a file
lists it; so every figure of the grade must be the same for all forms of a puzzle.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from grader.grading.grade import grade
from grader.grading.replay import replay
from tests.reference import load, puzzle_of
from tests.symmetries import rearrangements, reordered
from verifier.counting.count import count_solutions
from verifier.files.reading import read_file
from verifier.puzzle.puzzle import Puzzle

CORPUS = Path(__file__).resolve().parents[2] / "corpus"
FORMS = settings(
    max_examples=40, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)


class Figures(NamedTuple):
    """Every figure of a grade, and the technique and width of each round."""

    tier: int
    hardest: str | None
    effort: int
    steps: int
    by_technique: dict[str, int]
    bottleneck_rounds: int
    solved_by_logic: bool
    rounds: list[tuple[str, int]]


@cache
def figures(puzzle: Puzzle) -> Figures:
    played = replay(puzzle)
    found = grade(played)
    return Figures(
        found.tier,
        found.hardest,
        found.effort,
        found.steps,
        dict(found.by_technique),
        found.bottleneck_rounds,
        found.solved_by_logic,
        [(one.technique, one.width) for one in played.rounds],
    )


def sound(*folders: str) -> list[Puzzle]:
    files = [file for folder in folders for file in sorted((CORPUS / folder).iterdir())]
    return [entry.puzzle for file in files for entry in read_file(file) if entry.puzzle is not None]


def generated(solutions: object) -> list[Puzzle]:
    return [puzzle_of(record) for record in load("generated.jsonl") if record["solutions"] == solutions]


def form_of(puzzles: list[Puzzle]) -> st.SearchStrategy[tuple[Puzzle, Puzzle]]:
    """A puzzle and another form of it."""
    return st.sampled_from(puzzles).flatmap(
        lambda puzzle: rearrangements(puzzle).map(lambda form: (puzzle, form.puzzle(puzzle)))
    )


@FORMS
@given(form_of(sound("killers")))
def test_a_killer_of_the_corpus_grades_the_same_in_every_form(pair: tuple[Puzzle, Puzzle]) -> None:
    assert figures(pair[0]) == figures(pair[1])


@FORMS
@given(form_of(sound("classics", "small")))
def test_classics_and_small_puzzles_grade_the_same_in_every_form(pair: tuple[Puzzle, Puzzle]) -> None:
    assert figures(pair[0]) == figures(pair[1])


@pytest.mark.reference
@FORMS
@given(st.data())
def test_a_generated_killer_grades_the_same_in_every_form(data: st.DataObject) -> None:
    puzzle, form = data.draw(form_of(generated(1)))
    assert figures(puzzle) == figures(form)


@FORMS
@given(st.data())
def test_the_order_in_which_cages_are_listed_changes_nothing(data: st.DataObject) -> None:
    puzzle = data.draw(st.sampled_from(sound("killers")))
    assert figures(puzzle) == figures(data.draw(reordered(puzzle)))


@FORMS
@given(st.data())
def test_the_solution_moves_with_the_puzzle(data: st.DataObject) -> None:
    puzzle = data.draw(st.sampled_from(sound("killers", "classics", "small")))
    form = data.draw(rearrangements(puzzle))
    (solution,) = count_solutions(puzzle).solutions
    assert count_solutions(form.puzzle(puzzle)).solutions == (form.filling(solution),)


@pytest.mark.reference
@FORMS
@given(st.data())
def test_the_number_of_solutions_is_the_same_in_every_form(data: st.DataObject) -> None:
    puzzle, form = data.draw(form_of(sound("sent-back") + generated(0) + generated("2+")))
    first, second = count_solutions(puzzle, 200), count_solutions(form, 200)
    assert (first.count, first.complete) == (second.count, second.complete)

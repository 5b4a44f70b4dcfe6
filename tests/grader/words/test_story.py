"""A walk told: nothing is left out, nothing is told twice, and it reads as one would say it."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings

from grader.ladder import LADDER
from grader.walking.stages import STAGES, stages_of
from grader.walking.walk import Walk, walk
from grader.words.phrases import houses_in_words
from grader.words.story import Part
from tests.grader.walks import small_puzzles, some_walks
from tests.snapshots import assert_snapshot
from verifier.files.reading import read_file
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.marks.greater import Greater

CORPUS = Path(__file__).resolve().parents[3] / "corpus"
SNAPSHOTS = Path(__file__).parent / "snapshots"

some_puzzles = settings(max_examples=40, deadline=None)


def told(walked: Walk) -> str:
    return "\n".join(line for part in walked.parts() for line in lines(part))


def lines(part: Part) -> list[str]:
    lead = [f"  {part.lead}"] if part.lead else []
    return [part.title, *lead, *(f"  {each.numbers}: {each.text}" for each in part.paragraphs)]


def from_corpus(name: str) -> Puzzle:
    (entry,) = read_file(CORPUS / name)
    assert entry.puzzle is not None
    return entry.puzzle


@pytest.mark.parametrize("name", ["killers/wash-day", "killers/slack-water", "classics/ballast"])
def test_whole_puzzles_are_told_as_in_the_snapshots(name: str) -> None:
    walked = walk(from_corpus(f"{name}.yaml")).shortened()
    assert_snapshot(SNAPSHOTS / f"story-{Path(name).name}.txt", told(walked) + "\n")


@some_puzzles
@given(small_puzzles())
def test_every_step_is_told_once_and_in_order(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    numbers = [
        number
        for part in walked.parts()
        for each in part.paragraphs
        for number in range(each.first, each.last + 1)
    ]
    assert numbers == list(range(1, len(walked.steps) + 1))


@some_puzzles
@given(small_puzzles())
def test_every_placed_digit_is_named_with_its_cell(puzzle: Puzzle) -> None:
    walked = walk(puzzle)
    for part in walked.parts():
        for each in part.paragraphs:
            for taken in walked.steps[each.first - 1 : each.last]:
                for cell, digit in taken.step.places:
                    assert puzzle.grid.cell_name(cell) in each.text
                    assert str(digit) in each.text


@some_puzzles
@given(small_puzzles())
def test_chapters_follow_one_another_without_a_gap(puzzle: Puzzle) -> None:
    steps = walk(puzzle).steps
    chapters = stages_of(steps)
    assert [taken for chapter in chapters for taken in chapter.steps] == list(steps)
    assert [STAGES.index(chapter.name) for chapter in chapters] == sorted(
        {STAGES.index(chapter.name) for chapter in chapters}
    )


@pytest.mark.reference
def test_in_the_run_in_every_step_places_a_digit() -> None:
    for walked in some_walks():
        last = walked.stages[-1]
        assert last.name == "run-in"
        assert all(taken.step.places for taken in last.steps)


@pytest.mark.reference
def test_the_break_in_begins_with_the_hardest_technique_and_ends_with_a_digit() -> None:
    for walked in some_walks():
        for chapter in walked.stages:
            if chapter.name == "break-in":
                assert chapter.steps[-1].step.places
                assert not chapter.steps[0].step.places


@pytest.mark.reference
def test_no_internal_name_is_ever_said() -> None:
    for walked in some_walks():
        text = told(walked)
        assert "_" not in text
        assert "{" not in text
        assert "None" not in text


def test_a_puzzle_that_gives_way_everywhere_is_told_in_one_chapter() -> None:
    walked = walk(make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}))
    assert [part.title for part in walked.parts()] == ["From beginning to end"]


def test_a_walk_without_a_step_has_no_story() -> None:
    full = dict(enumerate((1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)))
    assert walk(make_puzzle("classic", Grid.square(4), givens=full)).parts() == ()


@pytest.mark.reference
def test_houses_that_follow_one_another_are_told_as_a_span() -> None:
    layout = some_walks()[0].layout
    assert houses_in_words([0, 1, 2, 3], layout) == "rows 1 to 4"
    assert houses_in_words([0, 1, 18, 20], layout) == "rows 1 and 2 and boxes 1 and 3"


def test_what_excludes_a_combination_is_told_once() -> None:
    said = told(walk(from_corpus("killers/sea-fret.yaml")).shortened())
    assert said.count("2+4 falls, for 2 is in column 3") == 1
    assert said.count("The cage of 18 at r1c7 takes 3, 6 and 9") == 2
    assert said.count("all others need 5, 7 or 8") == 1


def test_a_line_that_does_not_come_to_its_end_where_it_is_told_is_told_without_its_digits() -> None:
    """By then, what it writes in stands there already."""
    pairs = [(0, 1), (3, 4), (6, 12), (8, 7), (15, 9), (17, 16), (19, 25), (27, 21), (29, 35), (32, 33)]
    givens = {4: 4, 23: 4, 26: 5, 30: 4, 34: 1}
    puzzle = make_puzzle("classic", Grid.square(6), clues=map(Greater, pairs), givens=givens)
    ladder = [technique for technique in LADDER if technique.id in ENOUGH]
    assert "lead to the same in 3 steps" in told(walk(puzzle, ladder=ladder).shortened())


ENOUGH = {
    *("hidden-single-box", "hidden-single-line", "naked-single", "last-cell-of-house", "sign-bounds"),
    *("locked-candidates", "naked-pair", "almost-locked-pair", "almost-locked-triple"),
    "short-forcing-chain",
}
"""Of the ladder, what one puzzle needs, so that it is walked alike whatever else the ladder has."""

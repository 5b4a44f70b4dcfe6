"""Prospecting finds puzzles of a tier, and puzzles of which a technique is the hardest."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import pytest

from grader.grading.grade import grade
from grader.grading.replay import replay
from scripts.prospect import main
from scripts.setting.broken import with_givens
from scripts.setting.classics import draw_classic
from scripts.setting.easing import eased
from scripts.setting.killers import Draft, draw_killer
from scripts.setting.plain import plain_count
from verifier.puzzle.grid import Grid

FOUR, NINE = Grid.square(4), Grid.square(9)

Lines = Callable[[str], list[str]]


@pytest.fixture
def lines(capsys: pytest.CaptureFixture[str]) -> Lines:
    """What prospecting prints, by its options."""

    def printed(options: str) -> list[str]:
        main(options.split())
        return capsys.readouterr().out.splitlines()

    return printed


def test_it_prints_the_tier_asked_for_alone(lines: Lines) -> None:
    every = lines("--givens 24 --seeds 0-8")
    assert len(every) == 9
    assert lines("--givens 24 --seeds 0-8 --tier 1") == [line for line in every if ": tier 1," in line]


def test_every_puzzle_it_names_has_the_technique_as_its_hardest(lines: Lines) -> None:
    found = lines("--size 4 --sizes 2:2,3:1 --hardest rest-of-house --seeds 0-20")
    assert found
    assert all(", rest-of-house, " in line for line in found)


def test_the_cells_besides_are_no_givens_yet_and_make_the_technique_the_hardest() -> None:
    puzzle, filling = draw_killer(FOUR, Draft(7, {2: 2.0, 3: 1.0}))
    besides = eased(puzzle, filling, "rest-of-house", Random(0))
    assert besides
    assert not set(besides) & dict(puzzle.givens).keys()
    assert grade(replay(puzzle)).hardest != "rest-of-house"
    assert grade(replay(with_givens(puzzle, {c: filling[c] for c in besides}))).hardest == "rest-of-house"


def test_a_puzzle_that_does_without_the_technique_is_passed_over(lines: Lines) -> None:
    assert lines("--size 4 --givens 6 --hardest jellyfish --seeds 0-3") == []


def test_a_technique_that_is_the_hardest_already_needs_no_cells_besides() -> None:
    puzzle, filling = draw_classic(NINE, 115, 20, symmetric=False)
    hardest = grade(replay(puzzle)).hardest
    assert hardest is not None
    assert eased(puzzle, filling, hardest, Random(0)) == []


def test_a_classic_without_symmetry_has_fewer_givens_and_still_one_solution() -> None:
    (lopsided, _), (even, _) = (draw_classic(NINE, 3, 20, symmetric=symmetric) for symmetric in (False, True))
    assert len(lopsided.givens) < len(even.givens)
    assert plain_count(lopsided) == 1


def test_an_unknown_technique_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--hardest", "crystal-ball"])
    assert "crystal-ball" in capsys.readouterr().err

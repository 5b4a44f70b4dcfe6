"""The study of the grades: the killers it draws, and what it says of an outcome."""

from __future__ import annotations

from dataclasses import replace
from io import StringIO

from rich.console import Console

from grader.grading.grade import grade
from grader.grading.replay import replay
from scripts.setting.plain import plain_count
from scripts.study_grades import CAGES, DRAWN, MIXES, Outcome, drawn_killer, measured, tables
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import make_puzzle

EASY = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})


def test_the_same_number_draws_the_same_killer() -> None:
    assert drawn_killer(6) == drawn_killer(6)


def test_a_drawn_killer_has_one_solution_and_as_many_cages_as_is_said() -> None:
    puzzle = drawn_killer(1)
    assert plain_count(puzzle) == 1
    assert len(puzzle.cages) in CAGES


def test_the_mixes_reach_from_few_cages_to_many() -> None:
    assert [len(drawn_killer(number).cages) < 30 for number in (0, len(MIXES) - 1)] == [False, True]


def test_chains_that_assume_a_candidate_count_as_forcing() -> None:
    plain = measured(DRAWN, EASY)
    assuming = replace(plain.grade, by_technique={"forcing-chain": 1})
    assert plain.without_forcing
    assert not replace(plain, grade=assuming).without_forcing


def test_the_tables_show_every_set_that_has_puzzles() -> None:
    seconds = {"textbook count": 0.01, "replay and grade": 0.02}
    outcomes = [Outcome(name, grade(replay(EASY)), seconds) for name in (DRAWN, "classic_17", "classic_17")]
    page = StringIO()
    for table in tables(outcomes):
        Console(width=150, file=page).print(table)
    shown = page.getvalue()
    assert shown.count("classic_17") == 4
    assert "2.00" in shown
    assert "generated" not in shown

"""The study that tries the laws of techniques, on few boards."""

from __future__ import annotations

import pytest

from grader.board.steps import Step
from scripts import study_laws
from scripts.study_laws import tried

NEVER, AT_ONCE = float("inf"), 0.0


def test_every_board_is_tried_and_every_step_counted() -> None:
    tally = tried("1.0", 3, NEVER)
    assert tally.boards == 3
    assert tally.found.total() > 0
    assert (tally.broken.total(), tally.reports) == (0, [])


def test_a_seed_draws_the_same_boards_again() -> None:
    assert tried("1.0", 2, NEVER) == tried("1.0", 2, NEVER) != tried("2.0", 2, NEVER)


def test_nothing_is_tried_once_the_time_is_over() -> None:
    assert tried("1.0", 3, AT_ONCE).boards == 0


def test_a_broken_law_is_told_with_its_seed_its_steps_and_the_board(monkeypatch: pytest.MonkeyPatch) -> None:
    step = Step("x-wing", removes=((0, 2),))
    monkeypatch.setattr(study_laws, "broken", lambda _: {"a_step_keeps_the_solution": [step]})
    tally = tried("1.0", 1, NEVER)
    first, told, board = tally.reports[0].splitlines()
    assert first == "seed 1.0, board 1: not so that a step keeps the solution:"
    assert (told, board[:16]) == (repr(step), "board_from_text(")
    assert tally.broken == {"a_step_keeps_the_solution": 1}


def test_a_technique_that_breaks_down_is_told_like_a_broken_law(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_: object) -> dict[str, list[Step]]:
        raise KeyError("fin")

    monkeypatch.setattr(study_laws, "broken", fails)
    tally = tried("1.0", 2, NEVER)
    assert (tally.boards, tally.broken.total()) == (2, 2)
    assert "come to an end:\nKeyError('fin')\nboard_from_text(" in tally.reports[0]

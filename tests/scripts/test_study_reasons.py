"""What the study of reasons finds fault with: a step without its reason, a difference that nobody needs."""

from __future__ import annotations

from typing import Any

import pytest

from grader.board.board import Board, board_from_text
from scripts.study_reasons import needless, unreasoned
from verifier.puzzle.rules.cage import Cage


def step(technique: str, **said: Any) -> dict[str, Any]:
    because: dict[str, Any] = {
        "houses": [],
        "cages": [],
        "sums": [],
        "rules": [],
        "candidates": {},
        "excluded": [],
    }
    does = {key: said.pop(key, {}) for key in ("places", "removes")}
    return {"technique": technique, **does, "because": because | said}


FOURTEEN = board_from_text(". . 6", [Cage((0, 1), 14)])
CAGE = [{"total": 14, "cells": ["r1c1", "r1c2"]}]
OPEN = {"r1c1": [5, 8, 9], "r1c2": [5, 8, 9]}
SIX = [{"combination": [6, 8], "by": ["r1c3"]}]


@pytest.mark.parametrize(
    ("open_there", "excluded", "found"),
    [
        (OPEN, [], []),  # two cells: the 6 that 8 would need is not open
        ({}, SIX, []),
        ({}, [{"combination": [6, 8], "by": []}], ["8 in r1c1"]),
        ({}, [], ["8 in r1c1"]),
    ],
)
def test_a_digit_goes_with_its_reason_or_is_named(
    open_there: dict[str, list[int]], excluded: list[dict[str, Any]], found: list[str]
) -> None:
    told = step(
        "cage-combinations", removes={"r1c1": [8]}, cages=CAGE, candidates=open_there, excluded=excluded
    )
    assert unreasoned(told, FOURTEEN) == found


def test_what_makes_too_much_needs_no_more() -> None:
    board = board_from_text("", [Cage((0, 1, 2, 3), 26)])
    cage = [{"total": 26, "cells": ["r1c1", "r1c2", "r1c3", "r1c4"]}]
    assert unreasoned(step("cage-combinations", removes={"r1c1": [1]}, cages=cage), board) == []
    assert unreasoned(step("cage-combinations", removes={"r1c1": [3]}, cages=cage), board) == ["3 in r1c1"]


def test_a_supposed_digit_needs_every_case() -> None:
    board = board_from_text("12 12 134", [Cage((0, 1, 2), 6)])
    cage = [{"total": 6, "cells": ["r1c1", "r1c2", "r1c3"]}]
    case = {"with": {"r1c3": 1}, "combination": [2, 3], "by": ["r1c1", "r1c2"]}
    told = {"removes": {"r1c3": [1]}, "cages": cage}
    assert unreasoned(step("cage-arrangements", **told), board) == ["1 in r1c3"]
    assert unreasoned(step("cage-arrangements", **told, excluded=[case]), board) == []


def test_a_step_that_speaks_of_more_than_sums_is_not_judged() -> None:
    assert unreasoned(step("cage-subset", removes={"r1c1": [8]}, cages=CAGE), FOURTEEN) == []


def difference(board: Board, removes: dict[str, list[int]]) -> bool:
    told = [{"cells": {"r1c9": 1, "r2c1": -1}, "total": -2}]
    return needless(step("innie-outie-difference", removes=removes, sums=told), board)


def test_a_difference_is_needless_where_a_cage_does_the_same() -> None:
    cages = [Cage((*range(8), 9), 47), Cage((8, 17), 4)]
    assert difference(board_from_text("", cages), {"r1c9": [8, 9]})
    assert not difference(board_from_text("", cages[:1]), {"r1c9": [8, 9]})


def test_a_sum_with_its_unknown_cells_on_one_side_is_no_difference() -> None:
    board = board_from_text(". . . . . . . . .\n4", [Cage((*range(8), 9), 47), Cage((8, 17), 4)])
    assert not difference(board, {"r1c9": [8, 9]})

"""Changes on the desk: what each makes of a puzzle, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from verifier.desk.drafting.edits import edited, empty_puzzle
from verifier.desk.drafting.unfinished import (
    as_judged,
    boxes_of,
    judged_without,
    open_cages,
    unfit_boxes,
)
from verifier.desk.wishes import PageWish, RefusedError, wish_in
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Credits, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given

EMPTY = empty_puzzle(4, Credits("a"))
SOLUTION = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)


def after(*wishes: dict[str, Any], known: Filling | None = None, start: Puzzle = EMPTY) -> Puzzle:
    for wish in wishes:
        start = edited(start, PageWish(wish), known)
    return start


def cage(*cells: int, total: int | None = None) -> dict[str, Any]:
    return {"do": "cage", "cells": list(cells), "total": total}


def key(name: str, **value: object) -> dict[str, Any]:
    return {"do": "key", "key": name, **value}


def test_a_given_is_written_and_taken_out() -> None:
    given = after({"do": "given", "cells": [5], "digit": 3})
    assert given.givens == ((5, 3),)
    assert after({"do": "given", "cells": [5], "digit": None}, start=given) == EMPTY


def test_a_cage_makes_a_killer_and_without_any_it_is_a_classic_again() -> None:
    killer = after(cage(1, 0, total=3))
    assert (killer.kind, killer.cages) == ("killer", (Cage((0, 1), 3),))
    assert after({"do": "uncage", "cells": [1]}, start=killer) == EMPTY


def test_a_cage_without_its_total_is_a_state() -> None:
    assert open_cages(after(cage(0, 1))) == [Different((0, 1))]


def test_the_total_follows_from_a_solution_that_is_known() -> None:
    assert after(cage(0, 1), known=SOLUTION).cages == (Cage((0, 1), 3),)


def test_it_stays_open_where_the_solution_has_a_digit_twice() -> None:
    assert open_cages(after(cage(2, 4), known=SOLUTION)) == [Different((2, 4))]


def test_a_new_cage_takes_its_cells_from_others() -> None:
    assert after(cage(0, 1, total=3), cage(1, 2, total=5)).cages == (Cage((0,), 3), Cage((1, 2), 5))


def test_joined_cages_add_up() -> None:
    joined = after(cage(0, 1, total=3), cage(2, 3, total=7), {"do": "join", "cells": [1, 2]})
    assert joined.cages == (Cage((0, 1, 2, 3), 10),)


def test_the_total_of_what_is_joined_with_bare_cells_is_to_come() -> None:
    joined = after(cage(0, 1, total=3), {"do": "join", "cells": [1, 2]})
    assert open_cages(joined) == [Different((0, 1, 2))]


def test_split_cages_get_their_totals_from_the_solution() -> None:
    split = after(cage(0, 1, 2, total=6), {"do": "split", "cells": [2]}, known=SOLUTION)
    assert split.cages == (Cage((0, 1), 3), Cage((2,), 3))


def test_a_cage_grows_into_its_neighbour() -> None:
    grown = after(cage(0, 1), cage(2, 3), {"do": "grow", "cells": [0, 2]}, known=SOLUTION)
    assert grown.cages == (Cage((0, 1, 2), 6), Cage((3,), 4))


def test_without_a_solution_cages_keep_their_totals_when_a_cell_moves() -> None:
    grown = after(cage(0, 1, total=3), cage(2, 3, total=7), {"do": "grow", "cells": [0, 2]})
    assert grown.cages == (Cage((0, 1, 2), 3), Cage((3,), 7))


def test_a_total_is_typed_and_taken_away() -> None:
    caged = after(cage(0, 1), {"do": "total", "cells": [1], "total": "4"})
    assert caged.cages == (Cage((0, 1), 4),)
    assert open_cages(after({"do": "total", "cells": [1], "total": None}, start=caged))


def test_a_rule_is_read_as_a_file_states_it() -> None:
    drawn = after({"do": "rule", "rule": "thermometer", "cells": [0, 5, 6]})
    assert [rule.word for rule in drawn.rules[-1:]] == ["thermometer"]
    assert after({"do": "take_out", "rule": len(drawn.rules) - 1}, start=drawn) == EMPTY


def test_a_rule_that_no_file_may_state_is_refused_with_what_may_stand_there() -> None:
    with pytest.raises(RefusedError, match="That cannot be drawn so"):
        after({"do": "rule", "rule": "ratio", "cells": [0, 2], "value": "2"})


def test_what_goes_for_the_whole_grid_comes_and_goes() -> None:
    drawn = after(key("diagonals", text="yes"), key("no_repeats", words=["king"]))
    assert len(drawn.houses) == len(EMPTY.houses) + 2
    assert drawn.kinds_of_rules == ("no_repeats",)
    assert after(key("diagonals", text=""), key("no_repeats", words=[]), start=drawn) == EMPTY


def test_boxes_that_do_not_all_have_the_right_size_are_a_state() -> None:
    drawn = after({"do": "box", "cells": [0, 2]})
    assert [len(box.cells) for box in unfit_boxes(drawn)] == [5, 3]
    assert boxes_of(as_judged(drawn)) == []
    back = after({"do": "box", "cells": [3, 2]}, start=drawn)
    assert back == EMPTY


def test_unfinished_boxes_outlast_every_other_edit() -> None:
    drawn = after({"do": "box", "cells": [0, 2]}, cage(0, 1, total=3), start=EMPTY)
    drawn = after(
        {"do": "rule", "rule": "thermometer", "cells": [0, 5, 6]}, key("diagonals", text="yes"), start=drawn
    )
    assert len(unfit_boxes(drawn)) == 2
    assert len(unfit_boxes(after(key("boxes", text="none"), start=drawn))) == 0


def test_a_box_is_begun_and_taken_out() -> None:
    begun = after(key("boxes", text="none"), {"do": "new_box", "cells": [0, 1]})
    assert [box.cells for box in boxes_of(begun)] == [(0, 1)]
    assert boxes_of(after({"do": "unbox", "cells": [0, 1]}, start=begun)) == []


def test_a_grid_of_an_unusual_size_has_its_boxes_to_come() -> None:
    seven = after({"do": "new", "size": 7})
    assert (seven.grid.name, boxes_of(seven)) == ("7x7", [])


KAKURO = after({"do": "new", "kakuro": True, "rows": 3, "columns": 4})


def test_runs_follow_the_blocked_cells_and_keep_the_totals_of_those_that_stay() -> None:
    typed = after({"do": "total", "cells": [5, 6, 7], "total": 6}, start=KAKURO)
    blocked = after({"do": "block", "cells": [11], "blocked": True}, start=typed)
    assert [run.cells for run in blocked.all_cages] == [(5, 6, 7), (5, 9), (6, 10), (9, 10)]
    assert [cage.total for cage in blocked.cages] == [6]
    parted = after({"do": "block", "cells": [6], "blocked": True}, start=typed)
    assert parted.cages == ()


def test_the_solution_that_is_meant_gives_new_runs_their_totals_and_goes_when_a_cell_is_opened() -> None:
    meant = replace(KAKURO, solution=(0, 0, 0, 0, 0, 1, 2, 3, 0, 2, 1, 4))
    known = meant.solution
    blocked = after({"do": "block", "cells": [11], "blocked": True}, known=known, start=meant)
    assert [(cage.cells, cage.total) for cage in blocked.cages] == [((9, 10), 3)]
    assert blocked.solution == (0, 0, 0, 0, 0, 1, 2, 3, 0, 2, 1, 0)
    opened = after({"do": "block", "cells": [11], "blocked": False}, known=known, start=blocked)
    assert opened.solution is None


def test_a_given_goes_with_its_cell() -> None:
    given = after({"do": "given", "cells": [5], "digit": 3}, start=KAKURO)
    assert after({"do": "block", "cells": [5], "blocked": True}, start=given).givens == ()


def test_runs_longer_than_nine_cells_are_a_state() -> None:
    wide = after({"do": "new", "kakuro": True, "rows": 3, "columns": 12})
    assert [len(run.cells) for run in wide.all_cages if len(run.cells) > 2] == [11, 11]
    assert judged_without(wide)[0] == "Judged without two runs longer than 9 cells: block a cell in each."
    assert all(len(run.cells) == 2 for run in as_judged(wide).all_cages)


def test_what_a_kakuro_has_not_is_refused_and_so_is_a_kakuro_without_runs() -> None:
    for wish, start in (
        ({"do": "box", "cells": [5, 6]}, KAKURO),
        (cage(5, 6), KAKURO),
        ({"do": "block", "cells": [0], "blocked": True}, EMPTY),
        ({"do": "block", "cells": [5, 6, 7, 9, 10, 11], "blocked": True}, KAKURO),
    ):
        with pytest.raises(RefusedError, match=r"\.$"):
            after(wish, start=start)


def test_two_cells_change_boxes() -> None:
    drawn = after({"do": "exchange", "cells": [1, 2]})
    assert [house.cells for house in drawn.houses if house.kind == "box"][:2] == [(0, 2, 4, 5), (1, 3, 6, 7)]
    assert after({"do": "exchange", "cells": [1, 2]}, start=drawn).houses == EMPTY.houses


def test_an_extra_house_is_made_of_cells() -> None:
    drawn = after({"do": "house", "cells": [5, 6, 9, 10]})
    assert drawn.houses[-1].cells == (5, 6, 9, 10)
    with pytest.raises(RefusedError, match="share a cell"):
        after({"do": "house", "cells": [5, 0, 1, 2]}, start=drawn)


def test_a_whole_file_is_taken_over() -> None:
    taken = after({"do": "text", "text": "puzzle: classic\ngrid: 6x6\ntitle: Low tide\n"})
    assert (taken.grid.name, taken.credits) == ("6x6", Credits("a", "Low tide"))


def test_of_two_runs_that_cross_two_cells_say_which() -> None:
    text = "puzzle: kakuro\ngrid: 3x3\ncells: |\n  # 3\\ 4\\\n  \\3 . .\n  \\4 . .\n"
    kakuro = after({"do": "text", "text": text})
    with pytest.raises(RefusedError, match="Two runs cross"):
        after({"do": "total", "cells": [4], "total": 5}, start=kakuro)
    changed = after({"do": "total", "cells": [4, 5], "total": 5}, start=kakuro)
    assert sorted(cage.total for cage in changed.cages) == [3, 4, 4, 5]


def test_the_solution_is_shown_in_cells_as_givens() -> None:
    shown = after({"do": "show", "cells": [0, 3]}, known=SOLUTION)
    assert shown.givens == ((0, 1), (3, 4))


def test_an_edit_keeps_all_else() -> None:
    named = {"do": "name", "title": "Low\ntide", "setter": " "}
    puzzle = after(named, {"do": "given", "cells": [0], "digit": 1})
    assert (puzzle.credits, Given(0, 1) in puzzle.rules) == (Credits("a", "Low tide", None), True)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "7",
        "[" * 100_000,
        '{"do": 3}',
        '{"do": "no such thing"}',
        '{"do": "given"}',
        '{"do": "given", "cells": []}',
        '{"do": "given", "cells": [16], "digit": 1}',
        '{"do": "given", "cells": [-1], "digit": 1}',
        '{"do": "given", "cells": [true], "digit": 1}',
        '{"do": "given", "cells": [0, 0], "digit": 1}',
        '{"do": "given", "cells": [0], "digit": 5}',
        '{"do": "given", "cells": [0], "digit": "1e9"}',
        '{"do": "cage", "cells": [0], "total": 1e400}',
        '{"do": "name", "title": {"a": 1}}',
        '{"do": "key", "key": "id", "text": "x"}',
        '{"do": "rule", "rule": "thermometer"}',
        '{"do": "rule", "rule": "sandwich", "line": "row 1", "value": "!!python/object"}',
        '{"do": "take_out", "rule": 0}',
        '{"do": "new", "size": 1000}',
        '{"do": "total", "cells": [3], "total": 4}',
        '{"do": "text", "text": "puzzle: kiler"}',
    ],
)
def test_whatever_comes_in_it_is_refused_in_words(text: str) -> None:
    with pytest.raises(RefusedError, match=r"[\w'][.?]$"):
        edited(EMPTY, wish_in(text), None)

"""The law of leftovers: examples with their exact effect, and near misses that remove nothing."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from grader.board.board import Board, opening_board
from grader.board.layout import layout_of
from grader.board.steps import WalkStep
from grader.board.technique import Technique
from grader.reasoning.uneven_boxes import leftovers
from grader.techniques.leftovers_law import LAW_OF_LEFTOVERS, LEFTOVER_CELL
from grader.words.narrate import tell
from tests.rules.shapes import mapped
from verifier.audit.audit import failed_audits
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import make_puzzle

GRID = Grid(4, 4, 0, 0, 4)
ONE_OUT = "a a a b  a c b b  c c d b  c d d d"
TWO_OUT = "a a b b  a a b c  d d b c  d d c c"


SAME = "Box 1 fills row 1 but for r1c4, and sticks out at r2c1, so these two are the same: "
BOTH = (
    "Box 1 fills row 1 but for r1c3 and r1c4, and sticks out at r2c1 and r2c2, so both hold the same digits. "
)


def board_of(drawn: str, held: Mapping[int, str]) -> Board:
    """A board with boxes as drawn, and the digits open in some cells; one digit stands."""
    board = opening_board(make_puzzle("classic", GRID, houses=(*GRID.houses, *mapped("box", drawn))))
    left = list(board.candidates)
    for cell, digits in held.items():
        left[cell] = mask_of(map(int, digits))
    placed = mask_of(cell for cell, digits in held.items() if len(digits) == 1)
    return Board(board.layout, left, placed, board.layout.all_cells)


def told(technique: Technique, drawn: str, held: Mapping[int, str]) -> list[str]:
    board = board_of(drawn, held)
    steps = [step for step in technique.find(board) if step.rules[:2] == (0, 8)]
    assert failed_audits([WalkStep(step, board, 1) for step in steps]) == []
    return [tell(step, board.layout, board) for step in steps]


def test_one_cell_outside_is_the_same_as_the_one_that_is_left() -> None:
    assert told(LEFTOVER_CELL, ONE_OUT, {3: "24", 4: "134"}) == [
        SAME + "1 and 3 go from r2c1.",
        SAME + "2 goes from r1c4.",
    ]


def test_where_it_stands_the_other_has_it() -> None:
    assert told(LEFTOVER_CELL, ONE_OUT, {3: "2"}) == [SAME + "r2c1 is 2."]


def test_where_both_can_hold_the_same_digits_nothing_goes() -> None:
    assert told(LEFTOVER_CELL, ONE_OUT, {3: "24", 4: "24"}) == []


@pytest.mark.parametrize(
    ("held", "says"),
    [
        pytest.param(
            {2: "12", 3: "23", 4: "1234", 5: "123"},
            "4 has no place in r1c3 and r1c4: 4 goes from r2c1.",
            id="closed",
        ),
        pytest.param(
            {2: "1", 3: "23", 4: "23", 5: "123"},
            "1 stands in r1c3, and on the other side only r2c2 can take it: r2c2 is 1.",
            id="placed",
        ),
        pytest.param(
            {2: "1", 3: "23", 4: "123", 5: "123"},
            "1 stands in r1c3, so it stands in r2c1 or r2c2 too: 1 goes from the rest of box 1 and row 2.",
            id="seen",
        ),
    ],
)
def test_two_cells_hold_the_digits_of_two_others(held: Mapping[int, str], says: str) -> None:
    assert BOTH + says in told(LAW_OF_LEFTOVERS, TWO_OUT, held)


def test_where_what_is_left_can_take_all_nothing_goes() -> None:
    assert told(LAW_OF_LEFTOVERS, TWO_OUT, {2: "12", 3: "34"}) == []


def test_boxes_of_one_shape_are_left_to_other_techniques() -> None:
    assert leftovers(layout_of(make_puzzle("classic", Grid.square(6)))) == ()
    assert leftovers(layout_of(make_puzzle("classic", GRID))) == ()

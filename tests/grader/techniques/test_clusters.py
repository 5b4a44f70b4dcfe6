import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.clusters import GROUPED_LINKS, ONE_CLUSTER, TWO_CLUSTERS
from tests.grader.boards import board_without, cages_of, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage

SEES_BOTH_SIDES = """
. - - - . - - - -
. . . . - . . . .
. . . . - . . . .
. . . - . - . . .
. . . - - - . . .
. . . . - - . . .
. . . . - . . . .
. . . . - . . . .
. . . . - . . . .
"""
CLASH = SEES_BOTH_SIDES.replace(". . . . - - . . .\n", ". - - . - - - - -\n")
TOUCHING = """
- . - - - . - - -
.
.
.
- - . - - . - - -
"""
GROUP = """
- . - - - - . . -
. . . . . . . . -
. . . . . . . . .
. . . . . . . . -
. . . . . . . . -
. . . . . . . . -
. . . . . . . . .
. . . . . . . . -
. . . . . . . . -
"""
CROSS_IN_A_BOX = """
. . - - . - . . .
. . . . - . . . .
. . - - . - . . .
. . - . . . . . .
. . - . . . . . .
. . - . . . . . .
. . . . . . . . .
. . - . . . . . .
. . - . . . . . .
"""


def test_a_cell_that_sees_both_sides_of_a_cluster_loses_the_digit() -> None:
    board = board_without(6, SEES_BOTH_SIDES)
    (step,) = ONE_CLUSTER.find(board)
    assert names(board, step.focus) == "r1c1 r1c5 r4c5 r6c4"
    assert (removed(board, step), step.length) == ({"r6c1": (6,)}, 3)
    assert sorted(houses_of(board, step)) == ["box 5", "column 1", "column 5", "row 1", "row 6"]


def test_a_side_that_sees_itself_falls_as_a_whole() -> None:
    board = board_without(6, CLASH)
    (step,) = ONE_CLUSTER.find(board)
    assert names(board, step.focus) == "r1c1 r1c5 r4c5 r6c4 r6c1"
    assert removed(board, step) == {"r1c1": (6,), "r4c5": (6,), "r6c1": (6,)}
    # Each of the three leads to both ends: r1c1 and r6c1 see each other in column 1. Wherever the line comes
    # to r6c6, a 6 in r4c5 or r6c1 has closed it: it is not looked at.
    assert houses_of(board, step) == ["row 1", "row 6", "column 1", "column 5", "box 5"]
    row_1 = "r1c2 r1c3 r1c4 r1c6 r1c7 r1c8 r1c9"
    boxes_2_and_5 = "r2c5 r3c5 r4c4 r4c6 r5c4 r5c5 r5c6"
    row_6_and_column_5 = "r6c2 r6c3 r6c5 r6c7 r6c8 r6c9 r7c5 r8c5 r9c5"
    assert names(board, step.looks) == f"{row_1} {boxes_2_and_5} {row_6_and_column_5}"


def test_a_chain_does_not_look_where_it_has_closed_the_digit_itself() -> None:
    # With a 6 in r6c1 row 6 is closed; then r1c5 is 6, which closes column 5: four cells of box 5 are left.
    board = board_without(6, SEES_BOTH_SIDES)
    (step,) = ONE_CLUSTER.find(board)
    row_1 = "r1c2 r1c3 r1c4 r1c6 r1c7 r1c8 r1c9"
    assert names(board, step.looks) == f"{row_1} r4c4 r4c6 r5c4 r5c6"


def test_a_digit_that_a_cage_needs_is_in_a_cluster_too() -> None:
    # The cage of 22 is 589 or 679, its 9 in r1c1 or r2c5: a cage in pieces, which grades the same.
    rows = ["9567 . . . . . . . .", ". 5678 . . 9567 . . . .", "."]
    board = board_from_text("\n".join(rows), [Cage((0, 10, 13), 22)])
    gone = [removed(board, step) for step in ONE_CLUSTER.find(board)]
    assert gone == [{"r1c4": (9,), "r1c5": (9,), "r1c6": (9,), "r2c1": (9,), "r2c3": (9,)}]


def test_the_other_sides_of_two_clusters_that_touch_hold_the_digit() -> None:
    board = board_without(6, TOUCHING)
    (step,) = TWO_CLUSTERS.find(board)
    assert names(board, step.focus) == "r1c2 r1c6 r5c6 r5c3"
    assert removed(board, step) == dict.fromkeys(("r2c3", "r3c3", "r4c2", "r6c2"), (6,))
    assert step.length == 3


def test_clusters_of_different_digits_do_not_touch() -> None:
    six, seven = "12345789", "12345689"
    lines = TOUCHING.strip().split("\n")
    board = board_from_text(
        "\n".join([lines[0].replace("-", six), *lines[1:4], lines[4].replace("-", seven)])
    )
    assert not list(TWO_CLUSTERS.find(board))


def test_a_group_of_cells_is_one_place_of_a_chain() -> None:
    board = board_without(6, GROUP)
    (step,) = GROUPED_LINKS.find(board)
    assert step.chain == (((1,), 6), ((6, 7), 6), ((26,), 6), ((62,), 6))
    assert (removed(board, step), step.length) == ({"r7c2": (6,)}, 3)


@pytest.mark.parametrize("middle", ["-", "."])
def test_a_digit_on_a_row_and_a_column_of_a_box_links_them(middle: str) -> None:
    # If it is not in r1c5 or r3c5, it is in row 2 of box 2, so not in r2c3, so in r7c3.
    board = board_without(6, CROSS_IN_A_BOX.replace(". . . . - . . . .", f". . . . {middle} . . . ."))
    (step,) = GROUPED_LINKS.find(board)
    assert removed(board, step) == {"r7c5": (6,)}
    assert [names(board, cells) for cells, _ in step.chain][2:] == ["r2c3", "r7c3"]


def test_with_a_cage_a_cell_may_see_all_places_of_a_digit_though_no_house_holds_them() -> None:
    board = board_without(6, ". - - - - - . . .", [Cage((0, 15), 13)])  # r1c1 and r2c7
    (step,) = GROUPED_LINKS.find(board)
    assert (removed(board, step), step.length) == ({"r2c7": (6,)}, 1)
    assert (houses_of(board, step), cages_of(board, step)) == (["row 1", "box 3"], (0,))


@pytest.mark.parametrize(
    ("technique", "near_miss"),
    [
        (ONE_CLUSTER, SEES_BOTH_SIDES.replace("-", ".", 1)),
        (TWO_CLUSTERS, TOUCHING.replace("-", ".", 1)),
        (GROUPED_LINKS, GROUP.replace("-", ".", 1)),
    ],
)
def test_one_more_place_and_the_chain_is_broken(technique: Technique, near_miss: str) -> None:
    assert not list(technique.find(board_without(6, near_miss)))

import pytest

from grader.board.technique import Technique
from grader.techniques.finned import FINNED_JELLYFISH, FINNED_SWORDFISH, FINNED_X_WING
from grader.techniques.fish import JELLYFISH, SWORDFISH, X_WING
from tests.grader.boards import board_without, cages_of, houses_of, names, removed
from verifier.puzzle.rules.cage import Cage

X_WING_WITH_FIN = """
. . - - - . - - -
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. - - - - . - - -
"""
SWORDFISH_WITH_FIN = """
. - - - - . - - -
. . . . . . . . .
. . . . . . . . .
- . . - - . - - -
. . . . . . . . .
. . . . . . . . .
. - . - - - - - -
"""
JELLYFISH_WITH_FIN = """
. . - - - . - - -
. . . . . . . . .
- - . - - . - - -
. . . . . . . . .
- - . - - - - - .
. . . . . . . . .
. - - - - - - - .
"""
EVERY_FISH = [
    (FINNED_X_WING, X_WING, X_WING_WITH_FIN, ["r2c1", "r3c1"], (". . - - -", ". - - - -")),
    (
        FINNED_SWORDFISH,
        SWORDFISH,
        SWORDFISH_WITH_FIN,
        ["r5c1", "r5c3", "r6c1", "r6c3"],
        ("- . . -", "- - . -"),
    ),
    (FINNED_JELLYFISH, JELLYFISH, JELLYFISH_WITH_FIN, ["r2c1", "r2c3"], (". . - - -", ". - - - -")),
]


@pytest.mark.parametrize(("finned", "picture", "gone"), [(fish[0], *fish[2:4]) for fish in EVERY_FISH])
def test_a_fish_with_a_fin_clears_what_the_fin_sees(finned: Technique, picture: str, gone: list[str]) -> None:
    board = board_without(6, picture)
    assert dict.fromkeys(gone, (6,)) in [removed(board, step) for step in finned.find(board)]


@pytest.mark.parametrize(("finned", "plain", "picture", "fin"), [(*fish[:3], fish[4]) for fish in EVERY_FISH])
def test_with_the_fin_it_is_no_plain_fish_and_without_it_is_one(
    finned: Technique, plain: Technique, picture: str, fin: tuple[str, str]
) -> None:
    assert not list(plain.find(board_without(6, picture)))
    without = board_without(6, picture.replace(*fin, 1))
    assert list(plain.find(without))
    assert not list(finned.find(without))


def test_a_second_fin_in_another_box_is_not_seen_with_the_first() -> None:
    board = board_without(6, X_WING_WITH_FIN.replace(". . - - - . - - -", ". . - - - . . - -"))
    assert not list(FINNED_X_WING.find(board))


def test_two_fins_in_one_box_are_seen_together() -> None:
    board = board_without(6, X_WING_WITH_FIN.replace(". . - - - . - - -", ". . . - - . - - -"))
    (step,) = FINNED_X_WING.find(board)
    assert removed(board, step) == {"r2c1": (6,), "r3c1": (6,)}


def test_a_sashimi_row_has_one_place_beside_the_fin() -> None:
    board = board_without(6, X_WING_WITH_FIN.replace(". . - - - . - - -", "- . - - - . - - -"))
    steps = [removed(board, step) for step in FINNED_X_WING.find(board)]
    assert {"r2c1": (6,), "r3c1": (6,)} in steps


def test_a_row_with_all_its_places_on_fins_has_no_part_in_a_fish() -> None:
    # All 6s of row 1 lie in box 1: that is a locked candidate.
    board = board_without(6, X_WING_WITH_FIN.replace(". . - - - . - - -", "- . . - - - - - -"))
    assert not list(FINNED_X_WING.find(board))


def test_a_fin_may_be_seen_by_way_of_a_cage() -> None:
    picture = X_WING_WITH_FIN.replace(". . - - - . - - -", ". - - . - . - - -")
    assert not [step for step in FINNED_X_WING.find(board_without(6, picture)) if step.removes[0][0] % 9 == 0]
    caged = board_without(6, picture, [Cage((3, 12, 21, 20, 19, 18), 30)])
    steps = [step for step in FINNED_X_WING.find(caged) if "r3c1" in removed(caged, step)]
    assert [cages_of(caged, step) for step in steps] == [(0,)]


def test_a_finned_fish_rests_on_its_lines_and_on_why_the_fin_is_seen() -> None:
    board = board_without(6, X_WING_WITH_FIN)
    (step,) = FINNED_X_WING.find(board)
    assert houses_of(board, step) == ["row 1", "row 5", "column 1", "column 6", "box 1"]
    assert names(board, step.focus) == "r1c1 r1c2 r1c6 r5c1 r5c6"
    # Box 1 needs no look: if the 6 stood in r2c1 or r3c1 after all, it would be nowhere else in the box.
    outside = [f"r1c{column}" for column in (4, 5, 7, 8, 9)] + [f"r5c{c}" for c in (2, 3, 4, 5, 7, 8, 9)]
    assert names(board, step.looks) == " ".join(outside)

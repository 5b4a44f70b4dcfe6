import pytest

from grader.board.board import board_from_text
from grader.board.technique import Technique
from grader.techniques.fish import JELLYFISH, SWORDFISH, X_WING
from tests.grader.boards import board_without, houses_of, names, removed

X_WING_PICTURE = """
. - - - - . - - -
. . . . . . . . .
. . . . . . . . .
. . . . . . . . .
. - - - - . - - -
"""
SWORDFISH_PICTURE = """
. - - - - . - - -
. . . . . . . . .
. . . . . . . . .
- - . - - . - - -
. . . . . . . . .
. . . . . . . . .
. - . - - - - - -
"""
JELLYFISH_PICTURE = """
. - - - - . - - -
. . . . . . . . .
- - . - - . - - -
. . . . . . . . .
- - . - - - - - .
. . . . . . . . .
. - - - - - - - .
"""
EVERY_FISH = [
    (X_WING, X_WING_PICTURE, (1, 5), (1, 6)),
    (SWORDFISH, SWORDFISH_PICTURE, (1, 4, 7), (1, 3, 6)),
    (JELLYFISH, JELLYFISH_PICTURE, (1, 3, 5, 7), (1, 3, 6, 9)),
]
every_fish = pytest.mark.parametrize(("technique", "picture", "rows", "columns"), EVERY_FISH)


def on_its_side(picture: str) -> str:
    """The picture of the mirrored board: rows become columns."""
    rows = [line.split() for line in picture.split("\n") if line]
    rows += [["."] * 9] * (9 - len(rows))
    return "\n".join(" ".join(column) for column in zip(*rows, strict=True))


@every_fish
def test_a_fish_in_rows_clears_the_rest_of_its_columns(
    technique: Technique, picture: str, rows: tuple[int, ...], columns: tuple[int, ...]
) -> None:
    board = board_without(6, picture)
    (step,) = technique.find(board)
    assert removed(board, step) == {
        f"r{row}c{column}": (6,) for row in range(1, 10) if row not in rows for column in columns
    }
    assert houses_of(board, step) == [f"row {row}" for row in rows] + [f"column {c}" for c in columns]


@every_fish
def test_a_fish_in_columns_clears_the_rest_of_its_rows(
    technique: Technique, picture: str, rows: tuple[int, ...], columns: tuple[int, ...]
) -> None:
    board = board_without(6, on_its_side(picture))
    (step,) = technique.find(board)
    assert removed(board, step) == {
        f"r{row}c{column}": (6,) for row in columns for column in range(1, 10) if column not in rows
    }


@pytest.mark.parametrize(("technique", "picture"), [fish[:2] for fish in EVERY_FISH])
def test_one_more_place_and_there_is_no_fish(technique: Technique, picture: str) -> None:
    assert not list(technique.find(board_without(6, picture.replace("-", ".", 1))))


def test_a_fish_rests_on_its_lines_outside_the_lines_it_clears() -> None:
    board = board_without(6, X_WING_PICTURE)
    (step,) = X_WING.find(board)
    assert names(board, step.focus) == "r1c1 r1c6 r5c1 r5c6"
    assert names(board, step.looks) == " ".join(
        f"r{row}c{column}" for row in (1, 5) for column in (2, 3, 4, 5, 7, 8, 9)
    )


@pytest.mark.parametrize("changed", ["r1c2", "r5c2"])
def test_a_fish_is_new_when_one_of_its_lines_has_changed(changed: str) -> None:
    board = board_without(6, X_WING_PICTURE)
    cell = board.layout.grid.cell_at(changed)
    assert cell is not None
    assert len(list(X_WING.find(board.looking_at(1 << cell)))) == 1


def test_a_row_need_not_meet_every_column_of_its_swordfish() -> None:
    board = board_without(6, SWORDFISH_PICTURE)
    (step,) = SWORDFISH.find(board)
    assert names(board, step.focus) == "r1c1 r1c6 r4c3 r4c6 r7c1 r7c3"


def test_a_line_with_one_place_is_left_to_the_singles() -> None:
    lonely = X_WING_PICTURE.replace(". - - - - . - - -", ". - - - - - - - -", 1)
    assert not list(X_WING.find(board_without(6, lonely)))


def test_lines_of_different_digits_make_no_fish() -> None:
    line = ". - - - - . - - -"
    without_6, without_5 = line.replace("-", "12345789"), line.replace("-", "12346789")
    assert not list(X_WING.find(board_from_text("\n".join([without_6, ".", ".", ".", without_5]))))


def test_a_jellyfish_is_found_on_a_large_grid() -> None:
    line, rest = ". - - - - . - - - - . - - - - .", "\n.\n.\n.\n"
    board = board_without(6, rest.join([line] * 4), size=16)
    (step,) = JELLYFISH.find(board)
    assert len(step.removes) == 4 * 12
    assert not list(SWORDFISH.find(board))

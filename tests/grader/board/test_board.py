import pytest
from hypothesis import given

from grader.board.board import board_from_text, opening_board
from grader.board.layout import layout_of
from grader.board.steps import Step
from tests.grader.boards import Position, positions
from verifier.puzzle.grid import Grid
from verifier.puzzle.masks import bits, digits_of, mask_of
from verifier.puzzle.puzzle import make_puzzle
from verifier.puzzle.rules.cage import Cage

NINE = Grid.square(9)


def test_a_given_goes_from_every_cell_that_sees_it() -> None:
    board = opening_board(make_puzzle("classic", NINE, givens={0: 5}))
    without = [cell for cell, mask in enumerate(board.candidates) if not mask >> 5 & 1]
    assert without == [*range(1, 9), 9, 10, 11, 18, 19, 20, *range(27, 81, 9)]


def test_a_cell_sees_twenty_others_in_a_classic_grid() -> None:  # common practice, no source
    assert {mask.bit_count() for mask in layout_of(make_puzzle("classic", NINE)).sees} == {20}


def test_cells_of_a_cage_see_each_other_wherever_they_lie() -> None:
    board = opening_board(make_puzzle("killer", NINE, cages=[Cage((0, 80), 12)], givens={0: 5}))
    assert not board.candidates[80] >> 5 & 1


@pytest.mark.parametrize(
    ("one", "other", "link"),
    [
        (0, 8, (0,)),  # row 1
        (0, 72, (9,)),  # column 1
        (0, 20, (18,)),  # box 1
        (0, 80, (27,)),  # only the cage, which is numbered behind the houses
        (0, 79, ()),
    ],
)
def test_two_cells_differ_because_of_a_house_or_else_a_cage(
    one: int, other: int, link: tuple[int, ...]
) -> None:
    layout = layout_of(make_puzzle("killer", NINE, cages=[Cage((0, 1, 80), 12)]))
    assert layout.link(one, other) == link


def test_steps_give_a_new_board_and_leave_the_old_one_alone() -> None:
    board = board_from_text("37 5 379 37")
    before = list(board.candidates)
    after = board.after([Step("naked-pair", removes=((2, mask_of([3, 7])),))])
    assert board.candidates == before
    assert digits_of(after.candidates[2]) == (9,)


def test_only_cells_that_changed_are_fresh() -> None:
    board = board_from_text("37 5 379 37")
    after = board.after([Step("naked-pair", removes=((2, mask_of([3])), (3, mask_of([9]))))])
    assert list(bits(after.fresh)) == [2]


def test_houses_and_cages_without_a_fresh_cell_are_passed_over() -> None:
    cages = [Cage((0, 1), 8), Cage((2, 3), 9)]
    board = board_from_text("37 5 379 37", cages).looking_at(mask_of([2]))
    assert [board.layout.houses[house].name for house in board.fresh_houses()] == [
        "row 1",
        "column 3",
        "box 1",
    ]
    assert list(board.fresh_cages()) == [board.layout.cage_numbers[1]]


@pytest.mark.parametrize(
    ("text", "contradicted"),
    [
        ("12 23 34 . \n . . . .", False),
        ("123 123 123 123", True),  # no place for 4 in row 1
    ],
)
def test_a_board_is_contradicted_when_a_house_has_no_place_for_a_digit(text: str, contradicted: bool) -> None:
    assert board_from_text(text, size=4).contradicted is contradicted


def test_a_picture_leaves_open_what_no_placed_cell_rules_out() -> None:
    board = board_from_text(". 1 2? .", size=4)
    assert [digits_of(mask) for mask in board.candidates[:4]] == [(2, 3, 4), (1,), (2,), (2, 3, 4)]
    assert list(bits(board.placed)) == [1]


def test_a_picture_writes_digits_above_9_in_braces() -> None:
    assert digits_of(board_from_text("{10,12}", size=12).candidates[0]) == (10, 12)


@pytest.mark.parametrize("word", ["x", "0", "1,2", "{}", "5??"])
def test_a_picture_with_a_word_that_is_no_cell_is_refused(word: str) -> None:
    with pytest.raises(ValueError, match="not a cell of a board"):
        board_from_text(word)


@given(positions(NINE))
def test_places_are_the_candidates_seen_from_the_digits(position: Position) -> None:
    places = position.board.places()
    assert all(
        (places[digit] >> cell & 1) == (mask >> digit & 1)
        for cell, mask in enumerate(position.board.candidates)
        for digit in range(10)
    )


@given(positions(NINE))
def test_writing_in_the_solution_solves_the_board(position: Position) -> None:
    solved = position.board.after([Step("given", places=tuple(enumerate(position.solution)))])
    assert solved.solved
    assert solved.filling == position.solution

"""Reasons: each combination that falls has one, each that is open has none, and what is said is so."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grader.board.board import Board, board_from_text
from grader.ladder import TECHNIQUES
from grader.reasoning.arguments import Reason, argument_against, reason_of
from grader.reasoning.combinations import arrangements
from grader.reasoning.exclusions import Rest, excluded_combinations, standing
from verifier.puzzle.masks import bits, digits_of, mask_of
from verifier.puzzle.rules.cage import Cage

some_boards = settings(max_examples=150, deadline=None)
candidates = st.lists(st.integers(1, 2**9 - 1).map(lambda mask: mask << 1), min_size=2, max_size=4)


def row_of(masks: list[int]) -> Board:
    words = [f"{{{','.join(map(str, digits_of(mask)))}}}?" for mask in masks]
    return board_from_text(" ".join(words), [Cage(tuple(range(len(masks))), 20)])


def fillings(masks: list[int]) -> Iterator[tuple[int, ...]]:
    """Yield all ways to fill the cells with different digits, one after the other."""
    for filling in product(*map(digits_of, masks)):
        if len(set(filling)) == len(masks):
            yield filling


def fillings_of(masks: list[int], total: int) -> Iterator[tuple[int, ...]]:
    """Yield those that add up to a total."""
    return (filling for filling in fillings(masks) if sum(filling) == total)


def only_reason(technique: str, text: str, cage: Cage, inside: bool = True) -> Reason:
    board = board_from_text(text, [cage])
    steps = TECHNIQUES[technique].find(board)
    step = next(step for step in steps if inside == any(cell in cage.cells for cell, _ in step.removes))
    reason = reason_of(step, board)
    assert reason is not None
    return reason


@some_boards
@given(candidates, st.integers(3, 30))
def test_a_combination_falls_or_has_an_arrangement(masks: list[int], total: int) -> None:
    board, rest = row_of(masks), Rest(tuple(range(len(masks))), total)
    fallen = {each.combination for each in excluded_combinations(rest, board, whole=True)}
    assert fallen == set(rest.listed(board)) - {mask_of(each) for each in fillings_of(masks, total)}


@some_boards
@given(candidates, st.integers(3, 30))
def test_what_excludes_a_combination_does(masks: list[int], total: int) -> None:
    board, rest = row_of(masks), Rest(tuple(range(len(masks))), total)
    for each in excluded_combinations(rest, board, whole=True):
        open_in = [cell for cell in rest.cells if board.candidates[cell] & each.digits & each.combination]
        if each.by_cells:
            taken = 0
            for cell in bits(each.cells):
                taken |= board.candidates[cell] & each.combination
            assert taken.bit_count() < each.cells.bit_count()
        else:
            assert len(open_in) < each.digits.bit_count()
        assert each.by


@some_boards
@given(candidates, st.integers(3, 30))
def test_an_argument_says_what_is_so(masks: list[int], total: int) -> None:
    board, rest = row_of(masks), Rest(tuple(range(len(masks))), total)
    left = arrangements(tuple(masks), total, 9)
    every = list(fillings(masks))
    for cell, (mask, keep) in enumerate(zip(masks, left, strict=True)):
        for digit in digits_of(mask & ~keep):
            argument = argument_against(cell, digit, rest, board)
            made = [sum(filling) for filling in every if filling[cell] == digit]
            if argument.least is not None:
                assert min(made, default=argument.least) == argument.least > total
            if argument.most is not None:
                assert max(made, default=argument.most) == argument.most < total
            for case in argument.cases:
                assert sum(digits_of(case.combination)) == total - digit


def test_a_digit_in_sight_excludes_a_combination() -> None:
    reason = only_reason("cage-combinations", ". . 6", Cage((0, 1), 14))
    assert [digits_of(each) for each in reason.left] == [(5, 9)]
    assert [(digits_of(each.combination), each.by) for each in reason.excluded] == [((6, 8), (2,))]


def test_a_digit_of_the_cage_itself_excludes_a_combination() -> None:
    reason = only_reason("single-combination", "2 . .", Cage((0, 1, 2), 7))
    assert [digits_of(each) for each in reason.left] == [(1, 4)]
    assert [(digits_of(each.combination), each.by) for each in reason.excluded] == [((2, 3), (0,))]


def test_a_cell_that_takes_none_of_it_excludes_a_combination() -> None:
    reason = only_reason("cage-combinations", "49 .", Cage((0, 1), 10))
    assert {digits_of(each.combination): each.by for each in reason.excluded} == {
        (2, 8): (0,),
        (3, 7): (0,),
    }


def test_two_digits_with_one_place_exclude_a_combination() -> None:
    board, rest = board_from_text("12 13 45"), Rest((0, 1, 2), 10)
    found = excluded_combinations(rest, board, whole=True)
    (why,) = [each for each in found if digits_of(each.combination) == (1, 4, 5)]
    assert (why.by_cells, digits_of(why.digits), tuple(bits(why.cells))) == (False, (4, 5), (2,))


def test_a_digit_that_makes_too_much_needs_no_cases() -> None:
    reason = only_reason("cage-combinations", "", Cage((0, 1, 2, 3), 26))
    assert {each.digit: each.most for each in reason.arguments} == {1: 25}
    assert reason.excluded == ()


def test_a_digit_that_must_be_there_is_told_by_what_is_made_without_it() -> None:
    reason = only_reason("cage-combinations", "", Cage((0, 1, 2, 3, 4), 19), inside=False)
    assert reason.without == 2 + 3 + 4 + 5 + 6


def test_each_digit_that_no_arrangement_has_is_told_by_its_cases() -> None:
    reason = only_reason("cage-arrangements", "12 12 134", Cage((0, 1, 2), 6))
    told = {
        (each.digit, each.least): [digits_of(c.combination) for c in each.cases] for each in reason.arguments
    }
    assert told == {(1, None): [(2, 3)], (4, 7): []}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (". . . . 6", (4,)),
        (". .\n. . 6\n. . . . . 6", (11,)),
        (". . .\n\n\n6\n. 6", (27, 37)),
        (". .\n\n\n6", ()),
    ],
)
def test_a_digit_stands_in_the_way_where_every_cell_sees_it(text: str, found: tuple[int, ...]) -> None:
    assert standing(6, Rest((0, 1), 14), board_from_text(text)) == found


def test_a_step_of_another_kind_has_no_such_reason() -> None:
    board = board_from_text("26 4 268 26 1 3 5 7 9")
    assert reason_of(next(iter(TECHNIQUES["naked-pair"].find(board))), board) is None

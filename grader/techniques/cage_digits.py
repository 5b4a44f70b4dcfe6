"""Digits that a cage gives by itself, before anything is removed from its cells."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, reduce
from itertools import combinations
from operator import and_, or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.combinations import (
    LISTED_AT_MOST,
    assignments,
    combinations_by_total,
    every_assignment,
    how_many,
    open_combinations,
    rest_of_cage,
)
from verifier.puzzle.masks import bits, mask_of

__all__ = [
    "CASES_AT_MOST",
    "FEW_ARRANGEMENTS",
    "LAST_CELLS_OF_CAGE",
    "ONLY_CELL_BY_COMBINATIONS",
    "ONLY_CELL_IN_CAGE",
]

_LAST_AT_MOST = 3
"""In so many cells of a cage a person sees all arrangements at once."""
CASES_AT_MOST = 4
"""Of so many arrangements, of several combinations, a person sees what they have in common."""


def find_last_cells_of_cages(board: Board) -> Iterator[Step]:
    """The last two or three cells of a cage with one combination left take what can go only one way.

    What stands in the cage is taken from its total, and combinations are tried on the cells. Where one is
    left, each cell takes the digit that it has however the combination is arranged::

        cage of 15    before  6 257 5789    after  6 2 7    4 + 5 falls for want of a 4, so 2 + 7 is left

    Yields
    ------
    Step
        In the order of the cages. One step has all that a cage settles.

    Notes
    -----
    Sound in every solution: the empty cells hold different digits, none of those that stand in the cage
    already, and make what is missing to the total. All arrangements of what is open in them are gone through.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_last_cells_of_cages(board_from_text("6 257 5789", [Cage((0, 1, 2), 15)]))
    >>> step.places
    ((1, 2), (2, 7))
    """
    return _settled(board, "last-cells-of-cage", several=False)


def find_few_arrangements(board: Board) -> Iterator[Step]:
    """A cell of the last three of a cage takes the digit it has in all of at most four arrangements.

    The combinations differ, and still they agree in one cell::

        cage of 16    before  48 159 369    after  48 159 3    4 + 9 + 3 or 8 + 5 + 3

    Yields
    ------
    Step
        In the order of the cages. One step has all that a cage settles.

    Notes
    -----
    Sound in every solution, as the last cells of a cage: one of the arrangements is right.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_few_arrangements(board_from_text("48 159 369", [Cage((0, 1, 2), 16)]))
    >>> step.places
    ((2, 3),)
    """
    return _settled(board, "few-arrangements", several=True)


def _settled(board: Board, technique: str, *, several: bool) -> Iterator[Step]:
    candidates = board.candidates
    for cage in board.fresh_cages():
        empty = board.layout.masks[cage] & ~board.placed
        if not 2 <= empty.bit_count() <= _LAST_AT_MOST:
            continue
        cells, total, used = rest_of_cage(board, cage)
        masks = tuple([candidates[cell] for cell in cells])
        settled = _same_in_all(masks, total, several)
        if any(settled):
            looked_at = _enough(masks, total, board.layout.all_digits & ~used, settled)
            told = settled if several else assignments(masks, total)[0]  # the one combination is told whole
            known = [cell for cell in board.layout.rules[cage].cells if cell not in cells]
            yield Step(
                technique,
                places=tuple([(cell, digit) for cell, digit in zip(cells, settled, strict=True) if digit]),
                rules=(cage,),
                looks=tuple(sorted([*known, *(cells[place] for place in bits(looked_at))])),
                focus=tuple(cells),
                digits=mask_of(digit for digit in told if digit),
            )


@lru_cache(maxsize=1 << 13)
def _same_in_all(masks: tuple[int, ...], total: int, several: bool) -> tuple[int, ...]:
    """Return the digit that each cell has in all arrangements, 0 where they differ.

    Nothing is settled where the arrangements are of one combination and several are asked for, or the other
    way round, or where there are too many.
    """
    nothing = (0,) * len(masks)
    found: list[tuple[int, ...]] = []
    combinations_seen = set()
    for digits in every_assignment(masks, total):
        found.append(digits)
        combinations_seen.add(mask_of(digits))
        if len(combinations_seen) > 1 and not (several and len(found) <= CASES_AT_MOST):
            return nothing
    if not found or (len(combinations_seen) > 1) is not several:
        return nothing
    return tuple([column[0] if len(set(column)) == 1 else 0 for column in zip(*found, strict=True)])


@lru_cache(maxsize=1 << 13)
def _enough(masks: tuple[int, ...], total: int, free: int, settled: tuple[int, ...]) -> int:
    """Return the mask of the places that must be looked at for the same to follow.

    The fewest, where they are the only ones of that number; else all that would do, so that the choice does
    not depend on the order of the cells.
    """
    for count in range(1, len(masks)):
        found = [
            mask_of(chosen)
            for chosen in combinations(range(len(masks)), count)
            if _still(tuple([mask if n in chosen else free for n, mask in enumerate(masks)]), total, settled)
        ]
        if found:
            return reduce(or_, found)
    return (1 << len(masks)) - 1


def _still(masks: tuple[int, ...], total: int, settled: tuple[int, ...]) -> bool:
    """Return whether cells that are open so far give no other digits."""
    every = assignments(masks, total)
    return all(digit in (0, there) for found in every for digit, there in zip(settled, found, strict=True))


def find_only_cells_in_cages(board: Board) -> Iterator[Step]:
    """A digit of the one combination of a total stands in the only cell of the cage that can take it.

    The total, or what is left of it, has one combination, so the cage holds each of its digits::

        cage of 10    before  1234 123 123 123    after  4 123 123 123

    Yields
    ------
    Step
        In the order of the cages, then of the digits.

    Notes
    -----
    Sound in every solution: the cage must hold the digit, and nowhere else has it room.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("1234 123 123 123", [Cage((0, 1, 2, 3), 10)])
    >>> [step.places for step in find_only_cells_in_cages(board)]
    [((0, 4),)]
    """
    for cage in board.fresh_cages():
        cells, total, _ = rest_of_cage(board, cage)
        if len(cells) < 2 or how_many(total, len(cells), board.layout.grid.digits) > LISTED_AT_MOST:
            continue
        listed = combinations_by_total(board, cage)
        if len(listed) == 1:
            yield from _only_cells(board, cage, cells, listed[0], "only-cell-in-cage")


def find_only_cells_by_combinations(board: Board) -> Iterator[Step]:
    """A digit that every open combination of a cage holds stands in its only cell there.

    The combinations are listed; what they have in common must stand in the cage::

        cage of 22    before  5678 6789 678    after  5678 9 678    589 or 679, so there is a 9

    Yields
    ------
    Step
        In the order of the cages, then of the digits.

    Notes
    -----
    Sound in every solution: the cage holds one of its open combinations, so the digit, and nowhere else has
    it room.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_only_cells_by_combinations(board_from_text("5678 6789 678", [Cage((0, 1, 2), 22)]))
    >>> step.places
    ((1, 9),)
    """
    candidates, digits = board.candidates, board.layout.grid.digits
    for cage in board.fresh_cages():
        cells, total, _ = rest_of_cage(board, cage)
        if len(cells) < 2 or how_many(total, len(cells), digits) > LISTED_AT_MOST:
            continue
        found = open_combinations(tuple([candidates[cell] for cell in cells]), total, digits)
        if found and len(combinations_by_total(board, cage)) > 1:
            yield from _only_cells(board, cage, cells, reduce(and_, found), "only-cell-by-combinations")


def _only_cells(board: Board, cage: int, cells: list[int], certain: int, technique: str) -> Iterator[Step]:
    """Yield a step for each digit that a cage is certain to hold and that one of its empty cells can take.

    Where it is certain whatever is open in that cell, all that is looked at is where the digit cannot be.
    """
    candidates = board.candidates
    _, total, used = rest_of_cage(board, cage)
    once = twice = 0
    for cell in cells:
        twice |= once & candidates[cell]
        once |= candidates[cell]
    certain &= once & ~twice
    for digit in bits(certain):
        bit = 1 << digit
        (cell,) = [cell for cell in cells if candidates[cell] & bit]
        free = board.layout.all_digits & ~used
        masks = tuple([free if c == cell else candidates[c] for c in cells])
        still = open_combinations(masks, total, board.layout.grid.digits)
        looked_at = not all(combination & bit for combination in still)
        yield Step(
            technique,
            places=((cell, digit),),
            rules=(cage,),
            looks=tuple([c for c in board.layout.rules[cage].cells if c != cell or looked_at]),
            focus=(cell,),
            digits=bit,
        )


LAST_CELLS_OF_CAGE = Technique(
    "last-cells-of-cage",
    "last two or three cells of a cage",
    find_last_cells_of_cages,
    traits=Trait.ARITHMETIC,
)
FEW_ARRANGEMENTS = Technique("few-arrangements", "few arrangements of a cage", find_few_arrangements)
ONLY_CELL_IN_CAGE = Technique(
    "only-cell-in-cage",
    "only cell of a cage for a digit of its combination",
    find_only_cells_in_cages,
    traits=Trait.ARITHMETIC,
)
ONLY_CELL_BY_COMBINATIONS = Technique(
    "only-cell-by-combinations",
    "only cell of a cage for a digit of all its combinations",
    find_only_cells_by_combinations,
    traits=Trait.ARITHMETIC,
)

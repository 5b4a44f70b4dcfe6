"""Cages by themselves: subtraction, combinations, and arrangements of a combination's digits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import reduce
from operator import and_, or_

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.assignments import others_if_alone
from grader.reasoning.combinations import (
    LISTED_AT_MOST,
    arrangements,
    combinations_by_total,
    combinations_of,
    how_many,
    open_combinations,
    rest_of_cage,
)
from verifier.puzzle.masks import bits, mask_of

__all__ = ["CAGE_ARRANGEMENTS", "CAGE_COMBINATIONS", "LAST_CELL_OF_CAGE", "SINGLE_COMBINATION"]


def find_last_cells_of_cages(board: Board) -> Iterator[Step]:
    """A cage with one empty cell left has there what is missing to its total.

    Its other digits are taken from the total::

        cage of 15    before  4 . 8    after  4 3 8
                                ^               ^

    Yields
    ------
    Step
        In the order of the cages.

    Notes
    -----
    Sound in every solution: the digits of a cage add up to its total, whether they may repeat or not.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_last_cells_of_cages(board_from_text("4 . 8", [Cage((0, 1, 2), 15)]))
    >>> step.places
    ((1, 3),)
    """
    for cage in board.fresh_sums():
        empty = board.layout.masks[cage] & ~board.placed
        if not empty or empty & (empty - 1):
            continue
        (cell,), digit, _ = rest_of_cage(board, cage)
        others = tuple(c for c in board.layout.rules[cage].cells if c != cell)
        if digit > 0 and board.candidates[cell] >> digit & 1:
            yield Step(
                "last-cell-of-cage",
                places=((cell, digit),),
                rules=(cage,),
                looks=others,
                focus=(cell,),
                digits=1 << digit,
            )
        elif board.candidates[cell]:  # the missing digit cannot stand there: nothing can
            gone = board.candidates[cell]
            yield Step(
                "last-cell-of-cage",
                removes=((cell, gone),),
                rules=(cage,),
                looks=(*others, cell),
                focus=(cell,),
                digits=gone,
            )


def find_single_combinations(board: Board) -> Iterator[Step]:
    """A cage whose total, or what is left of it, has one combination holds no other digits.

    All other digits go from its empty cells::

        cage of 17    before  36789 1489    after  89 89

    Yields
    ------
    Step
        In the order of the cages.

    Notes
    -----
    Sound in every solution: the empty cells hold different digits, none of those that stand in the cage
    already, and make what is missing to the total.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_single_combinations(board_from_text("36789 1489", [Cage((0, 1), 17)]))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes]
    [(0, [3, 6, 7]), (1, [1, 4])]
    """
    size_of_grid = board.layout.grid.digits
    for cage in board.fresh_cages():
        cells, total, used = rest_of_cage(board, cage)
        if len(cells) < 2 or how_many(total, len(cells), size_of_grid) > LISTED_AT_MOST:
            continue
        listed = [c for c in combinations_of(total, len(cells), size_of_grid) if not c & used]
        if len(listed) != 1:
            continue
        removes = board.removable(~listed[0], cells)
        if removes:
            yield Step(
                "single-combination",
                removes=removes,
                rules=(cage,),
                looks=tuple(c for c in board.layout.rules[cage].cells if c not in cells),
                focus=tuple(cells),
                digits=listed[0],
            )


def find_cage_combinations(board: Board) -> Iterator[Step]:
    """A digit in no combination goes from the cage; one in all of them goes from around it.

    A digit that is in no open combination goes from the cage. A digit that is in every one of them must
    stand in the cage, so it goes from each cell that sees all its places there::

        cage of 9 in two cells    before  1345 4568    after  1345 4568    4+5 or 1+8; 3+6
        cage of 22 in three cells: 589 or 679, so the cage holds a 9: no other 9 in their row

    Yields
    ------
    Step
        In the order of the cages: the digits in no combination, then each digit in all of them.

    Notes
    -----
    Sound in every solution: the empty cells of the cage hold one of the open combinations.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text(". . .", [Cage((0, 1, 2), 22)])
    >>> inside, around = find_cage_combinations(board)
    >>> list(bits(inside.removes[0][1])), list(bits(around.digits)), len(around.removes)
    ([1, 2, 3, 4], [9], 12)
    """
    for cage, cells, masks, total in _fresh_rests(board):
        found = open_combinations(masks, total, board.layout.grid.digits)
        possible = reduce(or_, found, 0)
        removes = board.removable(~possible, cells)
        if removes:
            by_total = reduce(or_, combinations_by_total(board, cage), 0)
            seen_at_once = board.removable(~by_total, cells) == removes
            yield Step(
                "cage-combinations",
                removes=removes,
                rules=(cage,),
                looks=tuple(
                    cell
                    for cell in board.layout.rules[cage].cells
                    if not (seen_at_once and cell in cells)  # the total alone says it
                ),
                focus=tuple(cells),
                digits=possible,
            )
        for digit in bits(reduce(and_, found, board.layout.all_digits if found else 0)):
            yield from _certain_digit(board, cage, cells, digit)


def _certain_digit(board: Board, cage: int, cells: list[int], digit: int) -> Iterator[Step]:
    """Yield the removal of a digit that the cage is certain to hold from the cells that see its places.

    Where the total alone makes it certain, all that is looked at is where the digit cannot be.
    """
    layout, bit = board.layout, 1 << digit
    places = [cell for cell in cells if board.candidates[cell] & bit]
    seen = layout.all_cells & ~layout.masks[cage] & ~board.placed
    for place in places:
        seen &= layout.sees[place]
    removes = board.removable(bit, bits(seen))
    if removes:
        by_total = all(found & bit for found in combinations_by_total(board, cage))
        yield Step(
            "cage-combinations",
            removes=removes,
            rules=(*_links(board, [cell for cell, _ in removes], places), cage),
            looks=tuple(cell for cell in layout.rules[cage].cells if not (by_total and cell in places)),
            focus=tuple(places),
            digits=bit,
        )


def _links(board: Board, gone: list[int], places: list[int]) -> tuple[int, ...]:
    """Return why each of the cells `gone` sees all `places`: one house for all of them, if there is one."""
    layout = board.layout
    around = mask_of(places)
    common = [h for h in layout.houses_of[places[0]] if not around & ~layout.house_masks[h]]
    links: set[int] = set()
    shared = {cell: [h for h in common if layout.house_masks[h] >> cell & 1] for cell in gone}
    for cell in sorted(gone, key=lambda cell: len(shared[cell])):  # those without a choice first
        if not shared[cell]:
            links.update(layout.link(cell, place)[0] for place in places)
        elif links.isdisjoint(shared[cell]):
            links.add(shared[cell][-1])  # a box rather than a line: it is seen at a glance
    return tuple(sorted(links))


def find_cage_arrangements(board: Board) -> Iterator[Step]:
    """A digit goes from a cell of a cage if the rest of the cage cannot be filled with it there.

    The combination is open, but its digits cannot all be placed with this one here::

        cage of 6 in three cells    before  12 12 123    after  12 12 3

    Yields
    ------
    Step
        In the order of the cages.

    Notes
    -----
    Sound in every solution: the cells of the cage hold some arrangement of some open combination. All of them
    are tried.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step, = find_cage_arrangements(board_from_text("12 12 123", [Cage((0, 1, 2), 6)]))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes]
    [(2, [1, 2])]
    """
    for cage, cells, masks, total in _fresh_rests(board):
        left = arrangements(masks, total, board.layout.grid.digits)
        removes = tuple(
            (cell, mask & ~keep) for cell, mask, keep in zip(cells, masks, left, strict=True) if mask & ~keep
        )
        if removes:
            yield Step(
                "cage-arrangements",
                removes=removes,
                rules=(cage,),
                looks=others_if_alone(board.layout.rules[cage].cells, removes),
                focus=tuple(cells),
                digits=reduce(or_, (gone for _, gone in removes)),
            )


def _fresh_rests(board: Board) -> Iterable[tuple[int, list[int], tuple[int, ...], int]]:
    """Yield the cages worth listing: cage, its empty cells, their candidates, what is left of the total."""
    candidates = board.candidates
    for cage in board.fresh_cages():
        cells, total, _ = rest_of_cage(board, cage)
        if len(cells) >= 2 and how_many(total, len(cells), board.layout.grid.digits) <= LISTED_AT_MOST:
            yield cage, cells, tuple(candidates[cell] for cell in cells), total


LAST_CELL_OF_CAGE = Technique(
    "last-cell-of-cage",
    "last cell of a cage",
    find_last_cells_of_cages,
    traits=Trait.ARITHMETIC | Trait.EASY_DIGIT,
)
SINGLE_COMBINATION = Technique(
    "single-combination", "a total with one combination", find_single_combinations, traits=Trait.ARITHMETIC
)
CAGE_COMBINATIONS = Technique(
    "cage-combinations", "cage combinations", find_cage_combinations, traits=Trait.ARITHMETIC | Trait.MERGED
)
CAGE_ARRANGEMENTS = Technique(
    "cage-arrangements",
    "arrangements within a cage",
    find_cage_arrangements,
    source="Own derivation: for each combination, digits are matched to cells.",
)

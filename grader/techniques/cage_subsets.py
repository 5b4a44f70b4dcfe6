"""Subsets with a cage: cells of a house that share digits with a cage, or with a known sum, inside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import and_, or_
from typing import NamedTuple

from grader.board.board import Board
from grader.board.patterns import SharedSubset
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.links import open_cages
from grader.reasoning.combinations import (
    LISTED_AT_MOST,
    combinations_by_total,
    combinations_of,
    how_many,
    open_combinations,
)
from grader.reasoning.hall import hall_sets
from grader.reasoning.rule_of_45 import InnieOutieSum, SumKind, simplest_sums
from verifier.puzzle.masks import bits, mask_of

__all__ = ["CAGE_SUBSET"]

_CELLS_AT_MOST = 3
"""So many cells beside the cage: with the cage as one member, pairs to quads."""


def find_cage_subsets(board: Board) -> Iterator[Step]:
    """A pair, triple or quad of a house in which a cage, or a known sum, is one of the members.

    Up to three cells of a house hold some digits, more than there are cells. What the cells do not take is
    left for the cage, so a combination with more of these digits is out. If all combinations take as many
    as are left, cage and cells use the digits up, and no other cell of the house can take one::

        row 1, cage of 6    before  1245 1245 12 1234 . . . .    after  1245 1245 12 34
                            15 or 24: one of 1 and 2 in the cage, the other in r1c3

    In a hidden subset it is the digits that fit nowhere but in cage and cells, more than there are cells: a
    combination with too few of them is out, and if none has more than it must, the cells take no others. A
    sum by the rule of 45 over cells of one house does as well as a cage. Digits that it takes in every
    combination go from the rest of the house at once, and so do combinations that lack a digit which has no
    other place.

    Yields
    ------
    Step
        In the order of cages, then of sums; of each and each house that holds it, with the fewest cells
        that lead to anything. Its `focus` is the cells beside the cage, or those of the sum if there are
        none, its `digits` are the digits shared.

    Notes
    -----
    Sound in every solution: let n cells hold m digits between them. They take n of these, all different, so
    no more than m - n are left for the cage, whose cells lie in the same house; and where it takes m - n, all
    m are used up. Likewise, if m digits have no place in the house outside the cage and n cells, these take n
    of them at most, so the cage takes m - n or more; and where it takes no more, each of the cells holds one.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("1245 1245 12 1234", [Cage((0, 1), 6)])
    >>> step = next(find_cage_subsets(board))
    >>> [(cell, list(bits(gone))) for cell, gone in step.removes]
    [(3, [1, 2]), (4, [1, 2]), (5, [1, 2]), (6, [1, 2]), (7, [1, 2]), (8, [1, 2])]
    """
    layout = board.layout
    places = board.places()
    for part in (*_cages(board), *_sums(board)):
        for house, mask in enumerate(layout.house_masks):
            if not part.empty & ~mask and (part.cells | mask) & board.fresh:
                yield from _fewest_cells(board, places, house, part)


class _Part(NamedTuple):
    """A cage, or a sum by the rule of 45, with its empty cells in one house.

    Parameters
    ----------
    source : int or InnieOutieSum
        The cage, by its place in the layout, or the sum.
    cells, empty : int
        Masks of all its cells, and of those without a digit.
    combinations : tuple of int
        The open combinations of the latter.
    by_total : sequence of int
        Those that the total allows, whatever is open.
    """

    source: int | InnieOutieSum
    cells: int
    empty: int
    combinations: tuple[int, ...]
    by_total: Sequence[int]


def _cages(board: Board) -> Iterator[_Part]:
    for cage in open_cages(board):
        if len(cage.combinations) > 1:  # one combination is a naked subset, and what is certain goes at once
            by_total = combinations_by_total(board, cage.cage)
            mask = board.layout.masks[cage.cage]
            yield _Part(cage.cage, mask, cage.empty, cage.combinations, by_total)


def _sums(board: Board) -> Iterator[_Part]:
    """Yield the sums over two to four cells of a house, each set of cells once, as simply as it follows."""
    layout = board.layout
    caged = {mask & ~board.placed for _, mask in layout.cage_masks}
    digits = layout.grid.digits
    for left in simplest_sums(board, SumKind.TWO, SumKind.UP_TO_FOUR):
        empty = left.unknown_plus | left.unknown_minus
        if empty in caged or all(empty & ~mask for mask in layout.house_masks):
            continue
        total = left.rest(board) if left.unknown_plus else -left.rest(board)
        size = empty.bit_count()
        if 0 < how_many(total, size, digits) <= LISTED_AT_MOST:
            masks = tuple(board.candidates[cell] for cell in bits(empty))
            combinations = open_combinations(masks, total, digits)
            cells = left.plus | left.minus
            yield _Part(left, cells, empty, combinations, combinations_of(total, size, digits))


class _Subset(NamedTuple):
    """A part, cells beside it, the digits they share, and all other cells of their house.

    Either the cells hold these digits only, or the digits have no place among the other cells (`hidden`).
    """

    part: _Part
    cells: int
    digits: int
    around: int
    hidden: bool


def _fewest_cells(board: Board, places: Sequence[int], house: int, part: _Part) -> Iterator[Step]:
    """Yield what follows of a part in a house, with the fewest cells beside it that lead to anything."""
    others = board.layout.house_masks[house] & ~part.empty
    fewest = 1 if isinstance(part.source, int) else 0  # what a cage does alone has been told
    for size in range(fewest, _CELLS_AT_MOST + 1):
        subsets = [*_naked(board, others, part, size), *_hidden(board, places, others, part, size)]
        found = False
        for subset in subsets:
            removes = _removes(board, subset, part.combinations)
            if removes:
                found = True
                yield _step(board, house, subset, removes)
        if found:
            return


def _naked(board: Board, others: int, part: _Part, size: int) -> Iterator[_Subset]:
    """Yield the cells that hold more digits than they are, but not more than the part could take as well."""
    if not size:
        yield _Subset(part, 0, reduce(and_, part.combinations, board.layout.all_digits), others, False)
        return
    sets = [(cell, board.candidates[cell]) for cell in bits(others & ~board.placed)]
    for spare in range(1, part.empty.bit_count() + 1):
        for names, digits in hall_sets(sets, size, spare):
            cells = mask_of(names)
            yield _Subset(part, cells, digits, others & ~cells, False)


def _hidden(board: Board, places: Sequence[int], others: int, part: _Part, size: int) -> Iterator[_Subset]:
    """Yield the cells that, with the part, are all the places of more digits than they are."""
    outside = {digit: places[digit] & others for digit in board.layout.grid.all_digits}
    unions = {0}
    for mask in outside.values():
        if not mask & board.placed:
            unions |= {union | mask for union in unions if (union | mask).bit_count() <= size}
    for cells in sorted(unions):
        digits = mask_of(digit for digit, mask in outside.items() if not mask & ~cells)
        if cells.bit_count() == size < digits.bit_count():
            yield _Subset(part, cells, digits, others & ~cells, True)


def _removes(board: Board, subset: _Subset, combinations: Sequence[int]) -> tuple[tuple[int, int], ...]:
    """Return what goes if the part holds one of some combinations: from the part, or else from the house."""
    part, cells, digits, around, hidden = subset
    share = digits.bit_count() - cells.bit_count()
    taken = [(combination & digits).bit_count() for combination in combinations]
    kept = [
        combination
        for combination, count in zip(combinations, taken, strict=True)
        if (count >= share if hidden else count <= share)
    ]
    if len(kept) < len(taken):
        return board.removable(~reduce(or_, kept, 0), bits(part.empty))
    if any(count != share for count in taken):
        return ()
    return board.removable(~digits, bits(cells)) if hidden else board.removable(digits, bits(around))


def _step(board: Board, house: int, subset: _Subset, removes: tuple[tuple[int, int], ...]) -> Step:
    part, cells, digits, around, hidden = subset
    looks = (around if hidden else cells) | part.cells & board.placed
    if _removes(board, subset, part.by_total) != removes:  # what is open in the part's cells matters too
        looks |= part.empty
    return Step(
        "cage-subset",
        removes=removes,
        rules=(house, part.source) if isinstance(part.source, int) else (house,),
        sums=() if isinstance(part.source, int) else (part.source.derived(),),
        looks=tuple(bits(looks)),
        focus=tuple(bits(cells or part.empty)),
        digits=digits,
        pattern=SharedSubset(house, cells, part.empty, hidden),
    )


CAGE_SUBSET = Technique(
    "cage-subset",
    "subset with a cage",
    find_cage_subsets,
    source=(
        "Own derivation: this is the naked and the hidden subset of common practice, "
        "with the cage's cells counted by its combinations."
    ),
)

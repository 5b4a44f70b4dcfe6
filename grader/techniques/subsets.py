"""Subsets: so many cells of a house that share as many digits between them.

In a *naked* subset the cells hold nothing but these digits; in a *hidden* one the digits fit nowhere
but in these cells. Cells that have their digit take no part, and neither does a cell with one candidate
or a digit with one place: those are singles.
"""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.reasoning.hall import hall_sets
from verifier.puzzle.masks import bits, mask_of

__all__ = ["HIDDEN_PAIR", "HIDDEN_QUAD", "HIDDEN_TRIPLE", "NAKED_PAIR", "NAKED_QUAD", "NAKED_TRIPLE"]


def find_naked_pairs(board: Board) -> Iterator[Step]:
    """Two cells of a house with the same two candidates take both: they go from its other cells.

    Two cells of a house hold the same two candidates and no others. They use up both digits, so no other
    cell of the house can take one::

        row 1    before  26 4 268 26 1 3 5 7 9    after  26 4 8 26 1 3 5 7 9
                         ^^       ^^                          ^

    Yields
    ------
    Step
        In the order of the houses, then of the cells. A pair that lies in two houses, a box and a line,
        gives a step for each house in which it removes something.

    Notes
    -----
    Sound in every solution: if another cell took one of the digits, the two cells would share the one left.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_naked_pairs(board_from_text("26 4 268 26 1 3 5 7 9"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(2, (2, 6))]
    """
    return _naked_subsets(board, "naked-pair", 2)


def find_naked_triples(board: Board) -> Iterator[Step]:
    """Three cells of a house with three candidates take all three: they go from its other cells.

    Three cells of a house hold only three digits between them; not every cell need hold all three::

        row 1    before  13 2 5 16 7 36 13468 9 1468    after  13 2 5 16 7 36 48 9 48
                         ^^     ^^   ^^                                       ^^   ^^

    Yields
    ------
    Step
        In the order of the houses, then of the cells.

    Notes
    -----
    Sound in every solution: if another cell took one of the digits, the three cells would share the two left.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_naked_triples(board_from_text("13 2 5 16 7 36 13468 9 1468"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(6, (1, 3, 6)), (8, (1, 6))]
    """
    return _naked_subsets(board, "naked-triple", 3)


def find_naked_quads(board: Board) -> Iterator[Step]:
    """Four cells of a house with four candidates take all four: they go from its other cells.

    Four cells of a house hold only four digits between them::

        row 1    before  13 36 2 68 7 18 149 5 4689    after  13 36 2 68 7 18 49 5 49
                         ^^ ^^   ^^   ^^                                      ^^   ^^

    Yields
    ------
    Step
        In the order of the houses, then of the cells.

    Notes
    -----
    Sound in every solution: if another cell took one of the digits, the four cells would share the three
    left.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_naked_quads(board_from_text("13 36 2 68 7 18 149 5 4689"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(6, (1,)), (8, (6, 8))]
    """
    return _naked_subsets(board, "naked-quad", 4)


def find_hidden_pairs(board: Board) -> Iterator[Step]:
    """Two digits with the same two places in a house take both: all else goes from these cells.

    Two digits of a house have the same two places and no others. They use up both cells, so nothing else
    can stand there::

        row 1    before  1348 2 5 168 7 36 346 9 36    after  18 2 5 18 7 36 346 9 36
                         ^  ^     ^ ^                         ^^     ^^

    Yields
    ------
    Step
        In the order of the houses, then of the digits.

    Notes
    -----
    Sound in every solution: if one of the cells took another digit, the two digits would share the one cell
    left. What the step rests on is therefore the other cells of the house, in which neither digit is open.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_hidden_pairs(board_from_text("1348 2 5 168 7 36 346 9 36"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(0, (3, 4)), (3, (6,))]
    """
    return _hidden_subsets(board, "hidden-pair", 2)


def find_hidden_triples(board: Board) -> Iterator[Step]:
    """Three digits with three places in a house take all three: all else goes from these cells.

    Three digits of a house have only three places between them; not every digit need fit all three::

        row 1    before  148 2 389 469 7 13 16 5 36    after  48 2 89 49 7 13 16 5 36
                          ^^    ^^ ^ ^                        ^^   ^^ ^^

    Yields
    ------
    Step
        In the order of the houses, then of the digits.

    Notes
    -----
    Sound in every solution: if one of the cells took another digit, the three digits would share the two
    cells left.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_hidden_triples(board_from_text("148 2 389 469 7 13 16 5 36"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(0, (1,)), (2, (3,)), (3, (6,))]
    """
    return _hidden_subsets(board, "hidden-triple", 3)


def find_hidden_quads(board: Board) -> Iterator[Step]:
    """Four digits with four places in a house take all four: all else goes from these cells.

    Four digits of a house have only four places between them::

        row 1    before  156 12 267 23 378 34 458 14 9    after  56 12 67 23 78 34 58 14 9
                          ^^     ^^     ^^     ^^                ^^    ^^    ^^    ^^

    Yields
    ------
    Step
        In the order of the houses, then of the digits.

    Notes
    -----
    Sound in every solution: if one of the cells took another digit, the four digits would share the three
    cells left.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> step, = find_hidden_quads(board_from_text("156 12 267 23 378 34 458 14 9"))
    >>> [(cell, digits_of(gone)) for cell, gone in step.removes]
    [(0, (1,)), (2, (2,)), (4, (3,)), (6, (4,))]
    """
    return _hidden_subsets(board, "hidden-quad", 4)


def _naked_subsets(board: Board, technique: str, size: int) -> Iterator[Step]:
    candidates, masks = board.candidates, board.layout.house_masks
    small = ~board.placed & mask_of(
        cell for cell, mask in enumerate(candidates) if 2 <= mask.bit_count() <= size
    )
    for index in board.fresh_houses():
        crowd = masks[index] & small
        if crowd.bit_count() < size:
            continue
        for cells, digits in hall_sets([(cell, candidates[cell]) for cell in bits(crowd)], size):
            others = masks[index] & ~board.placed & ~mask_of(cells)
            removes = board.removable(digits, bits(others))
            if removes:
                yield Step(
                    technique, removes=removes, rules=(index,), looks=cells, focus=cells, digits=digits
                )


def _hidden_subsets(board: Board, technique: str, size: int) -> Iterator[Step]:
    masks = board.layout.house_masks
    places = board.places()
    for index in board.fresh_houses():
        house = masks[index]
        sets = [
            (digit, found)
            for digit, everywhere in enumerate(places)
            if 2 <= (found := everywhere & house).bit_count() <= size
        ]
        for names, found in hall_sets(sets, size):
            digits, cells = mask_of(names), tuple(bits(found))
            removes = board.removable(~digits, cells)
            if removes:
                others = tuple(bits(house & ~found))
                yield Step(
                    technique, removes=removes, rules=(index,), looks=others, focus=cells, digits=digits
                )


NAKED_PAIR = Technique("naked-pair", "naked pair", find_naked_pairs)
HIDDEN_PAIR = Technique("hidden-pair", "hidden pair", find_hidden_pairs, traits=Trait.FOLLOWS_ITS_DIGITS)
NAKED_TRIPLE = Technique("naked-triple", "naked triple", find_naked_triples)
HIDDEN_TRIPLE = Technique(
    "hidden-triple", "hidden triple", find_hidden_triples, traits=Trait.FOLLOWS_ITS_DIGITS
)
NAKED_QUAD = Technique("naked-quad", "naked quad", find_naked_quads)
HIDDEN_QUAD = Technique("hidden-quad", "hidden quad", find_hidden_quads, traits=Trait.FOLLOWS_ITS_DIGITS)

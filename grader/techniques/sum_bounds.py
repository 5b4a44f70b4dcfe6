"""Bounds: how little and how much the rest of a sum can make."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_

from grader.assignments import differing, others_if_alone
from grader.board import Board, Layout, bits, mask_of
from grader.leftovers import Leftover, Shape, fresh_leftovers
from grader.steps import Step
from grader.technique import Technique

__all__ = ["SUM_BOUNDS"]


def find_sum_bounds(board: Board) -> Iterator[Step]:
    """Find the digits that are too small or too large for five or six cells with a known sum.

    What the other cells make at the least and at the most leaves room for so much in each cell. Innies
    less outies work the same, with the most of the one against the least of the other::

        five innies of a row that make 16: four make 1 + 2 + 3 + 4 = 10 at the least, so none is over 6

    Parameters
    ----------
    board : Board
        Read, never changed.

    Yields
    ------
    Step
        In the order of the sums: single houses, then groups.

    Notes
    -----
    Sound in every solution: the sum follows by the rule of 45. At the least and at the most, each cell has
    its smallest or largest candidate. Cells on one side that all see each other, and no other cell of the
    sum on that side, hold different digits, which raises the least and lowers the most. Smaller sums are
    worked out in full, as derived sums of two to four cells. Common practice, no source.

    Examples
    --------
    >>> from grader.board import bits, board_from_text
    >>> from verifier.puzzle.parts import Cage
    >>> step = next(find_sum_bounds(board_from_text("", [Cage((0, 1, 2, 3), 29)])))
    >>> step.focus, [list(bits(gone)) for _, gone in step.removes][0]
    ((4, 5, 6, 7, 8), [7, 8, 9])
    """
    for left in fresh_leftovers(board, Shape.MORE):
        yield from _bounded(board, left)


def _bounded(board: Board, left: Leftover) -> Iterator[Step]:
    layout = board.layout
    cells = tuple(bits(left.unknown_plus | left.unknown_minus))
    crowds = [*_crowds(layout, left.unknown_plus), *_crowds(layout, left.unknown_minus)]
    removes = _out_of_bounds(board, left, crowds)
    if removes:
        differ = _out_of_bounds(board, left, [(cell,) for cell in cells]) != removes
        links = [differing(layout, crowd) for crowd in crowds] if differ else []
        yield Step(
            "sum-bounds",
            removes=removes,
            houses=tuple(sorted({house for houses, _ in links for house in houses})),
            cages=tuple(sorted({cage for _, cages in links for cage in cages})),
            sums=(left.derived(),),
            looks=others_if_alone(left.cells, removes),
            focus=cells,
            digits=reduce(or_, [gone for _, gone in removes]),
        )


def _crowds(layout: Layout, cells: int) -> list[tuple[int, ...]]:
    """Return the cells of a mask in groups such that each sees all others of its group, and no other cell.

    Where some cells are linked by what they see, but not each to each, every one of them is a group by
    itself: that they differ here and there is more than a person counts on.
    """
    crowds: list[tuple[int, ...]] = []
    while cells:
        linked = grown = cells & -cells
        while grown:
            around = reduce(or_, [layout.sees[cell] for cell in bits(grown)])
            grown = around & cells & ~linked
            linked |= grown
        members = tuple(bits(linked))
        is_crowd = all(not linked & ~(layout.sees[cell] | 1 << cell) for cell in members)
        crowds += [members] if is_crowd else [(cell,) for cell in members]
        cells &= ~linked
    return crowds


def _out_of_bounds(
    board: Board, left: Leftover, crowds: Sequence[tuple[int, ...]]
) -> tuple[tuple[int, int], ...]:
    """Return what is too small or too large for a sum, if the cells of each group hold different digits.

    To take a digit away is to add what it lacks to the largest digit and one: so each cell is added.
    """
    digits = board.layout.grid.digits
    ranges = {}
    for cell in bits(left.unknown_plus | left.unknown_minus):
        mask = board.candidates[cell]
        low, high = (mask & -mask).bit_length() - 1, mask.bit_length() - 1
        ranges[cell] = (low, high) if left.unknown_plus >> cell & 1 else (digits + 1 - high, digits + 1 - low)
    total = left.rest(board) + (digits + 1) * left.unknown_minus.bit_count()
    reaches = [_reach([ranges[cell] for cell in crowd], digits) for crowd in crowds]
    least, most = (sum(ends) for ends in zip(*reaches, strict=True))
    if max(high - low for low, high in ranges.values()) <= min(total - least, most - total):
        return ()  # the others have room for any one cell, whatever it takes
    removes = []
    for crowd, (low, high) in zip(crowds, reaches, strict=True):
        for cell in crowd:
            fewer, more = _reach([ranges[other] for other in crowd if other != cell], digits)
            bounds = total - (most - high + more), total - (least - low + fewer)
            if left.unknown_minus >> cell & 1:
                bounds = digits + 1 - bounds[1], digits + 1 - bounds[0]
            gone = board.candidates[cell] & ~mask_of(range(max(bounds[0], 0), bounds[1] + 1))
            if gone:
                removes.append((cell, gone))
    return tuple(sorted(removes))


def _reach(ranges: Sequence[tuple[int, int]], digits: int) -> tuple[int, int]:
    """Return the least and the most that cells make which hold different digits, each in its range."""
    least = most = 0
    below, above = 0, digits + 1
    for low in sorted([low for low, _ in ranges]):
        below = max(low, below + 1)
        least += below
    for high in sorted([high for _, high in ranges], reverse=True):
        above = min(high, above - 1)
        most += above
    return least, most


SUM_BOUNDS = Technique("sum-bounds", "bounds of a sum", find_sum_bounds)

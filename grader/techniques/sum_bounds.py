"""Bounds: how little and how much the rest of a sum can make."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from operator import or_
from typing import NamedTuple

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.assignments import differing
from grader.reasoning.repeating_sums import repeating_cages
from grader.reasoning.rule_of_45 import LEFT_AT_MOST, InnieOutieSum, SumKind, fresh_sums
from verifier.puzzle.masks import bits, mask_of

__all__ = ["SUM_BOUNDS"]


def find_sum_bounds(board: Board) -> Iterator[Step]:
    """Five or six cells with a known sum hold nothing that is too small or too large for it.

    What the other cells make at the least and at the most leaves room for so much in each cell. Innies
    less outies work the same, with the most of the one against the least of the other::

        five innies of a row that make 16: four make 1 + 2 + 3 + 4 = 10 at the least, so none is over 6

    Yields
    ------
    Step
        In the order of the sums: single houses, then groups, then cages in which digits may repeat.

    Notes
    -----
    Sound in every solution: the sum follows by the rule of 45, or is that of a cage. At the least and at the
    most, each cell has its smallest or largest candidate. Cells on one side that all see each other, and no
    other cell of the sum on that side, hold different digits, which raises the least and lowers the most.
    Smaller sums are worked out in full, as derived sums of two to four cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> from verifier.puzzle.rules.cage import Cage
    >>> step = next(find_sum_bounds(board_from_text("", [Cage((0, 1, 2, 3), 29)])))
    >>> step.focus, [list(bits(gone)) for _, gone in step.removes][0]
    ((4, 5, 6, 7, 8), [7, 8, 9])
    """
    for left in fresh_sums(board, SumKind.MORE):
        yield from _bounded(board, left)
    for left in repeating_cages(board, range(LEFT_AT_MOST + 1, board.layout.grid.cell_count)):
        yield from _bounded(board, left)


class _View(NamedTuple):
    """A sum looked at for what is too large in it, with all its cells added.

    To take a digit away is to add what it lacks to the largest digit and one. What is too small is too large
    if all is looked at from that end.

    Parameters
    ----------
    lows : mapping of int to int
        The least of each cell.
    total : int
        What the cells make.
    turned : int
        Mask of the cells that are looked at from the largest digit.
    """

    lows: Mapping[int, int]
    total: int
    turned: int


def _bounded(board: Board, left: InnieOutieSum) -> Iterator[Step]:
    layout = board.layout
    cells = tuple(bits(left.unknown_plus | left.unknown_minus))
    views = _views(board, left)
    crowds = (*_crowds(layout, left.unknown_plus), *_crowds(layout, left.unknown_minus))
    found = [_too_large(board, view, crowds) for view in views]
    if any(found):
        alone = tuple((cell,) for cell in cells)
        if [_too_large(board, view, alone) for view in views] == found:
            crowds = alone  # nothing rests on which cells differ
        gone = {cell: found[0].get(cell, 0) | found[1].get(cell, 0) for cell in cells}
        raising = [
            _raising(view, crowds, cell) for view, out in zip(views, found, strict=True) for cell in out
        ]
        links = [differing(layout, crowd) for crowd in sorted({one for _, some in raising for one in some})]
        known = (left.plus | left.minus) & board.placed
        yield Step(
            "sum-bounds",
            removes=tuple((cell, digits) for cell, digits in gone.items() if digits),
            rules=tuple(sorted({rule for rules in links for rule in rules})),
            sums=(left.derived(),),
            looks=tuple(bits(reduce(or_, [looks for looks, _ in raising], known))),
            focus=cells,
            digits=reduce(or_, gone.values()),
        )


def _views(board: Board, left: InnieOutieSum) -> list[_View]:
    """Return the sum as it shows what is too large, and as it shows what is too small."""
    top, rest = board.layout.grid.digits + 1, left.rest(board)
    views = []
    for turned, total in ((left.unknown_minus, rest), (left.unknown_plus, -rest)):
        lows = {}
        for cell in bits(left.unknown_plus | left.unknown_minus):
            mask = board.candidates[cell]
            from_top = top + 1 - mask.bit_length()
            lows[cell] = from_top if turned >> cell & 1 else (mask & -mask).bit_length() - 1
        views.append(_View(lows, total + top * turned.bit_count(), turned))
    return views


@lru_cache(maxsize=256)
def _crowds(layout: Layout, cells: int) -> tuple[tuple[int, ...], ...]:
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
    return tuple(crowds)


def _too_large(board: Board, view: _View, crowds: Sequence[tuple[int, ...]]) -> dict[int, int]:
    """Return the digits that are too large for a view, by cell, if those of each crowd are all different."""
    candidates, top = board.candidates, board.layout.grid.digits + 1
    leasts = [_least([view.lows[cell] for cell in crowd]) for crowd in crowds]
    room = view.total - sum(leasts)
    out = {}
    for crowd, least in zip(crowds, leasts, strict=True):
        for cell in crowd:
            mask = candidates[cell]
            if mask.bit_length() - (mask & -mask).bit_length() > room:  # or the others have room in any case
                others = _least([view.lows[other] for other in crowd if other != cell])
                largest = max(room + least - others, 0)
                turned = view.turned >> cell & 1
                high = mask_of(range(1, top - largest) if turned else range(largest + 1, top))
                if mask & high:
                    out[cell] = mask & high
    return out


def _least(lows: Sequence[int]) -> int:
    """Return the least that cells make which are all different, each no less than its low."""
    least = below = 0
    for low in sorted(lows):
        below = max(low, below + 1)
        least += below
    return least


def _raising(view: _View, crowds: Sequence[tuple[int, ...]], cell: int) -> tuple[int, list[tuple[int, ...]]]:
    """Return what makes the rest of a cell's sum as large as it is at the least.

    Returns
    -------
    looks : int
        Mask of the cells that must be looked at: any others could be 1, 2, and so on, as they come.
    crowds : list of tuple of int
        The crowds whose cells must differ: those in which some could be as small as each other, for all
        that is open in them or because they are not looked at.
    """
    looks, different = 0, []
    for crowd in crowds:
        others = sorted((view.lows[other], other) for other in crowd if other != cell)
        at_ease = next((place for place, (low, _) in enumerate(others) if low > place + 1), len(others))
        looks |= mask_of(other for _, other in others[at_ease:])
        if at_ease > 1 or _least([low for low, _ in others]) > sum(low for low, _ in others):
            different.append(crowd)
    return looks, different


SUM_BOUNDS = Technique("sum-bounds", "bounds of a sum", find_sum_bounds)

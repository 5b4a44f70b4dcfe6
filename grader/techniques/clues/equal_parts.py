"""Lines whose parts, box by box, add up to the same."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from operator import and_, or_

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.clues.crowds import Reach, crowd_in, reach_of
from grader.reasoning.combinations import arrangements, combinations_of
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.lines.region_sum import RegionSum

__all__ = ["EQUAL_PART_BOUNDS", "EQUAL_PART_TOTALS"]

_TOTALS_AT_MOST = 3
"""More totals that all parts can have nobody goes through."""
_CELLS_AT_MOST = 5
"""Combinations of more cells are too many to list."""


def find_equal_part_bounds(board: Board) -> Iterator[Step]:
    """Parts that add up to the same bound each other.

    No part makes more than the one that makes least at the most, and none less than the one that makes most
    at the least. A cage within a part makes its total. With the parts r1c1 with r1c2 with r1c3, and r1c4::

        row 1    before  123456789 123456789 123456789 123456789    after  123456 123456 123456 6789

    Yields
    ------
    Step
        In the order of the lines and of their cells; what is too large, then what is too small.

    Notes
    -----
    Sound in every solution: all parts make the same, and the other cells of a part no less than their least
    and no more than their most. Cells that see each other differ.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("", clues=[RegionSum(((0, 1, 2), (3,)))])
    >>> [(step.focus, digits_of(step.digits)) for step in find_equal_part_bounds(board)][::3]
    [((0,), (7, 8, 9)), ((3,), (1, 2, 3, 4, 5))]
    """
    yield from clue_steps(board, "equal-part-bounds", {RegionSum: _bounds})


def _bounds(clue: Clue) -> Iterator[ClueFinding]:
    parts: Sequence[tuple[int, ...]] = clue.rule.parts
    reaches = {part: _reach_with_cages(clue, part) for part in parts}
    for part in parts:
        others = [other for other in parts if other != part]
        fullest = max(others, key=lambda other: (reaches[other].least, -len(other)))
        scantest = min(others, key=lambda other: (reaches[other].most, len(other)))
        for cell in part:
            beside = tuple(other for other in part if other != cell)
            reach, how = reach_of(clue, beside), "part" if beside else "part-alone"
            ceiling, floor = reaches[scantest], reaches[fullest]
            if gone := clue.open_in(cell, clue.above(ceiling.most - reach.least)):
                said = clue.says(f"{how}-most", bound=ceiling.most, number=reach.least, cells=scantest)
                rules = {*ceiling.high_rules, *reach.low_rules}
                yield ClueFinding(((cell, gone),), (*scantest, *beside), said, rules)
            if gone := clue.open_in(cell, clue.below(floor.least - reach.most)):
                said = clue.says(f"{how}-least", bound=floor.least, number=reach.most, cells=fullest)
                rules = {*floor.low_rules, *reach.high_rules}
                yield ClueFinding(((cell, gone),), (*fullest, *beside), said, rules)


def _cages_within(layout: Layout, part: tuple[int, ...]) -> tuple[int, ...]:
    """Return the cages, by number, whose cells all lie in a part."""
    mask = mask_of(part)
    return tuple([number for number, cells in layout.summed_masks if not cells & ~mask])


def _reach_with_cages(clue: Clue, part: tuple[int, ...]) -> Reach:
    """Return what a part makes: the totals of the cages within it, and what its other cells do."""
    layout = clue.layout
    cages = _cages_within(layout, part)
    caged = {cell for cage in cages for cell in layout.rules[cage].cells}
    rest = reach_of(clue, tuple(cell for cell in part if cell not in caged))
    total = sum(layout.cage(cage).total for cage in cages)
    low_rules, high_rules = (*rest.low_rules, *cages), (*rest.high_rules, *cages)
    return Reach(rest.least + total, rest.most + total, low_rules, high_rules)


def find_equal_part_totals(board: Board) -> Iterator[Step]:
    """Parts that add up to the same have few totals in common, and their cells take what makes one of these.

    With the parts r1c2 with r1c3, and r1c4, both can only make 4, 5 or 6::

        row 1    before  . 123456789 34 456    after  . 12 34 456

    Yields
    ------
    Step
        In the order of the lines; one for each part that loses something. `focus` is the cells that do.

    Notes
    -----
    Sound in every solution: all parts make the same, a total that each of them can make with different
    digits. All arrangements for these totals have been gone through, part by part.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text(". 123456789 34 456", clues=[RegionSum(((1, 2), (3,)))])
    >>> [[digits_of(gone) for _, gone in step.removes] for step in find_equal_part_totals(board)]
    [[(3, 4, 5, 6, 7, 8, 9)]]
    """
    yield from clue_steps(board, "equal-part-totals", {RegionSum: _in_common})


def _in_common(clue: Clue) -> Iterator[ClueFinding]:
    parts = clue.rule.parts
    crowds = [crowd_in(clue.layout, part) for part in parts]
    if any(
        len(part) > _CELLS_AT_MOST or len(crowd.cells) < len(part)
        for part, crowd in zip(parts, crowds, strict=True)
    ):
        return
    ways = [_ways(clue, part) for part in parts]
    common = reduce(and_, (reduce(or_, (1 << total for total in found), 0) for found in ways))
    if not 0 < common.bit_count() <= _TOTALS_AT_MOST:
        return
    rules = {rule for crowd in crowds for rule in crowd.rules}
    rules |= {cage for part in parts for cage in _cages_within(clue.layout, part)}
    for part, found in zip(parts, ways, strict=True):
        kept = [reduce(or_, masks) for masks in zip(*(found[total] for total in bits(common)), strict=True)]
        removes = tuple(
            (cell, gone) for cell, keep in zip(part, kept, strict=True) if (gone := clue.open_in(cell, ~keep))
        )
        if removes:
            said = clue.says("totals-in-common", cells=part, digits=common)
            yield ClueFinding(removes, clue.cells, said, rules)


def _ways(clue: Clue, part: tuple[int, ...]) -> Mapping[int, tuple[int, ...]]:
    """Return the totals that a part can make, the one that its cages make if they fill it."""
    found = _totals(tuple(clue.candidates[cell] for cell in part), clue.digits)
    cages = [clue.layout.cage(number) for number in _cages_within(clue.layout, part)]
    if sum(len(cage.cells) for cage in cages) < len(part):
        return found
    return {total: left for total, left in found.items() if total == sum(cage.total for cage in cages)}


@lru_cache(maxsize=1 << 12)
def _totals(masks: tuple[int, ...], digits: int) -> dict[int, tuple[int, ...]]:
    """Return the totals that different digits can make in some cells, each with what it leaves open."""
    count = len(masks)
    least, most = count * (count + 1) // 2, count * (2 * digits + 1 - count) // 2
    found = {}
    for total in range(least, most + 1):
        if combinations_of(total, count, digits):
            left = arrangements(masks, total, digits)
            if all(left):
                found[total] = left
    return found


EQUAL_PART_BOUNDS = Technique("equal-part-bounds", "bounds of equal parts", find_equal_part_bounds)
EQUAL_PART_TOTALS = Technique("equal-part-totals", "totals of equal parts", find_equal_part_totals)

"""The law of leftovers: lines and boxes of any shape that nearly cover each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import reduce
from operator import or_

from grader.board.basis import seen_by_all, sight
from grader.board.board import Board
from grader.board.patterns import Leftovers
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.uneven_boxes import LEFT_OVER_AT_MOST, Leftover, leftovers
from verifier.puzzle.masks import bits

__all__ = ["LAW_OF_LEFTOVERS", "LEFTOVER_CELL"]


def find_leftover_cells(board: Board) -> Iterator[Step]:
    """Where boxes of any shape fill as many lines but for one cell, this cell is the same as the one outside.

    The boxes stick out of the lines by one cell, and leave one. Here box 1 fills row 1 but for r1c4::

        1 1 1 2     before  r1c4  24    after  r1c4  4
        1 3 2 2             r2c1  134          r2c1  4

    Yields
    ------
    Step
        In the order of `leftovers`, with at most one step for each cell.

    Notes
    -----
    Sound in every solution: so many lines hold each digit as often as so many boxes. Without the cells that
    they share, each has one cell left, with the same digit.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.house import House
    >>> maps = (0, 1, 2, 4), (3, 6, 7, 11), (5, 8, 9, 12), (10, 13, 14, 15)
    >>> boxes = tuple(House("box", number, cells) for number, cells in enumerate(maps, 1))
    >>> board = board_from_text(". . . 2", size=4, houses=boxes)
    >>> next(find_leftover_cells(board)).places
    ((4, 2),)
    """
    return _found(board, "leftover-cell", range(1, 2))


def find_leftovers(board: Board) -> Iterator[Step]:
    r"""Where boxes of any shape fill as many lines but for a few cells, what sticks out holds what is left.

    Up to four lines side by side are held against as many boxes. Two to four cells stick out and as many are
    left, with the same digits. So a digit that the ones cannot take goes from the others; and one that stands
    in the ones stands in the others too, where it has one place, or goes from what sees all its places::

        boxes 1 and 2 fill rows 1 and 2 but for r1c9 and r2c9, and stick out at r3c1 and r3c4
        r1c9  47       before  r3c1  457      after  r3c1  47
        r2c9  467              r3c4  46789           r3c4  467

    Yields
    ------
    Step
        In the order of `leftovers`.

    Notes
    -----
    Sound in every solution: so many lines hold each digit as often as so many boxes, and so do the cells that
    they do not share.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.house import House
    >>> maps = (0, 1, 4, 5), (2, 3, 6, 10), (7, 11, 14, 15), (8, 9, 12, 13)
    >>> boxes = tuple(House("box", number, cells) for number, cells in enumerate(maps, 1))
    >>> board = board_from_text(". . 1 .\n3 . . .", size=4, houses=boxes)
    >>> step = next(find_leftovers(board))  # box 1 fills row 1 but for r1c3 and r1c4
    >>> step.focus, step.pattern.how, step.places
    ((2, 3, 4, 5), 'placed', ((5, 1),))
    """
    return _found(board, "law-of-leftovers", range(2, LEFT_OVER_AT_MOST + 1))


def _found(board: Board, technique: str, sizes: range) -> Iterator[Step]:
    for left in leftovers(board.layout):
        if left.beyond.bit_count() in sizes and (left.beyond | left.within) & board.fresh:
            for here, there in ((left.beyond, left.within), (left.within, left.beyond)):
                standing = list(_standing(board, technique, left, here, there))
                yield from standing or _closed(board, technique, left, here, there)


def _closed(board: Board, technique: str, left: Leftover, here: int, there: int) -> Iterator[Step]:
    """Yield what goes from the cells here, for no cell there can take it."""
    open_there = reduce(or_, [board.candidates[cell] for cell in bits(there)])
    removes = board.removable(board.layout.all_digits & ~open_there, bits(here & ~board.placed))
    if removes:
        pattern = Leftovers("closed", left.lines, left.boxes, tuple(bits(here)), tuple(bits(there)))
        digits = reduce(or_, [gone for _, gone in removes])
        step = _step(technique, pattern, digits, pattern.there)
        yield replace(step, removes=removes)


def _standing(board: Board, technique: str, left: Leftover, here: int, there: int) -> Iterator[Step]:
    """Yield what follows from each digit that stands there and not yet here."""
    places, layout = board.places(), board.layout
    for cell in bits(there & board.placed):
        bit = board.candidates[cell]
        digit = bit.bit_length() - 1
        found = places[digit] & here
        if not found or found & board.placed or places[digit] & there & board.placed != 1 << cell:
            continue
        is_one = not found & (found - 1)
        sides = tuple(bits(here)), tuple(bits(there))
        how = "placed" if is_one else "seen"
        pattern = Leftovers(how, left.lines, left.boxes, *sides, (cell,), tuple(bits(found)))
        step = _step(technique, pattern, bit, tuple(bits(here & ~found | 1 << cell)))
        if is_one:
            yield replace(step, places=((found.bit_length() - 1, digit),))
            continue
        gone = places[digit] & seen_by_all(layout, found) & ~here
        if gone:
            links = reduce(or_, [sight(layout, found, 1 << other).rules for other in bits(gone)])
            rules = (*step.rules, *(rule for rule in bits(links) if rule not in step.rules))
            yield replace(step, removes=tuple((other, bit) for other in bits(gone)), rules=rules)


def _step(technique: str, pattern: Leftovers, digits: int, looks: tuple[int, ...]) -> Step:
    """Return a step without its effect."""
    return Step(
        technique,
        rules=(*pattern.lines, *pattern.boxes),
        looks=looks,
        focus=tuple(sorted((*pattern.here, *pattern.there))),
        digits=digits,
        pattern=pattern,
    )


LEFTOVER_CELL = Technique("leftover-cell", "law of leftovers with one cell", find_leftover_cells)
LAW_OF_LEFTOVERS = Technique("law-of-leftovers", "law of leftovers", find_leftovers)

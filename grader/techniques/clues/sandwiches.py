"""Sandwiches: where the smallest and the largest digit of a line stand, and what is between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import reduce
from operator import or_
from typing import NamedTuple

from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.clues.clue import Clue, ClueFinding, clue_steps
from grader.reasoning.combinations import combinations_of
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.edge.sandwich import Sandwich

__all__ = ["SANDWICH_ENDS", "SANDWICH_FILLING"]

_PLACES_AT_MOST = 4
"""A person goes through no more places of the two ends."""


def find_sandwich_ends(board: Board) -> Iterator[Step]:
    """The smallest and the largest digit of a sandwich stand as far apart as its total asks.

    So many different digits make the total, no fewer and no more. Where the one has no place as far off as
    that, the other cannot stand. A sandwich of 35 holds all digits from 2 to 8::

        row 1    before  19 123456789 . . . . . 123456789 19    after  19 2345678 . . . . . 2345678 19

    Yields
    ------
    Step
        In the order of the clues; one for each. `focus` is the cells that lose something.

    Notes
    -----
    Sound in every solution: both digits stand in the line once, with different digits between them, none of
    which is the smallest or the largest.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> board = board_from_text("", size=4, clues=[Sandwich((0, 1, 2, 3), 5)])
    >>> [[(cell, digits_of(gone)) for cell, gone in step.removes] for step in find_sandwich_ends(board)]
    [[(1, (1, 4)), (2, (1, 4))]]
    """
    yield from clue_steps(board, "sandwich-ends", {Sandwich: _ends})


def _ends(clue: Clue) -> Iterator[ClueFinding]:
    if clue.house is None:
        return
    lengths, top = _lengths(clue), clue.digits
    removes: dict[int, int] = {}
    looks: set[int] = set()
    for place, cell in enumerate(clue.cells):
        partners = [other for at, other in enumerate(clue.cells) if abs(at - place) - 1 in lengths]
        for digit, needed in ((1, top), (top, 1)):
            without = not any(clue.candidates[other] >> needed & 1 for other in partners)
            if without and clue.candidates[cell] >> digit & 1:
                removes[cell] = removes.get(cell, 0) | 1 << digit
                looks.update(partners)
    if removes:
        how = "ends-together" if lengths == [0] else "ends-apart"
        said = clue.says(how, ways=(tuple(lengths),), bound=top, total=clue.rule.total)
        yield ClueFinding(tuple(removes.items()), looks, said, (clue.house,))


def _lengths(clue: Clue) -> list[int]:
    """Return how many digits can stand between the ends."""
    return [count for count in range(clue.digits - 1) if _fillings(clue, count)]


def _fillings(clue: Clue, count: int) -> list[int]:
    """Return the masks of so many different digits that make the total, neither end among them."""
    total = clue.rule.total
    if not count:
        return [] if total else [0]
    # Each digit is told as one less, so that they are those from 1 on.
    return [mask << 1 for mask in combinations_of(total - count, count, clue.digits - 2)]


def find_sandwich_fillings(board: Board) -> Iterator[Step]:
    """Where the ends of a sandwich have few places, a digit goes that fits with none of them.

    Between the ends stand digits that make the total, outside stand all the others. A sandwich of 5 in a row
    of six, whose ends can only be r1c2 and r1c5::

        row 1    before  2345 16 2345 2345 16 2345    after  45 16 23 23 16 45

    Yields
    ------
    Step
        In the order of the clues; one for each that has four places of its ends or fewer. `focus` is all
        cells of the line.

    Notes
    -----
    Sound in every solution: the ends have one of these places, with a combination of the total between
    them. All have been gone through.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> row = "2345 16 2345 2345 16 2345"
    >>> board = board_from_text(row, size=6, clues=[Sandwich((0, 1, 2, 3, 4, 5), 5)])
    >>> [[digits_of(gone) for _, gone in step.removes] for step in find_sandwich_fillings(board)]
    [[(2, 3), (4, 5), (4, 5), (2, 3)]]
    """
    yield from clue_steps(board, "sandwich-filling", {Sandwich: _filled})


class _Place(NamedTuple):
    """One place of the two ends.

    Parameters
    ----------
    ends : tuple of int
        The two cells, in the order of the line.
    fillings : tuple of int
        The masks of digits that can stand between them.
    kept : mapping of int to int
        What each cell of the line keeps.
    """

    ends: tuple[int, int]
    fillings: tuple[int, ...]
    kept: Mapping[int, int]


def _filled(clue: Clue) -> Iterator[ClueFinding]:
    places = list(_places(clue))
    if clue.house is None or not 0 < len(places) <= _PLACES_AT_MOST:
        return
    kept = {cell: reduce(or_, (place.kept[cell] for place in places)) for cell in clue.cells}
    removes = tuple((cell, gone) for cell, keep in kept.items() if (gone := clue.open_in(cell, ~keep)))
    if removes:
        fillings = dict.fromkeys(filling for place in places for filling in place.fillings)
        said = clue.says(
            "one-filling" if len(places) == 1 else "fillings",
            bound=clue.digits,
            number=len(places),
            total=clue.rule.total,
            cells=places[0].ends,
            ways=tuple(tuple(bits(filling)) for filling in fillings),
        )
        yield ClueFinding(removes, clue.cells, said, (clue.house,), focus=clue.cells)


def _places(clue: Clue) -> Iterator[_Place]:
    """Yield the places of the two ends that leave anything to stand between them."""
    for count in _lengths(clue):
        for first in range(len(clue.cells) - count - 1):
            place = _place(clue, first, first + count + 1)
            if place is not None:
                yield place


def _place(clue: Clue, first: int, last: int) -> _Place | None:
    """Return one place of the ends with what is left around it; None where they cannot stand there."""
    cells, top = clue.cells, clue.digits
    one, other = cells[first], cells[last]
    ends = [
        (1 << near, 1 << far)
        for near, far in ((1, top), (top, 1))
        if clue.candidates[one] >> near & 1 and clue.candidates[other] >> far & 1
    ]
    inside, outside = cells[first + 1 : last], (*cells[:first], *cells[last + 1 :])
    middle = mask_of(range(2, top))
    fillings = tuple(
        filling
        for filling in _fillings(clue, len(inside))
        if _can_hold(clue, inside, filling) and _can_hold(clue, outside, middle & ~filling)
    )
    if not ends or not fillings:
        return None
    kept = dict.fromkeys(inside, reduce(or_, fillings))
    kept |= dict.fromkeys(outside, reduce(or_, (middle & ~filling for filling in fillings)))
    kept |= {one: reduce(or_, (near for near, _ in ends)), other: reduce(or_, (far for _, far in ends))}
    return _Place((one, other), fillings, kept)


def _can_hold(clue: Clue, cells: tuple[int, ...], digits: int) -> bool:
    """Whether each of the cells takes one of the digits, and each digit has a cell."""
    masks = [clue.candidates[cell] for cell in cells]
    return all(mask & digits for mask in masks) and not digits & ~reduce(or_, masks, 0)


SANDWICH_ENDS = Technique("sandwich-ends", "ends of a sandwich", find_sandwich_ends)
SANDWICH_FILLING = Technique("sandwich-filling", "filling of a sandwich", find_sandwich_fillings)

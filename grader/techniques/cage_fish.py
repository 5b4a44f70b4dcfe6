"""Fish with cages: a cage that is certain to hold a digit counts like a line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import combinations
from operator import and_, or_
from typing import NamedTuple

from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.patterns import Fish
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.links import open_cages
from grader.reasoning.combinations import combinations_by_total
from grader.reasoning.hall import hall_sets, union_of
from verifier.puzzle.masks import bits, mask_of

__all__ = ["CAGE_FISH"]

_LARGEST = 3
"""A person follows a digit through no more cages and houses at once."""


def find_cage_fish(board: Board) -> Iterator[Step]:
    """A digit that two or three cages and houses keep in as many houses goes from the rest of these.

    Every open combination of a cage has the digit, so the cage holds it once, as a house does. Two such
    cages, or a cage and a house, that do not share a place of the digit and have all their places for it
    in two columns (or rows, or boxes) leave nothing of it to the rest of these; likewise with three::

        cage of 8 in r3c1 r4c1 r4c2    125 or 134, so it holds a 1, in column 1 or 2
        row 7    has its 1 in column 1 or 2 as well: no other 1 in columns 1 and 2

    Yields
    ------
    Step
        In the order of digits, of what it is confined to, and of how many there are; first two, then
        three, where no two of the three are enough. Its `rules` are first the houses in which the digit
        is confined, then those it goes from, as many as the former and the cages together, then the cages.

    Notes
    -----
    Sound in every solution: each cage and each house holds the digit once, all in different cells, all of
    them in the houses it is confined to, and each of these holds it once. A cage with all its places for the
    digit in one house is left out: that house does as well.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> text = '''
    ... .
    ... .
    ... .
    ... .
    ... .
    ... .
    ... . . - - - - - - -'''
    >>> board = board_from_text(text.replace("-", "23456789"), [Cage((18, 27, 28), 8)])
    >>> step, = find_cage_fish(board)
    >>> step.focus, [cell for cell, _ in step.removes][:5], step.digits == 1 << 1
    ((18, 27, 28, 54, 55), [0, 1, 9, 10, 19], True)
    """
    layout, places = board.layout, board.places()
    cages = [(cage.cage, cage.empty, reduce(and_, cage.combinations, -1)) for cage in open_cages(board)]
    for digit in layout.grid.all_digits:
        certain = [
            _Base(layout.masks[cage], places[digit] & empty, cage)
            for cage, empty, held in cages
            if held >> digit & 1 and not _in_one_house(layout, places[digit] & empty)
        ]
        if certain:
            for kind in ("row", "column", "box"):
                yield from _confined(board, digit, places[digit], certain, kind)


class _Base(NamedTuple):
    """A house or a cage that holds the digit: all its cells, its places for the digit, and its number."""

    cells: int
    places: int
    rule: int


def _in_one_house(layout: Layout, cells: int) -> bool:
    houses = layout.houses_of[cells.bit_length() - 1]
    return any(not cells & ~layout.house_masks[house] for house in houses)


def _confined(board: Board, digit: int, places: int, certain: Sequence[_Base], kind: str) -> Iterator[Step]:
    """Yield what goes from the houses of one kind since cages, and houses of other kinds, are on them."""
    houses, masks = board.layout.houses, board.layout.house_masks
    cover = [index for index, house in enumerate(houses) if house.kind == kind]
    sources = [
        _Base(masks[index], places & masks[index], index)
        for index, house in enumerate(houses)
        if house.kind != kind
    ]
    sources += certain
    meets = {}
    for name, source in enumerate(sources):
        met = mask_of(other for other in cover if source.places & masks[other])
        if 2 <= met.bit_count() <= _LARGEST:
            meets[name] = met
    if max(meets, default=-1) < len(sources) - len(certain):
        return  # no cage takes part
    for size in range(2, _LARGEST + 1):
        for names, met in hall_sets(list(meets.items()), size):
            fewer = [meets[one] | meets[other] for one, other in combinations(names, 2)]
            if all(together.bit_count() >= size for together in fewer):
                yield from _fish(board, digit, places, [sources[name] for name in names], met)


def _fish(board: Board, digit: int, places: int, base: Sequence[_Base], met: int) -> Iterator[Step]:
    """Yield the step of one fish, if it has a cage, shares no place and removes anything."""
    layout, bit = board.layout, 1 << digit
    pairs = list(combinations(base, 2))
    inside = reduce(or_, [one.places for one in base])
    covered = union_of(layout.house_masks, bits(met))
    gone = places & covered & ~inside
    is_fresh = any(one.cells & board.fresh for one in base)
    if (
        not gone
        or not is_fresh
        or base[-1].rule not in layout.cage_numbers
        or any(a.places & b.places for a, b in pairs)
    ):
        return
    own = [one.rule for one in base]
    looks = reduce(or_, [a.cells & b.cells for a, b in pairs])  # no place there, or it would count twice
    for one in base:
        looks |= one.cells & ~_spared(board, one, bit, covered)
    houses, cages = layout.houses_among(own), layout.cages_among(own)
    yield Step(
        "cage-fish",
        removes=tuple((cell, bit) for cell in bits(gone)),
        rules=(*houses, *bits(met), *cages),
        looks=tuple(bits(looks)),
        focus=tuple(bits(inside)),
        digits=bit,
        pattern=Fish((*houses, *cages), tuple(bits(met))),
    )


def _spared(board: Board, base: _Base, bit: int, covered: int) -> int:
    """Return the cells of a base that need no look: the digit may stand in them anyway."""
    if base.rule not in board.layout.cage_numbers:
        return covered
    by_total = all(combination & bit for combination in combinations_by_total(board, base.rule))
    return covered & ~board.placed if by_total else 0


CAGE_FISH = Technique(
    "cage-fish", "fish with cages", find_cage_fish, source="Cages in fish are our own derivation."
)

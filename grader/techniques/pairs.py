"""Pairs of cells whose digits must fit, and digits all of whose places leave nothing for a cell."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache, reduce
from itertools import chain
from operator import and_

from grader.board.board import Board, Layout, bits, digits_of
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.assignments import differing
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.pairs import fits_of, has_own_houses, partners_of

__all__ = ["ALL_PLACES", "PAIR_VALUES"]

_MOST_PLACES = 4
"""More places of a digit nobody looks at together."""


def find_pair_values(board: Board) -> Iterator[Step]:
    """A digit goes from a cell where no digit of its neighbour fits it.

    With the rule that no neighbours differ by one, no 5 stands beside a cell that can only be 4 or 6::

        row 1    before  46 3579    after  46 379

    Yields
    ------
    Step
        In the order of the pairs; `focus` is the cell, then its neighbour.

    Notes
    -----
    Sound in every solution: the neighbour holds one of its open digits, and each of them bars the digit.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.not_consecutive import NotConsecutive
    >>> rule = NotConsecutive(((0, 1),))
    >>> board = opening_board(make_puzzle("classic", Grid.square(4), givens={0: 2}, clues=[rule]))
    >>> [(step.focus, digits_of(step.removes[0][1])) for step in find_pair_values(board)]
    [((1, 0), (1, 3))]
    """
    fits_by_pair = fits_of(board.layout)
    if not fits_by_pair:
        return
    candidates, told_otherwise = board.candidates, _told_otherwise(board)
    for (other, cell), fits in fits_by_pair.items():
        if not board.fresh >> other & 1 or not candidates[cell] & (candidates[cell] - 1):
            continue
        for rule, left in fits:
            if rule in told_otherwise:
                continue
            gone = candidates[cell]
            for digit in digits_of(candidates[other]):
                gone &= ~left[digit]
            if gone:
                yield Step(
                    "pair-values", removes=((cell, gone),), rules=(rule,), looks=(other,), focus=(cell, other)
                )


def _told_otherwise(board: Board) -> frozenset[int]:
    """Return the numbers of the rules that a cell sees by, or whose bounds have a technique of their own."""
    layout = board.layout
    differ = (number for number, _ in layout.partners)
    return frozenset(chain(differ, (n for n, rule in enumerate(layout.rules) if rule.word == "greater")))


def find_all_places(board: Board) -> Iterator[Step]:
    """What goes wherever a digit of a house stands goes now.

    All places of the digit see one cell, along a diagonal or by a chess move, or bar what is open there by a
    mark, a line or a clue at the edge with few empty cells. On
    the falling diagonal 4 has to be in r2c2 or r5c5, and r2c5 sees both::

        r2c2  24    r2c5  before 478    after 78
        r5c5  45

    Yields
    ------
    Step
        In the order of the houses, then of the digits; one step for each cell. `focus` is the places.

    Notes
    -----
    Sound in every solution: the digit stands in one of its places, and from each of them the same follows.
    Lines and boxes alone need no such step: there it is a locked candidate.

    Examples
    --------
    >>> from grader.board.board import opening_board
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid(4, 4, 0, 0, 4)
    >>> puzzle = make_puzzle("classic", grid, givens={1: 1}, houses=(*grid.houses, *grid.diagonals[:1]))
    >>> [(step.focus, step.removes == ((11, 1 << 1),)) for step in find_all_places(opening_board(puzzle))][:1]
    [((10, 15), True)]
    """
    layout = board.layout
    if not fits_of(layout) and not has_own_houses(layout) and not filled_clues(layout):
        return
    places, partners = board.places(), partners_of(layout)
    mates = _mates(layout)
    # What a clue leaves may change where no cell of the house does.
    houses = range(len(layout.houses)) if filled_clues(layout) else board.fresh_houses()
    for house in houses:
        mask = layout.house_masks[house]
        for digit in layout.grid.all_digits:
            found = tuple(bits(places[digit] & mask))
            if not 2 <= len(found) <= _MOST_PLACES:
                continue
            around = (layout.sees[place] | partners[place] | mates[place] for place in found)
            near = reduce(and_, around) & ~mask
            for cell in bits(near & ~board.placed):
                gone, rules, looks = _gone_from(board, cell, found, digit)
                if gone:
                    yield Step(
                        "all-places",
                        removes=((cell, gone),),
                        rules=tuple(dict.fromkeys((house, *rules))),
                        looks=tuple(bits((mask & ~places[digit]) | looks)),
                        focus=found,
                        digits=1 << digit,
                    )


@lru_cache(maxsize=8)
def _mates(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of the cells of its clues."""
    masks = [0] * layout.grid.cell_count
    for _, mask in filled_clues(layout):
        for cell in bits(mask):
            masks[cell] |= mask & ~(1 << cell)
    return tuple(masks)


def _gone_from(board: Board, cell: int, places: tuple[int, ...], digit: int) -> tuple[int, list[int], int]:
    """Return what goes from a cell whichever place the digit takes, by which rules, and where one looks."""
    layout, gone, rules, looks = board.layout, board.candidates[cell], list[int](), 0
    for place in places:
        barred: dict[int, int] = {}  # what each rule takes
        if layout.sees[place] >> cell & 1:
            barred[layout.link(place, cell)[0]] = 1 << digit
        for fit in fits_of(layout).get((place, cell), ()):
            barred.setdefault(fit.rule, layout.all_digits & ~fit.left[digit])
        for clue in _clues_with(layout, place, cell):
            barred[clue] = ~_left_with(board, clue, place, digit).get(cell, -1)
        rule = max(barred, key=lambda number: (gone & barred[number]).bit_count(), default=None)
        if rule is None:
            return 0, [], 0
        gone &= barred[rule]
        rules.append(rule)
        if rule in dict(filled_clues(layout)) and rule in _clues_with(layout, place, cell):
            rules += differing(layout, layout.rules[rule].cells)
            looks |= layout.masks[rule] & ~(1 << place) & ~(1 << cell)
    return gone, rules, looks


def _clues_with(layout: Layout, one: int, other: int) -> list[int]:
    """Return the clues that hold two cells, but for those over pairs."""
    both = 1 << one | 1 << other
    pairs = {fit.rule for fit in fits_of(layout).get((one, other), ())}
    return [number for number, mask in filled_clues(layout) if not both & ~mask and number not in pairs]


def _left_with(board: Board, clue: int, place: int, digit: int) -> Mapping[int, int]:
    """Return what a clue leaves in its cells if one of them holds a digit."""
    candidates = list(board.candidates)
    candidates[place] = 1 << digit
    return left_by_clue(board.layout, clue, candidates)


PAIR_VALUES = Technique("pair-values", "digits that fit a pair", find_pair_values, source="Own derivation.")
ALL_PLACES = Technique("all-places", "all places of a digit", find_all_places, source="Own derivation.")

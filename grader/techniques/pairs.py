"""Pairs of cells whose digits must fit, and digits all of whose places leave nothing for a cell."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, reduce
from itertools import chain, product
from operator import and_, or_

from grader.board.basis import Basis, joined
from grader.board.board import Board, Layout, bits, digits_of, mask_of
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.assignments import differing
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.pairs import fits_of, has_own_houses, partners_of

__all__ = ["ALL_PLACES", "PAIR_VALUES"]

_MOST_PLACES = 4
"""More places of a digit nobody looks at together."""
_MOST_LEFT = 2
"""Nor at more digits of a neighbour."""


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
    mark, a line or a clue at the edge with few empty cells, or by what they leave for a neighbour. On
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
    places, reach = board.places(), _reach(layout)
    # What a clue or a neighbour leaves may change where no cell of the house does.
    bars_alone = not fits_of(layout) and not filled_clues(layout)
    for house in board.fresh_houses() if bars_alone else range(len(layout.houses)):
        mask = layout.house_masks[house]
        for digit in layout.grid.all_digits:
            found = tuple(bits(places[digit] & mask))
            if not 2 <= len(found) <= _MOST_PLACES:
                continue
            near = reduce(and_, (reach[place] | 1 << place for place in found))
            near &= ~mask | mask_of(found)
            for cell in bits(near & ~board.placed):
                gone, basis = _gone_from(board, cell, found, digit)
                if gone:
                    yield Step(
                        "all-places",
                        removes=((cell, gone),),
                        rules=tuple(dict.fromkeys((house, *bits(basis.rules)))),
                        looks=tuple(bits((mask & ~places[digit]) | basis.looks)),
                        focus=found,
                        digits=1 << digit,
                    )


@lru_cache(maxsize=8)
def _reach(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of those in which a digit of it can rule something out."""
    near = [layout.sees[cell] | mask for cell, mask in enumerate(partners_of(layout))]
    for _, mask in filled_clues(layout):
        for cell in bits(mask):
            near[cell] |= mask & ~(1 << cell)
    further = [reduce(or_, (near[other] for other in bits(mask)), 0) for mask in _marked(layout)]
    return tuple(one | other for one, other in zip(near, further, strict=True))


@lru_cache(maxsize=8)
def _marked(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of those to which a rule says more than that they differ."""
    masks = [0] * layout.grid.cell_count
    for (one, other), fits in fits_of(layout).items():
        for fit in fits:
            if any(left | 1 << digit != layout.all_digits for digit, left in enumerate(fit.left) if digit):
                masks[one] |= 1 << other
    return tuple(masks)


def _gone_from(board: Board, cell: int, places: tuple[int, ...], digit: int) -> tuple[int, Basis]:
    """Return what goes from a cell whichever place the digit takes, and what that rests on."""
    gone, by_place = board.candidates[cell], []
    for place in places:
        by_place.append(list(_barred(board, place, digit, cell)))
        gone &= reduce(or_, (mask for mask, _ in by_place[-1]), 0)
        if not gone:
            return 0, Basis()
    return gone, joined(_needed(ways, gone) for ways in by_place)


def _needed(ways: list[tuple[int, Basis]], gone: int) -> Basis:
    """Return what some digits rest on that go in several ways: those that take most of them first."""
    basis = Basis()
    while gone:
        mask, why = max(ways, key=lambda way: ((way[0] & gone).bit_count(), -way[1].size))
        gone, basis = gone & ~mask, joined((basis, why))
    return basis


def _barred(board: Board, place: int, digit: int, cell: int) -> Iterator[tuple[int, Basis]]:
    """Yield masks of digits that a digit in one cell bars from another cell, and why."""
    layout, candidates = board.layout, board.candidates
    if place == cell:
        yield layout.all_digits & ~(1 << digit), Basis()
        return
    yield from _barred_at_once(layout, place, digit, cell)
    for clue in _clues_with(layout, place, cell):
        supposed = [1 << digit if other == place else mask for other, mask in enumerate(candidates)]
        left = left_by_clue(layout, clue, supposed).get(cell, -1)
        rules = mask_of((clue, *differing(layout, layout.rules[clue].cells)))
        yield ~left, Basis(rules, layout.masks[clue] & ~(1 << place | 1 << cell))
    for middle in bits(_marked(layout)[place] & (layout.sees[cell] | partners_of(layout)[cell])):
        if middle != cell:
            yield from _barred_through(board, place, digit, middle, cell)


def _barred_at_once(layout: Layout, place: int, digit: int, cell: int) -> Iterator[tuple[int, Basis]]:
    if layout.sees[place] >> cell & 1:
        yield 1 << digit, Basis(rules=1 << layout.link(place, cell)[0])
    for fit in fits_of(layout).get((place, cell), ()):
        yield layout.all_digits & ~fit.left[digit], Basis(rules=1 << fit.rule)


def _barred_through(
    board: Board, place: int, digit: int, middle: int, cell: int
) -> Iterator[tuple[int, Basis]]:
    """Yield what is barred by all that the neighbour of a digit can then be: two at the most."""
    layout = board.layout
    barred = list(_barred_at_once(layout, place, digit, middle))
    left = reduce(lambda mask, way: mask & ~way[0], barred, board.candidates[middle])
    if 0 < left.bit_count() <= _MOST_LEFT:
        by_each = [list(_barred_at_once(layout, middle, other, cell)) for other in bits(left)]
        for ways in product(*by_each):
            gone = reduce(and_, (mask for mask, _ in ways))
            if gone:
                why = joined([*(basis for _, basis in barred), *(basis for _, basis in ways)])
                yield gone, joined((why, Basis(looks=1 << middle)))


def _clues_with(layout: Layout, one: int, other: int) -> list[int]:
    """Return the clues that hold two cells, but for those over pairs."""
    both = 1 << one | 1 << other
    pairs = {fit.rule for fit in fits_of(layout).get((one, other), ())}
    return [number for number, mask in filled_clues(layout) if not both & ~mask and number not in pairs]


PAIR_VALUES = Technique("pair-values", "digits that fit a pair", find_pair_values, source="Own derivation.")
ALL_PLACES = Technique("all-places", "all places of a digit", find_all_places, source="Own derivation.")

"""What a digit in one cell bars from others: at once, by a clue with few empty cells, or by a neighbour.

What is barred is a *sheet*: one mask for the candidates of the whole grid, cell after cell, so that what
several places have in common is a single operation.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from itertools import product
from operator import and_, or_

from grader.board.basis import Basis, joined
from grader.board.board import Board
from grader.board.layout import Layout
from grader.reasoning.assignments import differing
from grader.reasoning.clues.listed import list_ways
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.pairs import fits_of
from verifier.puzzle.masks import bits, mask_of

__all__ = ["Barring", "says_more"]

_MOST_LEFT = 2
"""At more digits of a neighbour nobody looks together."""


class Barring:
    """What each digit bars wherever it stands, on one board: worked out when it is asked for.

    Parameters
    ----------
    board : Board
        Read, never changed.

    Examples
    --------
    Beside a 1 a consecutive neighbour is 2, so the next one is 1 or 3:

    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.marks.consecutive import Consecutive
    >>> board = board_from_text("", size=4, clues=[Consecutive((0, 1)), Consecutive((1, 2))])
    >>> [(cell, list(bits(gone))) for cell, gone in Barring(board).gone_from_all((0,), 1) if cell == 2]
    [(2, [1, 2, 4])]
    """

    def __init__(self, board: Board) -> None:
        self._board = board
        self._layout = board.layout
        self._reach = _reach(board.layout)
        self._open = _sheet(
            board.layout,
            ((cell, board.candidates[cell]) for cell in bits(board.layout.all_cells & ~board.placed)),
        )
        self._barred: dict[tuple[int, int], int] = {}
        for clue in {clue for some in _clues_of_cells(board.layout) for clue in some}:
            list_ways(board.layout, clue, board.candidates)

    def reached_from(self, places: int) -> int:
        """Return the mask of the cells whose open digits count for what a digit in some places bars."""
        return _reached_from(self._layout, places)

    def gone_from_all(self, places: Iterable[int], digit: int) -> Iterator[tuple[int, int]]:
        """Yield what goes wherever in some places a digit stands: empty cells, with masks of open digits."""
        gone = self._open
        for place in places:
            gone &= self._bars(place, digit)
            if not gone:
                return
        width = _width(self._layout)
        while gone:
            cell = ((gone & -gone).bit_length() - 1) // width
            yield cell, gone >> cell * width & self._layout.all_digits
            gone = gone >> (cell + 1) * width << (cell + 1) * width

    def _bars(self, place: int, digit: int) -> int:
        """Return the sheet of what goes if a digit stands in a place."""
        if (place, digit) not in self._barred:
            candidates = self._board.candidates
            there = tuple([candidates[cell] for cell in self._reach[place][1]])
            self._barred[place, digit] = _bars(self._layout, place, digit, there)
        return self._barred[place, digit]

    def why(self, place: int, digit: int, cell: int, gone: int) -> Basis:
        """Return what it rests on that some digits go from a cell if a digit stands in a place."""
        ways, basis = [*self._ways(place, digit, cell)] if place != cell else [], Basis()
        while ways and gone:
            mask, more = max(ways, key=lambda way: ((way[0] & gone).bit_count(), -way[1].size))
            gone, basis = gone & ~mask, joined((basis, more))
        return basis

    def _ways(self, place: int, digit: int, cell: int) -> Iterator[tuple[int, Basis]]:
        """Yield masks of digits that go from a cell, each with what that rests on."""
        layout, candidates = self._layout, self._board.candidates
        yield from _directly(layout, place, digit, cell)
        for clue in _clues_of_cells(layout)[place]:
            left = _left_by(layout, clue, place, digit, candidates).get(cell)
            if left is not None:
                rules = mask_of((clue, *differing(layout, layout.rules[clue].cells)))
                yield ~left, Basis(rules, layout.masks[clue] & ~(1 << place | 1 << cell))
        for middle in bits(_marked(layout)[place] & ~(1 << cell)):
            left = _left_of(layout, middle, candidates[middle], place, digit)
            if left:
                first = list(_directly(layout, place, digit, middle))
                then = [list(_directly(layout, middle, one, cell)) for one in bits(left)]
                for ways in product(*then):
                    why = joined([basis for _, basis in (*first, *ways)])
                    yield reduce(and_, (mask for mask, _ in ways)), joined((why, Basis(looks=1 << middle)))


def _directly(layout: Layout, place: int, digit: int, cell: int) -> Iterator[tuple[int, Basis]]:
    """Yield masks of digits that a digit bars from another cell by one rule, and the rule."""
    if layout.sees[place] >> cell & 1:
        yield 1 << digit, Basis(rules=1 << layout.link(place, cell)[0])
    for fit in fits_of(layout).get((place, cell), ()):
        yield layout.all_digits & ~fit.left[digit], Basis(rules=1 << fit.rule)


@lru_cache(maxsize=1 << 14)
def _bars(layout: Layout, place: int, digit: int, there: tuple[int, ...]) -> int:
    """Return the sheet of what goes if a digit stands in a place, by what is open in the cells it reaches."""
    at_once, width = _at_once(layout), _width(layout)
    candidates = {place: 1 << digit, **dict(zip(_reach(layout)[place][1], there, strict=True))}
    barred = at_once[place][digit]
    for clue in _clues_of_cells(layout)[place]:
        left = _left_by(layout, clue, place, digit, candidates)
        barred |= _sheet(layout, ((cell, layout.all_digits & ~mask) for cell, mask in left.items()))
    for middle in bits(_marked(layout)[place]):
        left_there = _left_of(layout, middle, candidates[middle], place, digit)
        if left_there:
            barred |= reduce(and_, [at_once[middle][one] for one in bits(left_there)])
    own = place * width
    return barred & ~(layout.all_digits << own) | (layout.all_digits & ~(1 << digit)) << own


def _left_by(
    layout: Layout, clue: int, place: int, digit: int, candidates: Sequence[int] | Mapping[int, int]
) -> Mapping[int, int]:
    """Return what a digit in a place leaves in the cells of a clue."""
    supposed = {cell: candidates[cell] for cell in layout.rules[clue].cells}
    return left_by_clue(layout, clue, {**supposed, place: 1 << digit})


def _left_of(layout: Layout, middle: int, candidates: int, place: int, digit: int) -> int:
    """Return what is left for a neighbour of a digit, if that is little."""
    left = candidates & ~(_at_once(layout)[place][digit] >> middle * _width(layout))
    return left if left.bit_count() <= _MOST_LEFT else 0


@lru_cache(maxsize=1 << 12)
def _reached_from(layout: Layout, places: int) -> int:
    return reduce(or_, [_reach(layout)[place][0] for place in bits(places)], 0)


def _width(layout: Layout) -> int:
    """Return how many bits of a sheet a cell has."""
    return layout.grid.digits + 1


def _sheet(layout: Layout, masks: Iterable[tuple[int, int]]) -> int:
    """Return the sheet of some cells, each with a mask of digits."""
    width, sheet = _width(layout), 0
    for cell, mask in masks:
        sheet |= mask << cell * width
    return sheet


@lru_cache(maxsize=8)
def _at_once(layout: Layout) -> tuple[tuple[int, ...], ...]:
    """Return, for each cell and digit, the sheet of what that bars from other cells by one rule."""
    width, digits = _width(layout), range(layout.grid.digits + 1)
    peers = [_sheet(layout, ((peer, 1) for peer in own)) for own in layout.peers]
    found = [[own << digit for digit in digits] for own in peers]
    for (cell, other), fits in fits_of(layout).items():
        for fit in fits:
            for digit in layout.grid.all_digits:
                found[cell][digit] |= (layout.all_digits & ~fit.left[digit]) << other * width
    return tuple(map(tuple, found))


@lru_cache(maxsize=8)
def _reach(layout: Layout) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Return, for each cell, the mask of those whose open digits count for what it bars, and the others."""
    masks = [
        reduce(or_, (layout.masks[clue] for clue in clues), marked | 1 << cell)
        for cell, (clues, marked) in enumerate(zip(_clues_of_cells(layout), _marked(layout), strict=True))
    ]
    return tuple((mask, tuple(bits(mask & ~(1 << cell)))) for cell, mask in enumerate(masks))


@lru_cache(maxsize=8)
def _marked(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of those to which a rule says more than that they differ."""
    masks = [0] * layout.grid.cell_count
    for (one, other), fits in fits_of(layout).items():
        if any(says_more(fit.left, layout.all_digits) for fit in fits):
            masks[one] |= 1 << other
    return tuple(masks)


def says_more(left: tuple[int, ...], all_digits: int) -> bool:
    """Whether a rule over pairs, by what each digit leaves, says more than that two digits differ."""
    return any(mask | 1 << digit != all_digits for digit, mask in enumerate(left) if digit)


@lru_cache(maxsize=8)
def _clues_of_cells(layout: Layout) -> tuple[tuple[int, ...], ...]:
    """Return, for each cell, the clues of which all ways can be gone through, but for those over pairs."""
    over_pairs = {fit.rule for fits in fits_of(layout).values() for fit in fits}
    clues = [(number, mask) for number, mask in filled_clues(layout) if number not in over_pairs]
    return tuple(
        tuple(number for number, mask in clues if mask >> cell & 1) for cell in range(layout.grid.cell_count)
    )

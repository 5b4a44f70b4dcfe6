"""What a digit in one cell bars from others: at once, by a clue with few empty cells, or by a neighbour."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache, reduce
from itertools import product
from operator import and_, or_

from grader.board.basis import Basis, joined
from grader.board.board import Board, Layout, bits, mask_of
from grader.reasoning.assignments import differing
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.pairs import fits_of

__all__ = ["Barring", "says_more"]

_MOST_LEFT = 2
"""At more digits of a neighbour nobody looks together."""

_Bars = Mapping[int, int]


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
    >>> list(bits(Barring(board).bars(0, 1)[2]))
    [1, 2, 4]
    """

    def __init__(self, board: Board) -> None:
        self._board = board
        self._layout = board.layout
        self._at_once = _at_once(board.layout)
        self._marked = _marked(board.layout)
        self._clues = _clues_of_cells(board.layout)
        self._bars: dict[tuple[int, int], _Bars] = {}

    def reaches(self, place: int) -> int:
        """Return the mask of the cells whose open digits count for what a digit in a place bars."""
        masks = (self._layout.masks[clue] for clue in self._clues[place])
        return reduce(or_, masks, self._marked[place] | 1 << place)

    def near(self, place: int) -> int:
        """Return the mask of the cells in which a digit in a place may bar anything, its own among them."""
        return _near(self._layout)[place]

    def bars(self, place: int, digit: int) -> _Bars:
        """Return the masks of digits, by cell, that go if a digit stands in a place."""
        if (place, digit) not in self._bars:
            found = {place: self._layout.all_digits & ~(1 << digit)}
            for cell, mask in self._pieces(place, digit):
                if cell != place:
                    found[cell] = found.get(cell, 0) | mask
            self._bars[place, digit] = found
        return self._bars[place, digit]

    def _pieces(self, place: int, digit: int) -> Iterator[tuple[int, int]]:
        yield from self._at_once[place].get(digit, {}).items()
        for clue in self._clues[place]:
            yield from ((cell, ~left) for cell, left in self._left_by(clue, place, digit).items())
        for middle in bits(self._marked[place]):
            left = self._left_of(middle, place, digit)
            if left:
                first, *others = [self._at_once[middle].get(one, {}) for one in bits(left)]
                for cell, mask in first.items():
                    yield cell, reduce(and_, (other.get(cell, 0) for other in others), mask)

    def _left_by(self, clue: int, place: int, digit: int) -> Mapping[int, int]:
        supposed = list(self._board.candidates)
        supposed[place] = 1 << digit
        return left_by_clue(self._layout, clue, supposed)

    def _left_of(self, middle: int, place: int, digit: int) -> int:
        """Return what is left for a neighbour of a digit, if that is little."""
        left = self._board.candidates[middle] & ~self._at_once[place].get(digit, {}).get(middle, 0)
        return left if left.bit_count() <= _MOST_LEFT else 0

    def why(self, place: int, digit: int, cell: int, gone: int) -> Basis:
        """Return what it rests on that some digits go from a cell if a digit stands in a place."""
        ways, basis = [*self._ways(place, digit, cell)] if place != cell else [], Basis()
        while ways and gone:
            mask, more = max(ways, key=lambda way: ((way[0] & gone).bit_count(), -way[1].size))
            gone, basis = gone & ~mask, joined((basis, more))
        return basis

    def _ways(self, place: int, digit: int, cell: int) -> Iterator[tuple[int, Basis]]:
        """Yield masks of digits that go from a cell, each with what that rests on."""
        layout = self._layout
        yield from _directly(layout, place, digit, cell)
        for clue in self._clues[place]:
            left = self._left_by(clue, place, digit).get(cell)
            if left is not None:
                rules = mask_of((clue, *differing(layout, layout.rules[clue].cells)))
                yield ~left, Basis(rules, layout.masks[clue] & ~(1 << place | 1 << cell))
        for middle in bits(self._marked[place] & ~(1 << cell)):
            left = self._left_of(middle, place, digit)
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


@lru_cache(maxsize=8)
def _at_once(layout: Layout) -> tuple[Mapping[int, _Bars], ...]:
    """Return, for each cell and digit, what that bars from other cells by one rule."""
    digits = layout.grid.all_digits
    found = [{digit: dict.fromkeys(peers, 1 << digit) for digit in digits} for peers in layout.peers]
    for (cell, other), fits in fits_of(layout).items():
        for digit in digits:
            barred = reduce(or_, (layout.all_digits & ~fit.left[digit] for fit in fits))
            found[cell][digit][other] = found[cell][digit].get(other, 0) | barred
    return tuple(found)


@lru_cache(maxsize=8)
def _near(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of those in which a digit in it may bar anything."""
    first = [mask_of((cell, *bars[1])) for cell, bars in enumerate(_at_once(layout))]
    clues = [reduce(or_, (layout.masks[clue] for clue in some), 0) for some in _clues_of_cells(layout)]
    further = [reduce(or_, (first[other] for other in bits(mask)), 0) for mask in _marked(layout)]
    return tuple(one | clue | other for one, clue, other in zip(first, clues, further, strict=True))


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

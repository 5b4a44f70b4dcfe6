"""Digits all of whose places in a house leave nothing for a cell."""

from __future__ import annotations

from collections.abc import Iterator

from grader.board.basis import joined
from grader.board.board import Board
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.barring import Barring
from grader.reasoning.clues.narrow import filled_clues
from grader.reasoning.pairs import fits_of, has_own_houses
from verifier.puzzle.masks import bits, mask_of

__all__ = ["ALL_PLACES"]

_MOST_PLACES = 4
"""More places of a digit nobody looks at together."""


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
    places, barring = board.places(), Barring(board)
    for house, mask in enumerate(layout.house_masks):
        if not board.fresh & barring.reached_from(mask):
            continue
        for digit in layout.grid.all_digits:
            there = places[digit] & mask
            if 2 <= there.bit_count() <= _MOST_PLACES and board.fresh & (mask | barring.reached_from(there)):
                yield from _gone_everywhere(board, barring, house, tuple(bits(there)), digit)


def _gone_everywhere(
    board: Board, barring: Barring, house: int, found: tuple[int, ...], digit: int
) -> Iterator[Step]:
    """Yield what goes from each of some cells wherever a digit of a house stands."""
    closed = board.layout.house_masks[house] & ~mask_of(found)
    for cell, gone in barring.gone_from_all(found, digit):
        if not closed >> cell & 1:
            why = joined(barring.why(place, digit, cell, gone) for place in found)
            yield Step(
                "all-places",
                removes=((cell, gone),),
                rules=tuple(dict.fromkeys((house, *bits(why.rules)))),
                looks=tuple(bits(closed | why.looks)),
                focus=found,
                digits=1 << digit,
            )


ALL_PLACES = Technique("all-places", "all places of a digit", find_all_places, source="Own derivation.")

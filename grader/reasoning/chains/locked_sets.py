"""Almost locked sets: so many cells of a house with one digit more than they can hold.

If such a set does not hold one of its digits, it is locked: it holds all the others. So of any two of its
digits it holds at least one: a strong link between the places of the one and the places of the other.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from grader.board.basis import Basis
from grader.board.board import Board
from grader.reasoning.chains.links import Node
from verifier.puzzle.masks import digits_of

__all__ = ["CELLS_AT_MOST", "AlmostLocked", "almost_locked_sets"]

CELLS_AT_MOST = 4
"""A person looks for no larger set."""


class AlmostLocked(NamedTuple):
    """An almost locked set.

    Parameters
    ----------
    cells : int
        Mask of its cells.
    digits : int
        Mask of the digits open in them: one more than there are cells.
    basis : Basis
        The house and the cells; of a single cell, the cell.
    nodes : tuple of Node
        For each of the digits, in order, the cells in which it is open.
    """

    cells: int
    digits: int
    basis: Basis
    nodes: tuple[Node, ...]


def almost_locked_sets(board: Board) -> list[AlmostLocked]:
    """Return the almost locked sets of up to `CELLS_AT_MOST` cells that hold no locked set.

    Returns
    -------
    list of AlmostLocked
        In the order of the houses; a set that lies in a line and a box is listed once, with the line. A
        cell with two candidates is a set too.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import bits
    >>> found = almost_locked_sets(board_from_text("13 136 . . 123456 . . 16"))
    >>> [(list(bits(one.cells)), list(bits(one.digits))) for one in found if one.basis.rules in (0, 1)]
    [([0], [1, 3]), ([0, 1], [1, 3, 6]), ([7], [1, 6]), ([0, 7], [1, 3, 6]), ([1, 7], [1, 3, 6])]
    """
    candidates = board.candidates
    found: dict[int, AlmostLocked] = {}
    for number, house in enumerate(board.layout.houses):
        held = tuple([candidates[cell] for cell in house.cells])
        for one in _sets_of_house(number, house.cells, held):
            found.setdefault(one.cells, one)
    return list(found.values())


@lru_cache(maxsize=1 << 6)
def _sets_of_house(
    house: int, in_house: tuple[int, ...], candidates: tuple[int, ...]
) -> tuple[AlmostLocked, ...]:
    """Return the almost locked sets of a house: they stay as they are as long as its candidates do."""
    open_in = [(cell, own) for cell, own in zip(in_house, candidates, strict=True) if own & (own - 1)]
    grown = [(0, 0, 0)]
    almost, locked = [], []
    for cell, own in open_in:
        if own.bit_count() <= CELLS_AT_MOST + 1:
            for cells, digits, size in grown[:]:
                together = digits | own
                spare = together.bit_count() - size - 1
                if size < CELLS_AT_MOST and spare <= CELLS_AT_MOST - size:
                    grown.append((cells | 1 << cell, together, size + 1))
                    if spare == 1:
                        almost.append(grown[-1])
                    elif spare < 1:
                        locked.append(cells | 1 << cell)
    places: dict[int, int] = {}
    for cell, own in open_in:
        for digit in digits_of(own):
            places[digit] = places.get(digit, 0) | 1 << cell
    return tuple(
        [
            AlmostLocked(
                cells,
                digits,
                Basis(rules=1 << house if size > 1 else 0, looks=cells),
                tuple([Node(places[digit] & cells, digit) for digit in digits_of(digits)]),
            )
            for cells, digits, size in almost
            if not any(part & cells == part for part in locked)
        ]
    )

"""Almost locked sets: so many cells of a house with one digit more than they can hold.

If such a set does not hold one of its digits, it is locked: it holds all the others. So of any two of its
digits it holds at least one: a strong link between the places of the one and the places of the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from grader.board.basis import Basis
from grader.board.board import Board, bits
from grader.reasoning.chains.links import Node, StrongLink

__all__ = ["CELLS_AT_MOST", "AlmostLocked", "almost_locked_sets", "locked_links"]

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
    """

    cells: int
    digits: int
    basis: Basis


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
    >>> found = almost_locked_sets(board_from_text("13 136 . . 123456 . . 16"))
    >>> [(list(bits(one.cells)), list(bits(one.digits))) for one in found if one.basis.rules in (0, 1)]
    [([0], [1, 3]), ([0, 1], [1, 3, 6]), ([7], [1, 6]), ([0, 7], [1, 3, 6]), ([1, 7], [1, 3, 6])]
    """
    candidates = board.candidates
    small = [cell for cell, mask in enumerate(candidates) if 2 <= mask.bit_count() <= CELLS_AT_MOST + 1]
    found: dict[int, AlmostLocked] = {}
    for house, mask in enumerate(board.layout.house_masks):
        grown = [(0, 0, 0)]
        almost, locked = [], []
        for cell in small:
            if mask >> cell & 1:
                own = candidates[cell]
                for cells, digits, size in grown[:]:
                    together = digits | own
                    spare = together.bit_count() - size - 1
                    if size < CELLS_AT_MOST and spare <= CELLS_AT_MOST - size:
                        grown.append((cells | 1 << cell, together, size + 1))
                        if spare == 1:
                            almost.append(grown[-1])
                        elif spare < 1:
                            locked.append(cells | 1 << cell)
        for cells, digits, size in almost:
            if cells not in found and not any(part & cells == part for part in locked):
                basis = Basis(rules=1 << house if size > 1 else 0, looks=cells)
                found[cells] = AlmostLocked(cells, digits, basis)
    return list(found.values())


def locked_links(sets: Iterable[AlmostLocked], places: Sequence[int]) -> Iterator[StrongLink]:
    """Yield the strong links between any two digits of each set.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("13 136")
    >>> for link in locked_links(almost_locked_sets(board), board.places()):
    ...     print(link.one, link.other)
    Node(cells=1, digit=1) Node(cells=1, digit=3)
    Node(cells=3, digit=1) Node(cells=3, digit=3)
    Node(cells=3, digit=1) Node(cells=2, digit=6)
    Node(cells=3, digit=3) Node(cells=2, digit=6)
    """
    for cells, digits, basis in sets:
        nodes = [Node(places[digit] & cells, digit) for digit in bits(digits)]
        for one, other in combinations(nodes, 2):
            yield StrongLink(one, other, basis)

"""Which cells a chain must look at.

That a digit has two places in a house rests on all other cells of the house. But in the middle of a chain
some of these need no look: where the chain has just put the digit into a cell that they see.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import and_

from grader.board.basis import Basis
from grader.board.layout import Layout
from grader.reasoning.chains.links import Node
from verifier.puzzle.masks import bits

__all__ = ["closed_by_each", "needed_cells"]


def needed_cells(
    layout: Layout,
    nodes: Sequence[Node],
    strong: Sequence[Basis],
    cited: Basis,
    removes: Sequence[tuple[int, int]],
) -> int:
    """Return the cells whose open digits the strong links of a chain rest on.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    nodes : sequence of Node
        The nodes of the chain in order.
    strong : sequence of Basis
        The premises of its strong links in order: first to second node, third to fourth, and so on.
    cited : Basis
        The houses and cages that the step cites, for all its links.
    removes : sequence of (int, int)
        Pairs of cell and mask of the digits that go.

    Notes
    -----
    Own derivation. Suppose a digit that goes were right. Then the first and the last node are wrong, and the
    chain runs inwards from both ends, until the strong link where the two sides meet has nothing left. On the
    way each strong link makes a node right, and that digit then stands nowhere else in the houses and cages
    cited that hold this node. A later link of the same digit need not look there again. The two sides may
    meet at any of the strong links: where the fewest cells are looked at.

    Examples
    --------
    The 6 of row 1 is in r1c2 or r1c7, the 6 of row 2 in r2c3 or r2c8. If r1c2 is wrong, r1c7 is right, so box
    3 has no other 6, and row 2 must be looked at only outside of box 3:

    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import mask_of
    >>> layout = board_from_text("").layout
    >>> nodes = [Node(1 << cell, 6) for cell in (1, 6, 16, 11)]
    >>> rows = [Basis(rules=0b01, looks=0), Basis(rules=0b10, looks=mask_of([9, 10, 12, 13, 14, 15, 17]))]
    >>> cited = Basis(rules=0b11 | 1 << 20)
    >>> list(bits(needed_cells(layout, nodes, rows, cited, [])))
    [9, 10, 12, 13, 14]
    """
    ways = [_looks(layout, nodes, strong, cited, removes, middle) for middle in range(len(strong))]
    return min(ways, key=int.bit_count)


def _looks(
    layout: Layout,
    nodes: Sequence[Node],
    strong: Sequence[Basis],
    cited: Basis,
    removes: Sequence[tuple[int, int]],
    middle: int,
) -> int:
    """Return the cells looked at if the two sides of the chain meet at the strong link `middle`."""
    looks = 0
    for place, basis in enumerate(strong):
        one, other = nodes[2 * place], nodes[2 * place + 1]
        if not basis.rules & layout.all_houses or one.digit != other.digit:
            looks |= basis.looks  # not the places of a digit in a house: every cell has its say
            continue
        closed = closed_by_each(layout, removes, one.digit, cited)
        before = nodes[1 : 2 * place : 2] if place <= middle else ()
        behind = nodes[2 * place + 2 :: 2] if place >= middle else ()
        for node in (*before, *behind):
            closed |= _closed_by(layout, node, one.digit, cited)
        looks |= basis.looks & ~closed
    return looks


def _closed_by(layout: Layout, node: Node, digit: int, cited: Basis) -> int:
    """Return the cells where a digit cannot stand if a node is right, by what is cited."""
    if node.digit != digit:
        return node.cells if not node.cells & (node.cells - 1) else 0
    around = 0
    for number in bits(cited.rules & layout.all_different):
        if not node.cells & ~layout.masks[number]:
            around |= layout.masks[number]
    return around & ~node.cells


def closed_by_each(layout: Layout, removes: Sequence[tuple[int, int]], digit: int, cited: Basis) -> int:
    """Return the cells where a digit cannot stand, whichever one of the digits that go were right.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    removes : sequence of (int, int)
        Pairs of cell and mask of the digits that go.
    digit : int
        The digit that cannot stand there.
    cited : Basis
        The houses and cages that may be used.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> layout = board_from_text("", size=4).layout
    >>> list(bits(closed_by_each(layout, [(0, 1 << 3), (1, 1 << 3)], 3, Basis(rules=1))))
    [2, 3]
    """
    wrong = [Node(1 << cell, gone) for cell, digits in removes for gone in bits(digits)]
    return reduce(and_, [_closed_by(layout, node, digit, cited) for node in wrong]) if wrong else 0

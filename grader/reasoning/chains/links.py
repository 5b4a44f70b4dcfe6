"""Links between candidates: the threads from which wings, clusters and chains are made.

A *node* says that a digit stands in one of some cells: a candidate if there is one cell, a grouped candidate
if there are more. A *strong link* joins two nodes of which at least one is right; a *weak link* joins two of
which at least one is wrong. A chain that takes strong and weak links in turn carries a conclusion from one
end to the other. Each link knows its premises.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache, reduce
from operator import and_
from typing import NamedTuple

from grader.board.basis import Basis, joined
from grader.board.board import Board
from grader.board.layout import Layout
from grader.reasoning.combinations import LISTED_AT_MOST, how_many, open_combinations, rest_of_cage
from grader.reasoning.pairs import mirrors_of
from verifier.puzzle.masks import bits, mask_of

__all__ = [
    "Node",
    "OpenCage",
    "StrongLink",
    "bivalue_links",
    "cage_links",
    "combination_links",
    "every_link",
    "house_links",
    "links_of_digit",
    "open_cages",
]


class Node(NamedTuple):
    """A digit in one of some cells.

    Parameters
    ----------
    cells : int
        Mask of the cells.
    digit : int
        The digit, open in each of them.
    """

    cells: int
    digit: int


class StrongLink(NamedTuple):
    """Two nodes of which at least one is right, and why."""

    one: Node
    other: Node
    basis: Basis


class OpenCage(NamedTuple):
    """A cage with empty cells, and the combinations that these can still hold.

    Parameters
    ----------
    cage : int
        Its place in the layout.
    empty : int
        Mask of its empty cells.
    combinations : tuple of int
        The open combinations of the empty cells, as masks of digits.
    basis : Basis
        The cage and all its cells: what the open combinations rest on.
    """

    cage: int
    empty: int
    combinations: tuple[int, ...]
    basis: Basis


def bivalue_links(board: Board) -> Iterator[StrongLink]:
    """Yield the two candidates of every cell that has just two, smaller digit first.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> link, = bivalue_links(board_from_text("37 5 379"))
    >>> link.one, link.other
    (Node(cells=1, digit=3), Node(cells=1, digit=7))
    """
    for cell, mask in enumerate(board.candidates):
        if mask.bit_count() == 2:
            one, other = bits(mask)
            yield StrongLink(Node(1 << cell, one), Node(1 << cell, other), Basis(looks=1 << cell))


def house_links(board: Board, places: Sequence[int], *, grouped: bool = False) -> tuple[StrongLink, ...]:
    """Return the places of every digit that has just two in a house.

    Parameters
    ----------
    board : Board
        Read, never changed.
    places : sequence of int
        What `Board.places` returns.
    grouped : bool, optional
        Whether a place may also be a group: cells that the house shares with another house.

    Returns
    -------
    tuple of StrongLink
        In the order of the houses, then of the digits. Without groups the nodes are single candidates.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("16 16 2 13 4 5 7 8 9")
    >>> [(link.one, link.other) for link in house_links(board, board.places()) if link.one.digit == 6]
    [(Node(cells=1, digit=6), Node(cells=2, digit=6))]
    >>> grouped = house_links(board, board.places(), grouped=True)
    >>> [(link.one, link.other) for link in grouped if link.one.digit == 1][:1]
    [(Node(cells=3, digit=1), Node(cells=8, digit=1))]
    """
    return _house_links(board.layout, tuple(places), grouped)


@lru_cache(maxsize=4)
def _house_links(layout: Layout, places: tuple[int, ...], grouped: bool) -> tuple[StrongLink, ...]:
    """Return what `house_links` does: one technique after another asks it of the same board."""
    of_digits = [links_of_digit(layout, digit, places[digit], grouped) for digit in layout.grid.all_digits]
    return tuple([link for in_house in zip(*of_digits, strict=True) for links in in_house for link in links])


@lru_cache(maxsize=1 << 6)
def links_of_digit(
    layout: Layout, digit: int, places: int, grouped: bool
) -> tuple[tuple[StrongLink, ...], ...]:
    """Return the links of one digit, house by house: they stay as they are as long as its places do."""
    crossings = _crossings(layout)
    links = []
    for house, mask in enumerate(layout.house_masks):
        found = places & mask
        if found & (found - 1):
            basis = Basis(rules=1 << house, looks=mask & ~found)
            links.append(tuple(_divided(digit, found, basis, crossings[house] if grouped else ())))
        else:
            links.append(())
    return tuple(links)


def open_cages(board: Board) -> tuple[OpenCage, ...]:
    """Return every cage with two or more empty cells whose combinations can be listed.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cage, = open_cages(board_from_text(". . 1", [Cage((0, 1, 2), 6)]))
    >>> [list(bits(combination)) for combination in cage.combinations]
    [[2, 3]]
    """
    return _open_cages(board.layout, tuple(board.candidates), board.placed)


@lru_cache(maxsize=4)
def _open_cages(layout: Layout, candidates: tuple[int, ...], placed: int) -> tuple[OpenCage, ...]:
    """Return what `open_cages` does: one technique after another asks it of the same board."""
    board = Board(layout, candidates, placed, layout.all_cells)
    found = []
    for cage, mask in layout.cage_masks:
        cells, total, _ = rest_of_cage(board, cage)
        if len(cells) > 1 and how_many(total, len(cells), layout.grid.digits) <= LISTED_AT_MOST:
            masks = tuple([candidates[cell] for cell in cells])
            combinations = open_combinations(masks, total, layout.grid.digits)
            basis = Basis(rules=1 << cage, looks=mask)
            found.append(OpenCage(cage, mask_of(cells), combinations, basis))
    return tuple(found)


def cage_links(
    board: Board, places: Sequence[int], cages: Iterable[OpenCage], *, grouped: bool = False
) -> Iterator[StrongLink]:
    """Yield the places of every digit that each open combination of a cage has, where there are just two.

    Yields
    ------
    StrongLink
        In the order of the cages, then of the digits.

    Examples
    --------
    A cage of 22 in three cells is 589 or 679, so it holds a 9:

    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("589 5678 6789", [Cage((0, 1, 2), 22)])
    >>> [(link.one, link.other) for link in cage_links(board, board.places(), open_cages(board))]
    [(Node(cells=1, digit=9), Node(cells=4, digit=9))]
    """
    crossings = _crossings(board.layout)
    for cage in cages:
        for digit in bits(reduce(and_, cage.combinations, board.layout.all_digits)):
            found = places[digit] & cage.empty
            if found & (found - 1):
                yield from _divided(digit, found, cage.basis, crossings[cage.cage] if grouped else ())


def combination_links(places: Sequence[int], cages: Iterable[OpenCage]) -> Iterator[StrongLink]:
    """Yield a digit of the one and a digit of the other, for every cage with two open combinations.

    Yields
    ------
    StrongLink
        In the order of the cages. A node is all the cage's places for its digit: the cage has this digit or
        the other one.

    Examples
    --------
    A cage of 11 in two cells that is 29 or 38:

    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.rules.cage import Cage
    >>> board = board_from_text("238 389", [Cage((0, 1), 11)])
    >>> for link in combination_links(board.places(), open_cages(board)):
    ...     print(link.one, link.other)
    Node(cells=1, digit=2) Node(cells=3, digit=3)
    Node(cells=1, digit=2) Node(cells=3, digit=8)
    Node(cells=2, digit=9) Node(cells=3, digit=3)
    Node(cells=2, digit=9) Node(cells=3, digit=8)
    """
    for cage in cages:
        if len(cage.combinations) == 2:
            one, other = cage.combinations
            for digit in bits(one & ~other):
                for second in bits(other & ~one):
                    yield StrongLink(
                        Node(places[digit] & cage.empty, digit),
                        Node(places[second] & cage.empty, second),
                        cage.basis,
                    )


def every_link(board: Board, places: Sequence[int], cages: Sequence[OpenCage]) -> list[StrongLink]:
    """Return all strong links there are, with groups, from cells, houses and cages."""
    links = [
        *bivalue_links(board),
        *house_links(board, places, grouped=True),
        *cage_links(board, places, cages, grouped=True),
        *combination_links(places, cages),
    ]
    return [*links, *_mirrored_links(board, links)]


def _mirrored_links(board: Board, links: Sequence[StrongLink]) -> Iterator[StrongLink]:
    """Yield each link with a cell that holds the same digit, by a mark or a line, in the place of its own."""
    mirrors = mirrors_of(board.layout)
    for link in links if mirrors else ():
        for node, other in ((link.one, link.other), (link.other, link.one)):
            for cell, rule in mirrors.get(node.cells.bit_length() - 1, ()):
                alone = not node.cells & (node.cells - 1)
                mirror = Node(1 << cell, node.digit)
                if alone and mirror != other and board.candidates[cell] >> node.digit & 1:
                    yield StrongLink(mirror, other, joined((link.basis, Basis(rules=1 << rule))))


@lru_cache(maxsize=4)
def _crossings(layout: Layout) -> tuple[tuple[int, ...], ...]:
    """Return for each house and cage the masks of two or more cells that it shares with another house."""
    masks, houses = layout.masks[: layout.cage_numbers.stop], layout.house_masks
    shared = [
        {mask & other for place, other in enumerate(houses) if place != number}
        for number, mask in enumerate(masks)
    ]
    return tuple([tuple(sorted(m for m in some if m & (m - 1))) for some in shared])


def _divided(digit: int, found: int, basis: Basis, crossings: tuple[int, ...]) -> Iterator[StrongLink]:
    """Yield every way to divide the places of a digit into two nodes."""
    for part, rest in _divisions(found, crossings):
        yield StrongLink(Node(part, digit), Node(rest, digit), basis)


@lru_cache(maxsize=1 << 14)
def _divisions(found: int, crossings: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Return every way to divide some cells in two, each part a cell or all in one crossing."""
    if found.bit_count() == 2:
        low = found & -found
        return ((low, found ^ low),)
    pairs = set()
    for crossing in crossings:
        # A cell where two crossings meet goes to the one part or to the other.
        part, rest = found & crossing, found & ~crossing
        alone = not rest & (rest - 1)
        if part and rest and (alone or any(not rest & ~other for other in crossings)):
            pairs.add((min(part, rest), max(part, rest)))
    return tuple(sorted(pairs))

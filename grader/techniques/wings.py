"""Wings and remote pairs: cells with two candidates, tied together so that one of the ends holds a digit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import reduce
from itertools import combinations, pairwise
from operator import or_

from grader.board.basis import Basis, seen_by_all, sights, step_on
from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.links import Node, StrongLink, cage_links, house_links, open_cages
from grader.reasoning.chains.needed_cells import needed_cells
from verifier.puzzle.masks import bits, mask_of

__all__ = ["REMOTE_PAIRS", "W_WING", "XYZ_WING", "XY_WING"]

_Removes = tuple[tuple[int, int], ...]


def find_xy_wings(board: Board) -> Iterator[Step]:
    """Three cells with two candidates each: whichever the middle one takes, an end is the third digit.

    A pivot with two candidates sees two wings, each with one of these and the same third digit. Whichever the
    pivot is, one of the wings is the third digit, so it goes from each cell that sees both::

        before  12 8 5   23  6 7   4 9 13    after  12 8 5  23 6 7   4 9 13
                13 7 9  138  5 4   6 2 18           13 7 9  18 5 4   6 2 18
                pivot r1c1, wings r1c4 and r2c1             ^^

    Yields
    ------
    Step
        In the order of the pivots, then of the wings. `focus` is the pivot and the wings, `digits` what
        goes.

    Notes
    -----
    Sound in every solution: the pivot takes one of its two candidates from the wing that has it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 12 8 5 23 6 7 4 9 13
    ... 13 7 9 138 5 4 6 2 18'''
    >>> step, = find_xy_wings(board_from_text(text))
    >>> step.focus, step.removes == ((12, 1 << 3),)
    ((0, 3, 9), True)
    """
    return _pivoted(board, "xy-wing", 2)


def find_xyz_wings(board: Board) -> Iterator[Step]:
    """An XY-wing in which the middle cell has the third digit too.

    As an XY-wing, but the pivot has the third digit too. So it goes only from cells that see all three::

        before  123  8 346   9 13 7   5 46 246    after  123  8 46   9 13 7   5 46 246
                  7 23   9                                 7 23  9
                pivot r1c1, wings r1c5 and r2c2                  ^^

    Yields
    ------
    Step
        In the order of the pivots, then of the wings. `focus` is the pivot and the wings, `digits` what
        goes.

    Notes
    -----
    Sound in every solution: if the pivot is not the third digit, it is one that a wing has, and this wing is
    the third digit.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 123 8 346 9 13 7 5 46 246
    ... 7 23 9'''
    >>> step, = find_xyz_wings(board_from_text(text))
    >>> step.focus, step.removes == ((2, 1 << 3),)
    ((0, 4, 10), True)
    """
    return _pivoted(board, "xyz-wing", 3)


def find_w_wings(board: Board) -> Iterator[Step]:
    """Two cells with the same two candidates cannot both take the one, so one takes the other.

    Two cells have the same two candidates, and the one candidate has two places in a house, each of which
    one of the cells sees. These cells cannot both take it, so one of them takes the other candidate, which
    goes from each cell that sees both::

        row 2    12  .  .  . 28    before    12  .  .  .  8    after
        row 5     1  -  -  -  1               1  -  -  -  1          no other 1 in row 5
        row 8   128  .  .  . 12              18  .  .  . 12
                  ^                                       ^ 2 goes from r2c5 and r8c1

    Yields
    ------
    Step
        In the order of the pairs of candidates, then of the strong links. `focus` is a cell, the two places
        and the other cell, `digits` what goes, `chain` the candidates from the one cell to the other.

    Notes
    -----
    Sound in every solution: were both cells the one candidate, it would have no place in the house. The two
    places may also be those of a cage whose open combinations all have the digit. Cells that see each other
    are left to the naked pairs.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... .
    ... 12 . . . 28
    ... .
    ... .
    ... . - - - . - - - -
    ... .
    ... .
    ... . . . . 12'''
    >>> step, = find_w_wings(board_from_text(text.replace("-", "23456789")))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 2
    ((9, 36, 40, 67), [13, 63], True)
    """
    places = board.places()
    links: dict[int, list[StrongLink]] = {}
    for link in (*house_links(board, places), *cage_links(board, places, open_cages(board))):
        links.setdefault(link.one.digit, []).append(link)
    for pair, cells in _same_pairs(board).items():
        for digit in bits(pair):
            for link in links.get(digit, ()):
                yield from _w_wings(board, cells, link, pair ^ 1 << digit)


def find_remote_pairs(board: Board) -> Iterator[Step]:
    """Cells with the same two candidates, each of which sees the next, take them in turn.

    Cells with the same two candidates, each of which sees the next, take them in turn. So the first and the
    fourth (or the sixth, and so on) take one each, and both candidates go from every cell that sees these
    two::

        row 1    12 . . . 12 . . . *      r1c1 and r5c9 are one 1 and one 2
        ...
        row 5     * . . . 12 . . . 12     * loses both

    Yields
    ------
    Step
        In the order of the pairs of candidates, then of the ends, for every shortest way between them.
        `focus` is the cells in order, `length` the number of links.

    Notes
    -----
    Sound in every solution: two cells that see each other differ. Cells next to each other in the chain are a
    naked pair and left to it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 12 . . . 12
    ... .
    ... .
    ... .
    ... . . . . 12 . . . 12'''
    >>> step, = find_remote_pairs(board_from_text(text))
    >>> step.focus, [cell for cell, _ in step.removes], step.length
    ((0, 4, 40, 44), [8, 36], 3)
    """
    sees = board.layout.sees
    for pair, cells in _same_pairs(board).items():
        for one in bits(cells):
            layers = _layers(sees, cells, one)
            far_of = {other: far for far in range(3, len(layers), 2) for other in bits(layers[far])}
            for other in sorted(other for other in far_of if other > one):
                far, gone = far_of[other], board.removable(pair, bits(sees[one] & sees[other]))
                for way in _ways(sees, layers[:far], (other,)) if gone else ():
                    basis = Basis(looks=mask_of(way))
                    basis = _seeing(board.layout, basis, pairwise(way), gone, (one, other))
                    yield step_on("remote-pairs", basis, gone, focus=way, digits=pair, length=far)


def _layers(sees: Sequence[int], cells: int, start: int) -> list[int]:
    """Return the cells that are no, one, two... links away from the first, as masks."""
    layers, left = [1 << start], cells & ~(1 << start)
    while layers[-1]:
        layers.append(reduce(or_, [sees[cell] for cell in bits(layers[-1])]) & left)
        left &= ~layers[-1]
    return layers[:-1]


def _ways(sees: Sequence[int], layers: Sequence[int], way: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield every way that has one cell of each layer and goes on with the cells of `way`."""
    if not layers:
        yield way
        return
    for cell in bits(layers[-1] & sees[way[0]]):
        yield from _ways(sees, layers[:-1], (cell, *way))


def _pivoted(board: Board, technique: str, size: int) -> Iterator[Step]:
    """Yield the wings whose pivot has two candidates, or three: then it may itself be the digit that goes."""
    candidates, layout, places = board.candidates, board.layout, board.places()
    bivalue = mask_of(cell for cell, mask in enumerate(candidates) if mask.bit_count() == 2)
    for pivot, held in enumerate(candidates):
        if held.bit_count() != size:
            continue
        near = bits(bivalue & layout.sees[pivot])
        wings = [wing for wing in near if (candidates[wing] & held).bit_count() == size - 1]
        for one, other in combinations(wings, 2):
            digit = candidates[one] & candidates[other]
            if digit & (digit - 1) or (held | candidates[one] | candidates[other]).bit_count() != 3:
                continue
            focus = (pivot, one, other)
            ends = focus if held & digit else focus[1:]
            cells = seen_by_all(layout, mask_of(ends)) & places[digit.bit_length() - 1]
            if cells:
                gone = tuple((cell, digit) for cell in bits(cells))
                basis = Basis(looks=mask_of(focus))
                basis = _seeing(layout, basis, [(pivot, one), (pivot, other)], gone, ends)
                yield step_on(technique, basis, gone, focus=focus, digits=digit)


def _w_wings(board: Board, cells: int, link: StrongLink, other: int) -> Iterator[Step]:
    """Yield what two of `cells` do on the two sides of a strong link; `other` is their other candidate."""
    sees, digit, last = board.layout.sees, link.one.digit, other.bit_length() - 1
    one_place, other_place = (node.cells.bit_length() - 1 for node in link[:2])
    for one in bits(cells & sees[one_place] & ~link.other.cells):
        for far in bits(cells & sees[other_place] & ~sees[one] & ~(1 << one | link.one.cells)):
            gone = board.removable(other, bits(sees[one] & sees[far]))
            if gone:
                focus = (one, one_place, other_place, far)
                there, back = (Node(1 << cell, last) for cell in (one, far))
                nodes = [there, *(Node(1 << cell, digit) for cell in focus), back]
                strong = [Basis(looks=1 << one), link.basis, Basis(looks=1 << far)]
                basis = _seeing(board.layout, link.basis, [focus[:2], focus[2:]], gone, (one, far))
                looks = needed_cells(board.layout, nodes, strong, basis, gone)
                basis = Basis(basis.rules, looks)
                yield step_on("w-wing", basis, gone, focus=focus, digits=other, chain=nodes)


def _seeing(
    layout: Layout, basis: Basis, links: Iterable[tuple[int, int]], gone: _Removes, ends: Sequence[int]
) -> Basis:
    """Return a basis with the reasons why linked cells see each other, and why what goes sees the ends."""
    pairs = [*links, *((cell, end) for cell, _ in gone for end in ends)]
    return sights(layout, basis, [(1 << one, 1 << other) for one, other in pairs])


def _same_pairs(board: Board) -> dict[int, int]:
    """Return the masks of cells with the same two candidates, by these."""
    held: dict[int, int] = {}
    for cell, mask in enumerate(board.candidates):
        if mask.bit_count() == 2:
            held[mask] = held.get(mask, 0) | 1 << cell
    return {pair: cells for pair, cells in held.items() if cells & (cells - 1)}


XY_WING = Technique("xy-wing", "XY-wing", find_xy_wings)
XYZ_WING = Technique("xyz-wing", "XYZ-wing", find_xyz_wings)
W_WING = Technique("w-wing", "W-wing", find_w_wings)
REMOTE_PAIRS = Technique("remote-pairs", "remote pairs", find_remote_pairs)

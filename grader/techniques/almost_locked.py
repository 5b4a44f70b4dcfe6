"""Almost locked sets: pairs, triples and chains of them, and subsets shared between a line and a box."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache, reduce
from itertools import combinations
from operator import or_
from typing import NamedTuple

from grader.board.basis import Basis, joined, sights, step_on
from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.alternation import AlternatingChain, shortest_chains
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import every_link, open_cages
from grader.reasoning.chains.locked_sets import AlmostLocked, almost_locked_sets
from grader.reasoning.chains.wide_graph import WideLinkGraph
from verifier.puzzle.masks import bits

__all__ = ["ALMOST_LOCKED_CHAIN", "ALMOST_LOCKED_PAIR", "ALMOST_LOCKED_TRIPLE", "TWO_SECTOR_SUBSETS"]

PART_AT_MOST = 3
"""A person puts no more cells beside a crossing on either side of it."""
SPARE_AT_MOST = 3
"""A person looks at no crossing whose cells hold more digits than this beyond their number."""


def find_two_sector_subsets(board: Board) -> Iterator[Step]:
    """Cells of a line and a box with room for as many digits as there are cells use these digits up.

    Some cells where a line and a box cross, some more of the line and some more of the box. If they have
    room for no more digits than there are cells, each digit stands among them, so it goes from the rest
    of the house in which it can stand::

        box 1    1234 1234  5     row 1    1234 1234 5    12 168 178   .  .  .
                    .    . 34              four cells, four digits: 1 and 2 go from the rest of row 1,
                    .    .  .              3 and 4 from the rest of box 1

    Yields
    ------
    Step
        In the order of the lines, then of the boxes and cells. `focus` is the cells of the subset, `digits`
        all their digits.

    Notes
    -----
    Sound in every solution: a digit stands at most once in the cells of the line and at most once in those of
    the box, so at most once in all of them; twice only if both the cells beside the crossing on the one side
    and those on the other have it. If so many digits are just enough for the cells, none is missing. No more
    than three cells on a side, with no more than three digits to spare.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> text = '''
    ... 1234 1234 5 12 168 178 6789 6789 6789
    ... 6 6789 34
    ... 6789 6789 379'''
    >>> step, = find_two_sector_subsets(board_from_text(text))
    >>> step.focus, [(cell, digits_of(gone)) for cell, gone in step.removes]
    ((0, 1, 3, 11), [(4, (1,)), (5, (1,)), (20, (3,))])
    """
    fresh = set(board.fresh_houses())
    masks = [mask & ~board.placed for mask in board.layout.house_masks]
    for (one, first), (other, second) in combinations(enumerate(masks), 2):
        crossing = first & second
        if not crossing & (crossing - 1) or (one not in fresh and other not in fresh):
            continue
        centres = [
            part
            for part in _parts(board, crossing, crossing.bit_count())
            if part.size > 1 and 2 <= part.digits.bit_count() - part.size <= SPARE_AT_MOST
        ]
        if centres:
            sides = [_parts(board, house & ~crossing, PART_AT_MOST) for house in (first, second)]
            for centre in centres:
                for step in _shared(board, (first, second), centre, sides):
                    yield replace(step, rules=(one, other))


def find_almost_locked_pairs(board: Board) -> Iterator[Step]:
    """Two almost locked sets that cannot both have a digit: one of them is locked.

    They have a digit in common that cannot stand in both, since its places in the one see all its places in
    the other. So one set lacks it and is locked. Any other digit that both have goes from each cell that
    sees all its places in both sets::

        column 1    125     r1c1 and r2c1: 1, 2 and 5       not both have a 5 (column 1), so one of them
                    125                                     is locked, so one of them has a 1:
                    ...                                     it goes from r1c2, r2c2, r3c2, r8c1, r9c1
                     57     r7c1 and r8c2: 1, 5 and 7

    If there are two such digits, each set lacks one of them and holds all its others, which go from the
    cells around it too.

    Parameters
    ----------
    board : Board
        Read, never changed; every pair is looked at whatever is fresh.

    Yields
    ------
    Step
        First the pairs with one digit that links them, one step for each effect (`chain` is the places of
        the digits in order), then those with two. `focus` is the cells of both sets, `digits` the digit
        that goes, or all digits of both.

    Notes
    -----
    Sound in every solution: a set with so many cells and one digit more lacks one digit at most. Sets may
    share cells.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from verifier.puzzle.masks import digits_of
    >>> text = '''
    ... 125
    ... 125
    ... .
    ... .
    ... .
    ... .
    ... 57
    ... . 17
    ... .'''
    >>> step, = find_almost_locked_pairs(board_from_text(text))
    >>> step.focus, [cell for cell, _ in step.removes], digits_of(step.digits)
    ((0, 9, 54, 64), [1, 10, 19, 63, 72], (1,))
    """
    sets, graph = _graph_of_sets(board)
    for chain in shortest_chains(graph, shortest=3, longest=3):
        yield _of_sets("almost-locked-pair", chain)
    yield from _twice_linked(sets, graph)


def find_almost_locked_triples(board: Board) -> Iterator[Step]:
    """Three almost locked sets, each tied to the next: the first or the last is locked.

    As a pair of sets, but with a third between them. The one in the middle has one of two digits: the one
    digit is then missing in the first set, or the other digit in the last. So one of these two is locked,
    and a digit that both have goes from each cell that sees all its places in them::

        column 1    145     r1c1 and r2c1: 1, 4 and 5       row 7 takes the 5 from the first set or the
                    145                                     6 from r4c5: so the first set or r4c5 has a
        row 4         *   .  .  .  16                       1, and it goes from r4c1
        row 7       578   .  .  . 678   .  .  .  78         r7c1, r7c5 and r7c9: 5, 6, 7 and 8

    Parameters
    ----------
    board : Board
        Read, never changed; every triple is looked at whatever is fresh.

    Yields
    ------
    Step
        One for each effect. `focus` is the cells of the sets, `digits` the digit that goes, `chain` the
        places of the digits in order.

    Notes
    -----
    Sound in every solution: if the first set lacks the digit that goes, it has the digit that links it to the
    one in the middle, which then has the other link, so that the last lacks that and has the digit that goes.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... 145
    ... 145
    ... .
    ... . . . . 16
    ... .
    ... .
    ... 578 . . . 678 . . . 78'''
    >>> step, = find_almost_locked_triples(board_from_text(text))
    >>> step.focus, step.removes == ((27, 1 << 1),), step.length
    ((0, 9, 31, 54, 58, 62), True, 5)
    """
    _, graph = _graph_of_sets(board)
    return (
        _of_sets("almost-locked-triple", chain) for chain in shortest_chains(graph, shortest=5, longest=5)
    )


def find_almost_locked_chains(board: Board) -> Iterator[Step]:
    """An alternating inference chain in which almost locked sets take part.

    As an alternating inference chain; besides, a set that lacks one of its digits has each of the others::

        column 1    145     r1c1 and r2c1: 1, 4 and 5       if neither is 1, one is 5, so r7c1 is not, so
                    145                                     r7c5 is 5, so it is not 1, so r4c5 is 1: the 1
        row 4         *  .  .  .  1                         goes from r4c1
        row 7         5  -  -  - 15  -  -  -  -             no other 5 in row 7, no other 1 in column 5

    Parameters
    ----------
    board : Board
        Read, never changed; every chain is followed whatever is fresh.

    Yields
    ------
    Step
        The shortest chains, one for each effect; none longer than `LINKS_AT_MOST` links of
        `grader.reasoning.chains.alternation`. `focus` is the cells at the ends, `chain` the nodes in order.

    Notes
    -----
    Sound in every solution: each link holds, for a set that lacks one of its digits has as many left as
    cells, and so each of them.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> no_1, no_5 = "23456789", "12346789"
    >>> column_5 = [no_1] * 3 + ["."] + [no_1] * 2 + ["."] + [no_1] * 2
    >>> rows = [f"{start} . . . {cell}" for start, cell in zip(["145"] * 2 + ["."] * 7, column_5)]
    >>> rows[6] = " ".join(["."] + [no_5] * 3 + ["."] + [no_5] * 4)
    >>> step, = find_almost_locked_chains(board_from_text(chr(10).join(rows)))
    >>> step.chain
    (((0, 9), 1), ((0, 9), 5), ((54,), 5), ((58,), 5), ((58,), 1), ((31,), 1))
    >>> step.removes == ((27, 1 << 1),)
    True
    """
    cages = open_cages(board)
    links = every_link(board, board.places(), cages)
    graph = WideLinkGraph(board, links, cages, almost_locked_sets(board))
    return (chain.step("almost-locked-chain") for chain in shortest_chains(graph))


class _Part(NamedTuple):
    """Some cells, all digits open in them, and how many cells there are."""

    cells: int
    digits: int
    size: int


def _parts(board: Board, cells: int, most: int) -> list[_Part]:
    """Return every choice of one to `most` of some cells."""
    grown = [_Part(0, 0, 0)]
    for cell in bits(cells):
        bit, own = 1 << cell, board.candidates[cell]
        grown += [
            _Part(part.cells | bit, part.digits | own, part.size + 1) for part in grown if part.size < most
        ]
    return grown[1:]


def _shared(
    board: Board, houses: tuple[int, int], centre: _Part, sides: Sequence[Sequence[_Part]]
) -> Iterator[Step]:
    """Yield the subsets around the cells of a crossing; the houses of the steps are not filled in."""
    # Only cells that bring fewer new digits than there are of them use up what the centre has to spare.
    useful = [
        [part for part in side if (part.digits & ~centre.digits).bit_count() < part.size] for side in sides
    ]
    for one in useful[0]:
        for other in useful[1]:
            digits, both = centre.digits | one.digits | other.digits, one.digits & other.digits
            size = centre.size + one.size + other.size
            if digits.bit_count() + both.bit_count() == size:
                cells = centre.cells | one.cells | other.cells
                removes = _outside(board, houses, centre, one, other)
                if removes:
                    yield step_on(
                        "two-sector-subsets", Basis(looks=cells), removes, focus=bits(cells), digits=digits
                    )


def _outside(
    board: Board, houses: tuple[int, int], centre: _Part, one: _Part, other: _Part
) -> tuple[tuple[int, int], ...]:
    """Return what a subset removes from the rest of its two houses, and from its own centre."""
    both = one.digits & other.digits  # stands once on either side, so not in the centre
    in_first = (centre.digits | one.digits) & ~other.digits | both
    in_second = (centre.digits | other.digits) & ~one.digits | both
    first = houses[0] & ~(centre.cells | one.cells)
    second = houses[1] & ~(centre.cells | other.cells)
    gone: dict[int, int] = {}
    for cells, digits in ((first, in_first), (second, in_second), (centre.cells, both)):
        for cell, lost in board.removable(digits, bits(cells)):
            gone[cell] = gone.get(cell, 0) | lost
    return tuple(sorted(gone.items()))


def _graph_of_sets(board: Board) -> tuple[list[AlmostLocked], LinkGraph]:
    return _known_graph(board.layout, tuple(board.candidates), board.placed)


@lru_cache(maxsize=1)
def _known_graph(
    layout: Layout, candidates: tuple[int, ...], placed: int
) -> tuple[list[AlmostLocked], LinkGraph]:
    """Return the sets of a board and their links: where pairs yield nothing, triples need them next."""
    board = Board(layout, candidates, placed, layout.all_cells)
    sets = almost_locked_sets(board)
    return sets, LinkGraph(layout, board.places(), (), sets)


def _of_sets(technique: str, chain: AlternatingChain) -> Step:
    """Return the step of a chain that only sets link: all that it looks at is their cells."""
    step = chain.step(technique)
    return replace(step, focus=step.looks)


def _twice_linked(sets: Sequence[AlmostLocked], graph: LinkGraph) -> Iterator[Step]:
    """Yield what two sets do that cannot both have the one, nor both have the other of two digits."""
    owners = [0] * len(graph.nodes)
    for index, nodes in enumerate(graph.sets):
        for node in nodes:
            owners[node] |= 1 << index
    # For each node, the sets that cannot have its digit if it is right.
    shut = [reduce(or_, [owners[other] for other in bits(weak)], 0) for weak in graph.weak]
    for index, nodes in enumerate(graph.sets):
        once = twice = 0
        for node in nodes:
            twice |= once & shut[node]
            once |= shut[node]
        for other in bits(twice >> index << index):
            linked = [graph.nodes[node].digit for node in nodes if shut[node] >> other & 1]
            for pair in combinations(linked, 2):
                gone = _taken(graph, nodes, graph.sets[other], pair)
                if gone:
                    yield _doubly(graph, (sets[index], sets[other]), pair, gone)


def _taken(graph: LinkGraph, one: Iterable[int], other: Iterable[int], linked: Sequence[int]) -> int:
    """Return the candidates that go by two sets, given by their nodes, with two digits that link them."""
    gone = 0
    both: dict[int, int] = {}
    for node in (*one, *other):
        digit, seen = graph.nodes[node].digit, graph.targets[node]
        if digit not in linked:
            gone |= seen  # each set that has the digit holds it
        elif digit in both:
            gone |= seen & both[digit]  # one of the two holds it
        else:
            both[digit] = seen
    return gone


def _doubly(
    graph: LinkGraph, sets: tuple[AlmostLocked, AlmostLocked], linked: Sequence[int], gone: int
) -> Step:
    """Return the step of two sets that two digits link, and of the candidates that go by them."""
    one, other = sets
    nodes, removes = (*one.nodes, *other.nodes), graph.removed(gone)
    pairs = [
        (first.cells, second.cells)
        for first, second in combinations(nodes, 2)
        if first.digit == second.digit and first.digit in linked
    ]
    pairs += [
        (1 << cell, node.cells)
        for cell, digits in removes
        for node in nodes
        if digits >> node.digit & 1 and not node.cells & ~graph.layout.sees[cell]
    ]
    return step_on(
        "almost-locked-pair",
        sights(graph.layout, joined((one.basis, other.basis)), pairs),
        removes,
        focus=bits(one.cells | other.cells),
        digits=one.digits | other.digits,
    )


TWO_SECTOR_SUBSETS = Technique("two-sector-subsets", "two-sector subsets", find_two_sector_subsets)
ALMOST_LOCKED_PAIR = Technique("almost-locked-pair", "pair of almost locked sets", find_almost_locked_pairs)
ALMOST_LOCKED_TRIPLE = Technique(
    "almost-locked-triple", "triple of almost locked sets", find_almost_locked_triples
)
ALMOST_LOCKED_CHAIN = Technique(
    "almost-locked-chain", "chain with almost locked sets", find_almost_locked_chains
)

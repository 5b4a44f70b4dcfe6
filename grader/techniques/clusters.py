"""Clusters, and other chains of a single digit.

Where a digit has two places in a house (or in a cage whose open combinations all have it), one of them is
right and the other wrong: they are on two sides. Places linked in this way form a *cluster*, and in all of it
one side is right and the other wrong.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, combinations, pairwise, product

from grader.board.basis import Basis, joined, sights, step_on
from grader.board.board import Board
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.reasoning.chains.alternation import shortest_chains
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import (
    Node,
    StrongLink,
    cage_links,
    house_links,
    links_of_digit,
    open_cages,
)
from grader.reasoning.chains.needed_cells import needed_cells
from verifier.puzzle.masks import bits, mask_of

__all__ = ["GROUPED_LINKS", "ONE_CLUSTER", "TWO_CLUSTERS"]


@dataclass(frozen=True, slots=True, eq=False)
class _Cluster:
    """Places of a digit that strong links join.

    Parameters
    ----------
    digit : int
        The digit.
    sides : tuple of int
        Masks of the cells of either side.
    neighbours : mapping of int to mapping of int to Basis
        For each cell of the cluster, the cells that strong links join to it, with the premises.
    """

    digit: int
    sides: tuple[int, int]
    neighbours: Mapping[int, Mapping[int, Basis]]

    def way(self, one: int, other: int) -> list[int]:
        """Return the cells on a shortest way from one cell to another, with both."""
        came_from = {other: other}
        ahead = deque([other])
        while one not in came_from:
            cell = ahead.popleft()
            for neighbour in self.neighbours[cell]:
                if neighbour not in came_from:
                    came_from[neighbour] = cell
                    ahead.append(neighbour)
        way = [one]
        while way[-1] != other:
            way.append(came_from[way[-1]])
        return way

    def links(self, way: Sequence[int]) -> list[Basis]:
        """Return the premises of the strong links along a way."""
        return [self.neighbours[one][other] for one, other in pairwise(way)]


def find_one_cluster(board: Board) -> Iterator[Step]:
    """The places of a digit in a cluster are right and wrong in turn: what this rules out.

    Where a digit has two places in a house, one is right and the other wrong. Places linked in this way, one
    to the next, are a cluster. It has two sides: either all places of the one side are right, or all of the
    other. A cell that sees a place of either side loses the digit. And if two places of one side see each
    other, this side is wrong throughout. With a and b for the sides, and - where the digit is not open::

        row 1    a  -  -    -  b  -    -  -  -
        row 4    .  .  .    -  a  -    .  .  .     r6c1 sees a in r1c1 and b in r6c4,
        row 5    .  .  .    -  -  -    .  .  .     so the digit goes from it
        row 6    *  .  .    b  -  -    .  .  .

    Yields
    ------
    Step
        In the order of digits and clusters: first a step for every two cells of one side that see each
        other, then one for every two of different sides that another cell sees. `focus` is the cells of
        a shortest chain from the one to the other, `length` the number of its links.

    Notes
    -----
    Sound in every solution: of two places linked in this way one is right and the other wrong, so along a
    chain of them right and wrong take turns. Cages of which every open combination has the digit link its
    places as houses do.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... . - - - . - - - -
    ... . . . . - . . . .
    ... . . . . - . . . .
    ... . . . - . - . . .
    ... . . . - - - . . .
    ... . . . . - - . . .
    ... . . . . - . . . .
    ... . . . . - . . . .
    ... . . . . - . . . .'''
    >>> step, = find_one_cluster(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, step.removes == ((45, 1 << 6),), step.length
    ((0, 4, 31, 48), True, 3)
    """
    places = board.places()
    for cluster in _clusters(board):
        yield from _clashes(board.layout, cluster)
        yield from _seen_twice(board.layout, cluster, places[cluster.digit])


def find_two_clusters(board: Board) -> Iterator[Step]:
    """Two places of a digit that see each other, one of each cluster, are not both right.

    Clusters and their sides are those of the technique one cluster. Of the two other sides, one of either
    cluster, at least one is right, so the digit goes from each cell that sees both of these. With a and A for
    the sides of the one cluster, b and B for those of the other, and - where the digit is not open::

        row 1    -  a  -    -  -  A    -  -  -      A and B share column 6: not both are right,
        row 2    .  .  *    .  .  .    .  .  .      so a or b is
        row 4    .  *  .    .  .  .    .  .  .
        row 5    -  -  b    -  -  B    -  -  -

    Yields
    ------
    Step
        In the order of digits, clusters and sides: one for every two cells of the other sides that
        another cell sees. `focus` is the cells of a shortest chain from the one to the other, `length` the
        number of its links.

    Notes
    -----
    Sound in every solution, as one cluster. A cell that loses its digit may be in a cluster itself: so a side
    that sees both sides of another cluster falls.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... - . - - - . - - -
    ... .
    ... .
    ... .
    ... - - . - - . - - -'''
    >>> step, = find_two_clusters(board_from_text(text.replace("-", "12345789")))
    >>> step.focus, [cell for cell, _ in step.removes], step.digits == 1 << 6, step.length
    ((1, 5, 41, 38), [11, 20, 28, 46], True, 3)
    """
    places = board.places()
    for one, other in combinations(_clusters(board), 2):
        if one.digit == other.digit:
            for side, far_side in product((0, 1), repeat=2):
                yield from _bridged(board.layout, places[one.digit], one, side, other, far_side)


def find_grouped_links(board: Board) -> Iterator[Step]:
    """A chain of one digit, from cell to cell or from group to group: it stands at one of the ends.

    Strong and weak links take turns: if the digit is not at one end, it is at the other, and goes from each
    cell that sees both. A place in a chain may be a group, two or three cells that a box and a line share::

        row 1    -  a  -    -  -  -    A  A  -      if the digit is not in r1c2, it is in r1c7 or r1c8,
        row 3    .  .  .    .  .  .    .  .  B      so not in r3c9, so in r7c9:
        row 7    .  *  .    .  .  .    .  .  b      it goes from r7c2, which sees r1c2 and r7c9

    Yields
    ------
    Step
        The shortest chains of all digits, one for each effect; none longer than `LINKS_AT_MOST` links of
        `grader.reasoning.chains.alternation`. `focus` is the cells of both ends, `chain` the nodes in order.

    Notes
    -----
    Sound in every solution: of two nodes with a strong link one is right, of two with a weak link one is
    wrong. A single strong link is a chain too: with cages about, a cell may see all places that a digit has
    in a house although no house holds them all with it.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> text = '''
    ... - . - - - - . . -
    ... . . . . . . . . -
    ... . . . . . . . . .
    ... . . . . . . . . -
    ... . . . . . . . . -
    ... . . . . . . . . -
    ... . . . . . . . . .
    ... . . . . . . . . -
    ... . . . . . . . . -'''
    >>> step, = find_grouped_links(board_from_text(text.replace("-", "12345789")))
    >>> step.chain
    (((1,), 6), ((6, 7), 6), ((26,), 6), ((62,), 6))
    >>> step.removes == ((55, 1 << 6),), step.length
    (True, 3)
    """
    places = board.places()
    by_house = house_links(board, places, grouped=True)
    by_cage = tuple(cage_links(board, places, open_cages(board), grouped=True))
    lengths = {}
    for digit in board.layout.grid.all_digits:
        of_cages = tuple([link for link in by_cage if link.one.digit == digit])
        length = _shortest_length(board.layout, digit, places[digit], of_cages)
        if length:
            lengths[digit] = length
    shortest = [digit for digit, length in lengths.items() if length == min(lengths.values())]
    links = [link for link in (*by_house, *by_cage) if link.one.digit in shortest]
    graph = LinkGraph(board.layout, places, links)
    return (found.step("grouped-links") for found in shortest_chains(graph))


@lru_cache(maxsize=1 << 6)
def _shortest_length(layout: Layout, digit: int, places: int, by_cage: tuple[StrongLink, ...]) -> int:
    """Return how long the shortest chains of a digit are that remove anything; 0 where none does.

    Most of the time none does. As long as a digit stays where it is, that need not be found out again.
    """
    by_house = chain.from_iterable(links_of_digit(layout, digit, places, grouped=True))
    of_digits = [places if digit == one else 0 for one in range(digit + 1)]
    graph = LinkGraph(layout, of_digits, (*by_house, *by_cage))
    return next((found.length for found in shortest_chains(graph)), 0)


def _clusters(board: Board) -> list[_Cluster]:
    """Return the clusters of every digit, smallest digit first."""
    return _known_clusters(board.layout, tuple(board.candidates), board.placed)


@lru_cache(maxsize=1)
def _known_clusters(layout: Layout, candidates: tuple[int, ...], placed: int) -> list[_Cluster]:
    """Return the clusters of a board: those that yield nothing one by one are looked at in twos next."""
    board = Board(layout, candidates, placed, layout.all_cells)
    places = board.places()
    linked: list[dict[int, dict[int, Basis]]] = [{} for _ in places]
    for (one, digit), (other, _), basis in (
        *house_links(board, places),
        *cage_links(board, places, open_cages(board)),
    ):
        ends = one.bit_length() - 1, other.bit_length() - 1
        for here, there in (ends, ends[::-1]):
            known = linked[digit].setdefault(here, {}).setdefault(there, basis)
            if basis.size < known.size:
                linked[digit][here][there] = basis
    return [
        _Cluster(digit, sides, neighbours)
        for digit, neighbours in enumerate(linked)
        for sides in _sided(neighbours)
    ]


def _sided(neighbours: Mapping[int, Mapping[int, Basis]]) -> Iterator[tuple[int, int]]:
    """Yield the two sides of each piece of a graph, as masks of cells; pieces by their first cells.

    None of a piece in which a ring has an odd number of links: the board is contradicted there.
    """
    seen = 0
    for start in sorted(neighbours):
        if seen >> start & 1:
            continue
        sides, border = [1 << start, 0], 1 << start
        turn = 1
        while border:
            reached = mask_of(there for here in bits(border) for there in neighbours[here])
            border = reached & ~sides[turn]
            sides[turn] |= border
            turn = 1 - turn
        seen |= sides[0] | sides[1]
        if not sides[0] & sides[1]:
            yield sides[0], sides[1]


def _clashes(layout: Layout, cluster: _Cluster) -> Iterator[Step]:
    """Yield a step for every two cells of one side that see each other: no cell of it is right."""
    for side in cluster.sides:
        for one, other in combinations(bits(side), 2):
            if layout.sees[one] >> other & 1:
                way = cluster.way(one, other)
                yield step_on(
                    "one-cluster",
                    joined([_of_clash(layout, cluster, one, other, cell) for cell in bits(side)]),
                    tuple((cell, 1 << cluster.digit) for cell in bits(side)),
                    focus=way,
                    digits=1 << cluster.digit,
                    length=len(way) - 1,
                )


def _of_clash(layout: Layout, cluster: _Cluster, one: int, other: int, cell: int) -> Basis:
    """Return why a cell is wrong if two cells of its side see each other: the ways from it to both."""
    there, back = cluster.way(cell, one), cluster.way(other, cell)
    strong = cluster.links(there)[1::2] + cluster.links(back)[::2]
    return _of_chain(layout, cluster.digit, there[1:] + back[:-1], strong, 1 << cell)


def _seen_twice(layout: Layout, cluster: _Cluster, places: int) -> Iterator[Step]:
    """Yield a step for every two cells of different sides that cells outside the cluster see."""
    one_side, other_side = cluster.sides
    outside = places & ~(one_side | other_side)
    for one, other in product(bits(one_side), bits(other_side)):
        gone = layout.sees[one] & layout.sees[other] & outside
        if gone:
            way = cluster.way(min(one, other), max(one, other))
            strong = cluster.links(way)[::2]
            yield _seeing_ends(layout, "one-cluster", cluster.digit, way, strong, gone)


def _bridged(
    layout: Layout, places: int, near: _Cluster, side: int, far: _Cluster, far_side: int
) -> Iterator[Step]:
    """Yield what goes because a side of one cluster sees a side of another."""
    bridges = [
        (one, other)
        for one in bits(near.sides[side])
        for other in bits(layout.sees[one] & far.sides[far_side])
    ]
    if not bridges:
        return
    for start, end in product(bits(near.sides[1 - side]), bits(far.sides[1 - far_side])):
        gone = layout.sees[start] & layout.sees[end] & places
        if gone:
            steps = []
            for one, other in bridges:
                there, back = near.way(start, one), far.way(other, end)
                strong = near.links(there)[::2] + far.links(back)[::2]
                steps.append(_seeing_ends(layout, "two-clusters", near.digit, there + back, strong, gone))
            yield min(steps, key=lambda step: (step.length, step.premise_count))


def _seeing_ends(
    layout: Layout, technique: str, digit: int, way: Sequence[int], strong: Sequence[Basis], gone: int
) -> Step:
    """Return the step that takes a digit from cells that see both ends of a way."""
    return step_on(
        technique,
        _of_chain(layout, digit, way, strong, gone),
        tuple((cell, 1 << digit) for cell in bits(gone)),
        focus=way,
        digits=1 << digit,
        length=len(way) - 1,
    )


def _of_chain(layout: Layout, digit: int, way: Sequence[int], strong: Sequence[Basis], gone: int) -> Basis:
    """Return why a digit goes from cells that see both ends of a way.

    Of the links along the way the first, the third and so on must be strong; the others serve as weak ones,
    which rest on no more than that their two cells see each other.
    """
    weak = [*zip(way[1:-1:2], way[2::2], strict=True), *product(bits(gone), (way[0], way[-1]))]
    cited = Basis(joined(strong).rules)
    cited = sights(layout, cited, [(1 << one, 1 << other) for one, other in weak])
    nodes = [Node(1 << cell, digit) for cell in way]
    looks = needed_cells(layout, nodes, strong, cited, [(cell, 1 << digit) for cell in bits(gone)])
    return Basis(cited.rules, looks)


ONE_CLUSTER = Technique("one-cluster", "one cluster", find_one_cluster)
TWO_CLUSTERS = Technique("two-clusters", "two clusters", find_two_clusters)
GROUPED_LINKS = Technique("grouped-links", "grouped links", find_grouped_links)

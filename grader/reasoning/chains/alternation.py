"""Alternating chains: strong and weak links in turn, the shortest that remove anything.

If the first node of a chain is wrong, the second is right (strong link), so the third is wrong (weak link),
so the fourth is right, and so on to the last. So the first or the last is right, and every candidate with a
weak link to both is wrong. All chains grow together, by one weak and one strong link at a time; as soon as
some remove anything, the search ends.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from grader.board.basis import Basis, joined, step_on
from grader.board.steps import Step
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import Node
from grader.reasoning.chains.needed_cells import needed_cells
from verifier.puzzle.masks import bits, mask_of

__all__ = ["LINKS_AT_MOST", "AlternatingChain", "shortest_chains"]

LINKS_AT_MOST = 11
"""A person follows a chain no further than this many links, strong and weak ones counted."""

_Removes = tuple[tuple[int, int], ...]
_Ends = list[tuple[int, int]]
_Way = tuple[tuple[int, ...], Basis]  # the numbers of the nodes so far, and what they rest on


@dataclass(frozen=True, slots=True)
class AlternatingChain:
    """A chain of nodes with a strong link first and last, and what it removes.

    Parameters
    ----------
    nodes : tuple of Node
        In order; an even number.
    removes : tuple of (int, int)
        Pairs of cell and mask of digits.
    basis : Basis
        The premises of all its links, and of the weak links from both ends to what goes.
    """

    nodes: tuple[Node, ...]
    removes: _Removes
    basis: Basis

    @property
    def length(self) -> int:
        """The number of links."""
        return len(self.nodes) - 1

    @property
    def ends(self) -> tuple[Node, Node]:
        """The first and the last node: one of them is right."""
        return self.nodes[0], self.nodes[-1]

    def step(self, technique: str) -> Step:
        """Return the step; its `focus` is the cells of both ends, its `digits` those of both ends."""
        first, last = self.ends
        return step_on(
            technique,
            self.basis,
            self.removes,
            focus=bits(first.cells | last.cells),
            digits=1 << first.digit | 1 << last.digit,
            length=self.length,
            chain=self.nodes,
        )


def shortest_chains(
    graph: LinkGraph, *, shortest: int = 1, longest: int = LINKS_AT_MOST
) -> Iterator[AlternatingChain]:
    """Find the shortest chains of a graph that remove anything.

    Parameters
    ----------
    graph : LinkGraph
        Read, never changed.
    shortest, longest : int, optional
        Bounds on the number of links of a chain; odd.

    Yields
    ------
    AlternatingChain
        All of the same length, one for each different effect: of the chains with this effect one with few
        premises, by a search that goes on from each node with the fewest so far.

    Notes
    -----
    Sound in every solution, since each link is. A loop needs no search of its own: cut at any of its weak
    links it is a chain, and each of these chains removes what that weak link rules out. The two ends may be
    the same node: it is then right, and removes whatever it excludes. Effects and length do not depend on
    any order.

    Examples
    --------
    Three cells with two candidates each, of three digits:

    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.chains.links import bivalue_links
    >>> board = board_from_text("13 . . 12 . ." + chr(10) + ". . 23")
    >>> for chain in shortest_chains(LinkGraph(board.layout, board.places(), bivalue_links(board))):
    ...     print(chain.length, [node.digit for node in chain.nodes], [cell for cell, _ in chain.removes])
    5 [2, 1, 1, 3, 3, 2] [1, 2, 12, 13, 14]
    """
    # What is right once a node is: over a weak link to what is wrong then, and from there over a strong one.
    following = [_union(graph.strong, weak) for weak in graph.weak]
    going_on = mask_of(node for node, ahead in enumerate(following) if ahead)
    reached = [ahead if seen else 0 for ahead, seen in zip(graph.strong, graph.targets, strict=True)]
    layers = [reached]
    for length in range(1, longest + 1, 2):
        found = _hits(graph, layers[-1]) if length >= shortest else {}
        if found:
            for targets, ends in found.items():
                yield _tersest(graph, following, layers, targets, ends)
            return
        fronts = [_union(following, front & going_on) for front in layers[-1]]
        layers.append([front & ~known for front, known in zip(fronts, reached, strict=True)])
        reached = [front | known for front, known in zip(fronts, reached, strict=True)]


def _union(masks: list[int], numbers: int) -> int:
    union = 0
    while numbers:  # the innermost loop of a search: no generator here
        low = numbers & -numbers
        union |= masks[low.bit_length() - 1]
        numbers ^= low
    return union


def _hits(graph: LinkGraph, layer: list[int]) -> dict[int, _Ends]:
    """Return what the chains to a layer remove, and between which ends."""
    targets = graph.targets
    seeing = mask_of(node for node, mine in enumerate(targets) if mine)
    found: dict[int, _Ends] = {}
    for start, reached in enumerate(layer):
        mine = targets[start]
        ends = (reached & seeing) >> start << start  # a chain can be read from either end
        while ends:
            low = ends & -ends
            end = low.bit_length() - 1
            both = mine & targets[end]
            if both:
                found.setdefault(both, []).append((start, end))
            ends ^= low
    return found


def _tersest(
    graph: LinkGraph, following: list[int], layers: list[list[int]], targets: int, ends: _Ends
) -> AlternatingChain:
    """Return the chain with the fewest premises of those with the same effect."""
    removes = graph.removed(targets)
    chains = []
    for start, end in ends:
        fronts = _between(following, [layer[start] for layer in layers], end)
        chains.append(_chain(graph, _path(graph, start, fronts), removes))
    return min(chains, key=lambda chain: chain.basis.size)


def _between(following: list[int], fronts: list[int], end: int) -> list[int]:
    """Return those nodes of each front from which the next one, and so the end, is reached."""
    needed = [1 << end]
    for front in reversed(fronts[:-1]):
        needed.append(sum([1 << node for node in bits(front) if following[node] & needed[-1]]))
    return needed[::-1]


def _path(graph: LinkGraph, start: int, fronts: list[int]) -> tuple[int, ...]:
    """Return a way from `start` through all fronts; at each node the one with the fewest premises goes on."""
    ways: dict[int, _Way] = {n: ((start, n), graph.basis(start, n)) for n in bits(fronts[0])}
    for front in fronts[1:]:
        grown: dict[int, _Way] = {}
        for path, basis in ways.values():
            for middle in bits(graph.weak[path[-1]]):
                ahead = graph.strong[middle] & front
                if not ahead:
                    continue
                weak = graph.exclusion(graph.nodes[path[-1]], graph.nodes[middle], basis.rules)
                for node in bits(ahead):
                    together = joined((basis, weak, graph.basis(middle, node)))
                    if node not in grown or together.size < grown[node][1].size:
                        grown[node] = ((*path, middle, node), together)
        ways = grown
    ((path, _),) = ways.values()
    return path


def _chain(graph: LinkGraph, path: Sequence[int], removes: _Removes) -> AlternatingChain:
    """Return the chain along a path, with its premises."""
    nodes = [graph.nodes[number] for number in path]
    strong = [graph.basis(*link) for link in zip(path[::2], path[1::2], strict=True)]
    gone = [Node(1 << cell, digit) for cell, digits in removes for digit in bits(digits)]
    weak = [*zip(nodes[1:-1:2], nodes[2::2], strict=True), *product(gone, {nodes[0], nodes[-1]})]
    cited = Basis(joined(strong).rules)
    for one, other in weak:
        cited = joined((cited, graph.exclusion(one, other, cited.rules)))
    looks = needed_cells(graph.layout, nodes, strong, cited, removes)
    return AlternatingChain(_from_above(nodes), removes, joined((cited, Basis(looks=looks))))


def _from_above(nodes: list[Node]) -> tuple[Node, ...]:
    """Return the nodes of a chain so that it starts at the end that comes first in reading order."""
    first, last = nodes[0], nodes[-1]
    turned = (first.cells & -first.cells, first.digit) > (last.cells & -last.cells, last.digit)
    return tuple(nodes[::-1] if turned else nodes)

"""The graph of a board: nodes, the strong links between them, and the weak ones that follow from the rules.

Sets of nodes are masks: bit ``i`` stands for node ``i`` of the graph. Sets of candidates are masks too: bit
``digit * cells + cell``.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from grader.board.basis import Basis, seen_by_all, sight
from grader.board.layout import Layout
from grader.reasoning.chains.links import Node, StrongLink
from grader.reasoning.chains.locked_sets import AlmostLocked
from verifier.puzzle.masks import bits, mask_of

__all__ = ["LinkGraph"]


class LinkGraph:
    """Nodes and the links between them: worked out once, then only read.

    Weak links join nodes of one digit whose cells all see each other; `WideLinkGraph` has others too.

    Parameters
    ----------
    layout : Layout
        Houses and cages.
    places : sequence of int
        What `Board.places` returns.
    links : iterable of StrongLink
        The strong links; of several between the same nodes, the first with the fewest premises counts.
    sets : iterable of AlmostLocked, optional
        Almost locked sets: strong links between any two digits of each, after the other ones.

    Attributes
    ----------
    layout : Layout
        The layout.
    nodes : list of Node
        In the order in which the strong links name them.
    strong, weak : list of int
        For each node, the mask of the nodes it is linked to.
    targets : list of int
        For each node, the mask of the candidates, in any graph, to which it has a weak link.
    sets : list of tuple of int
        The nodes of each almost locked set, one a digit.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.chains.links import bivalue_links
    >>> board = board_from_text("13 . . 12")
    >>> graph = LinkGraph(board.layout, board.places(), bivalue_links(board))
    >>> [node.digit for node in graph.nodes], graph.strong, graph.weak
    ([1, 3, 1, 2], [2, 1, 8, 4], [4, 0, 1, 0])
    """

    def __init__(
        self,
        layout: Layout,
        places: Sequence[int],
        links: Iterable[StrongLink],
        sets: Iterable[AlmostLocked] = (),
    ) -> None:
        self.layout = layout
        self._places = places
        self._count = layout.grid.cell_count
        self.nodes: list[Node] = []
        self.strong: list[int] = []
        self._numbers: dict[Node, int] = {}
        self._reasons: list[list[tuple[int, Basis]]] = []
        for one, other, basis in links:
            first, second = self._number(one), self._number(other)
            reason = 1 << first | 1 << second, basis
            self.strong[first] |= 1 << second
            self.strong[second] |= 1 << first
            self._reasons[first].append(reason)
            self._reasons[second].append(reason)
        self.sets = [self._link_set(one) for one in sets]
        self.weak: list[int] = []
        self.targets: list[int] = []
        self._link_same_digits()

    def _number(self, node: Node) -> int:
        number = self._numbers.get(node)
        if number is None:
            number = self._numbers[node] = len(self.nodes)
            self.nodes.append(node)
            self.strong.append(0)
            self._reasons.append([])
        return number

    def _link_set(self, locked: AlmostLocked) -> tuple[int, ...]:
        """Link any two digits of a set; return the numbers of its nodes."""
        numbers = tuple([self._number(node) for node in locked.nodes])
        together = mask_of(numbers)
        for number in numbers:
            self.strong[number] |= together ^ 1 << number
            self._reasons[number].append((together, locked.basis))
        return numbers

    def basis(self, one: int, other: int) -> Basis:
        """Return the premises of the strong link between two nodes, given by their numbers."""
        reasons = [basis for together, basis in self._reasons[one] if together >> other & 1]
        return min(reasons, key=lambda basis: basis.size)

    def _link_same_digits(self) -> None:
        # Nodes by their digit and first cell: of those that see a node, few are to be looked at.
        starting: list[dict[int, list[tuple[int, int]]]] = [{} for _ in self._places]
        for number, (cells, digit) in enumerate(self.nodes):
            starting[digit].setdefault(cells & -cells, []).append((1 << number, cells))
        first_cells = [sum(at) for at in starting]
        seeing: dict[int, int] = {}
        for cells, digit in self.nodes:
            if cells not in seeing:
                seeing[cells] = seen_by_all(self.layout, cells)
            seen = seeing[cells]
            unseen, weak, ahead = ~seen, 0, seen & first_cells[digit]
            while ahead:  # once for each pair of nodes: no generator here
                low = ahead & -ahead
                for bit, others in starting[digit][low]:
                    if not others & unseen:
                        weak |= bit
                ahead ^= low
            self.weak.append(weak)
            self.targets.append((self._places[digit] & seen) << digit * self._count)

    def removed(self, targets: int) -> tuple[tuple[int, int], ...]:
        """Return a mask of candidates as pairs of cell and mask of digits, as in `Step.removes`."""
        gone: dict[int, int] = {}
        for candidate in bits(targets):
            digit, cell = divmod(candidate, self._count)
            gone[cell] = gone.get(cell, 0) | 1 << digit
        return tuple(sorted(gone.items()))

    def exclusion(self, one: Node, other: Node, cited: int) -> Basis:
        """Return why two nodes with a weak link are not both right, preferring houses `cited` anyway."""
        return sight(self.layout, one.cells, other.cells, cited)

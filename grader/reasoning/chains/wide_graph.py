"""The graph of a board with the weak links that join different digits too."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property, reduce
from operator import or_

from grader.board.basis import Basis
from grader.board.board import Board
from grader.reasoning.assignments import differing
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import Node, OpenCage, StrongLink
from grader.reasoning.chains.locked_sets import AlmostLocked
from grader.reasoning.clues.narrow import filled_clues, left_by_each
from grader.reasoning.pairs import bar, barred_from
from verifier.puzzle.masks import bits, mask_of

__all__ = ["WideLinkGraph"]


class WideLinkGraph(LinkGraph):
    """A graph in which weak links also join different digits.

    They join two candidates of a cell, two digits of a cage that share no open combination, digits of two
    cells that do not fit by a rule over pairs, and digits that a clue with few empty cells, or few ways,
    never has together.

    Parameters
    ----------
    board : Board
        Read, never changed.
    links, sets
        As in a `LinkGraph`.
    cages : sequence of OpenCage
        The cages whose open combinations link digits weakly.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> from grader.reasoning.chains.links import bivalue_links
    >>> board = board_from_text("12")
    >>> WideLinkGraph(board, bivalue_links(board), ()).weak
    [2, 1]
    """

    def __init__(
        self,
        board: Board,
        links: Iterable[StrongLink],
        cages: Sequence[OpenCage],
        sets: Iterable[AlmostLocked] = (),
    ) -> None:
        super().__init__(board.layout, board.places(), links, sets)
        self._candidates = board.candidates
        self._clues: dict[tuple[Node, Node], int] = {}
        self._cage_bases = {cage.cage: cage.basis for cage in cages}
        self._link_cells()
        self._link_pairs()
        self._link_clues()
        for cage in cages:
            self._link_cage(cage)

    def _link_cells(self) -> None:
        """Link the candidates of a cell: only one is right."""
        in_cell: dict[int, int] = {}
        single = [(n, node) for n, node in enumerate(self.nodes) if not node.cells & (node.cells - 1)]
        for number, node in single:
            in_cell[node.cells] = in_cell.get(node.cells, 0) | 1 << number
        for number, node in single:
            cell = node.cells.bit_length() - 1
            self.weak[number] |= in_cell[node.cells] & ~(1 << number)
            for digit in bits(self._candidates[cell] & ~(1 << node.digit)):
                self.targets[number] |= node.cells << digit * self._count

    @cached_property
    def _single(self) -> dict[tuple[int, int], int]:
        """The numbers of the nodes of one cell, by cell and digit."""
        alone = (
            (number, node) for number, node in enumerate(self.nodes) if not node.cells & (node.cells - 1)
        )
        return {(node.cells.bit_length() - 1, node.digit): number for number, node in alone}

    def _link_pairs(self) -> None:
        """Link digits of two cells that do not fit by a mark or a line: only one of them is right."""
        barred = barred_from(self.layout)
        for cell, digit in self._single if barred else ():
            for other, fit in barred[cell]:
                for gone in bits(self._candidates[other] & ~fit.left[digit] & ~(1 << digit)):
                    self._link_apart((cell, digit), (other, gone))

    def _link_clues(self) -> None:
        """Link digits of two cells of a clue that none of its ways has together."""
        candidates = self._candidates
        for clue, _ in filled_clues(self.layout):
            for (cell, digit), left in left_by_each(self.layout, clue, candidates).items():
                if (cell, digit) not in self._single:
                    continue
                for other, kept in left.items():
                    for gone in bits(candidates[other] & ~kept & ~(1 << digit)) if other != cell else ():
                        self._link_apart((cell, digit), (other, gone))
                        self._clues.setdefault((Node(1 << cell, digit), Node(1 << other, gone)), clue)

    def _link_apart(self, one: tuple[int, int], other: tuple[int, int]) -> None:
        """Link a candidate that is a node to another one, node or not: pairs of cell and digit."""
        number = self._single[one]
        cell, digit = other
        self.targets[number] |= 1 << digit * self._count + cell
        if other in self._single:
            self.weak[number] |= 1 << self._single[other]

    def _link_cage(self, cage: OpenCage) -> None:
        """Link digits of a cage that no open combination has together: only one is in it."""
        inside = [(n, node) for n, node in enumerate(self.nodes) if not node.cells & ~cage.empty]
        for number, node in inside:
            beside = reduce(or_, [c for c in cage.combinations if c >> node.digit & 1], 1 << node.digit)
            apart = self.layout.all_digits & ~beside
            self.weak[number] |= sum([1 << n for n, other in inside if apart >> other.digit & 1])
            for digit in bits(apart):
                self.targets[number] |= (self._places[digit] & cage.empty) << digit * self._count

    def exclusion(self, one: Node, other: Node, cited: int) -> Basis:
        """Return why two nodes with a weak link are not both right, preferring houses `cited` anyway."""
        if one.digit == other.digit:
            return super().exclusion(one, other, cited)
        if one.cells == other.cells and not one.cells & (one.cells - 1):
            return Basis()  # a cell holds one digit: no premise at all
        return self._by_clue(one, other) or next(
            self._cage_bases[cage]
            for cage in self.layout.cages_of[one.cells.bit_length() - 1]
            if not other.cells & ~self.layout.masks[cage]
        )

    def _by_clue(self, one: Node, other: Node) -> Basis | None:
        """Return the mark, line or clue by which two candidates are not both right, if there is one."""
        if one.cells & (one.cells - 1) or other.cells & (other.cells - 1):
            return None
        cells = one.cells.bit_length() - 1, other.cells.bit_length() - 1
        by_pair = bar(self.layout, cells[0], one.digit, cells[1], other.digit)
        if by_pair is not None:
            return Basis(rules=1 << by_pair)
        clue = self._clues.get((one, other), self._clues.get((other, one)))
        if clue is None:
            return None
        apart = differing(self.layout, self.layout.rules[clue].cells)
        return Basis(mask_of((clue, *apart)), self.layout.masks[clue])

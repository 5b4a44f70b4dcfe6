"""The board a person works on: what is still open in every cell.

Sets of digits and of cells are bit masks (`verifier.puzzle.masks`). A `Board` is never changed; applying
steps gives a new one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from grader.board.layout import Layout, layout_of
from grader.board.steps import Step
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.masks import bits, digits_of, mask_of, union
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.rule import Rule

__all__ = ["Board", "board_from_text", "empty_board", "opening_board"]


@lru_cache(maxsize=4)
def _places(candidates: tuple[int, ...], digits: int) -> list[int]:
    """Return what `Board.places` does: one technique after another asks it of the same board."""
    places = [0] * (digits + 1)
    for cell, mask in enumerate(candidates):
        bit = 1 << cell
        for digit in digits_of(mask):
            places[digit] |= bit
    return places


@dataclass(frozen=True, slots=True, eq=False)
class Board:
    """What is open in each cell at one moment of a solve.

    Parameters
    ----------
    layout : Layout
        Houses, cages and who sees whom.
    candidates : sequence of int
        For each cell, the mask of its open digits; one bit for a placed cell, 0 for a cell that has
        nothing left. Read, never changed.
    placed : int
        Mask of the cells whose digit has been written in, and of those that are blocked.
    fresh : int
        Mask of the cells in which something changed since the technique that reads the board last
        looked. A house, cage or sum without a fresh cell has nothing new to tell; all cells are
        fresh when nothing is known.
    """

    layout: Layout
    candidates: Sequence[int]
    placed: int
    fresh: int

    def fresh_houses(self) -> Iterator[int]:
        """Yield the houses in which something changed, in order."""
        fresh = self.fresh
        for index, mask in enumerate(self.layout.house_masks):
            if mask & fresh:
                yield index

    def fresh_cages(self) -> Iterator[int]:
        """Yield the cages of different digits in which something changed, in order."""
        fresh = self.fresh
        for number, mask in self.layout.cage_masks:
            if mask & fresh:
                yield number

    def fresh_sums(self) -> Iterator[int]:
        """Yield the cages in which something changed, those that may repeat digits too, in order."""
        fresh = self.fresh
        for number, mask in self.layout.summed_masks:
            if mask & fresh:
                yield number

    def unsolved(self, cells: Iterable[int]) -> list[int]:
        """Return those of `cells` that have no digit written in."""
        placed = self.placed
        return [cell for cell in cells if not placed >> cell & 1]

    def removable(self, digits: int, cells: Iterable[int]) -> tuple[tuple[int, int], ...]:
        """Return what would go if none of `digits` may stand in `cells`.

        Parameters
        ----------
        digits : int
            Mask of the digits to remove.
        cells : iterable of int
            The cells to remove them from, in reading order.

        Returns
        -------
        tuple of (int, int)
            Pairs of cell and the mask of open digits that go; empty if none of them is open there.
        """
        candidates = self.candidates
        return tuple((cell, candidates[cell] & digits) for cell in cells if candidates[cell] & digits)

    def places(self) -> list[int]:
        """Return, for each digit, the mask of the cells in which it is open or stands.

        Examples
        --------
        >>> board_from_text("37 5 379 37").places()[5] & 0b1111
        2
        """
        return list(_places(tuple(self.candidates), self.layout.grid.digits))

    def after(self, steps: Iterable[Step]) -> Board:
        """Return the board with all `steps` applied; a placed digit goes from every cell that sees it.

        The new board's `fresh` is the mask of the cells in which something changed.
        """
        candidates = list(self.candidates)
        placed = self.placed
        changed = 0
        sees, peers = self.layout.sees, self.layout.peers
        for step in steps:
            for cell, digits in step.removes:
                if candidates[cell] & digits:
                    candidates[cell] &= ~digits
                    changed |= 1 << cell
            for cell, digit in step.places:
                bit = 1 << digit
                if candidates[cell] != bit:
                    candidates[cell] &= bit
                changed |= 1 << cell
                placed |= 1 << cell
                if sees[cell]:
                    for peer in peers[cell]:
                        if candidates[peer] & bit:
                            candidates[peer] ^= bit
                            changed |= 1 << peer
        return Board(self.layout, candidates, placed, changed)

    def looking_at(self, fresh: int) -> Board:
        """Return the same board with other cells marked as fresh."""
        return Board(self.layout, self.candidates, self.placed, fresh)

    @property
    def solved(self) -> bool:
        """Whether every cell has its digit."""
        return self.placed == self.layout.all_cells

    @property
    def contradicted(self) -> bool:
        """Whether a cell has nothing left, a house no place for a digit, or full cells break another rule."""
        candidates, everything, layout = self.candidates, self.layout.all_digits, self.layout
        return (
            0 in candidates
            or any(union(candidates[cell] for cell in house.cells) != everything for house in layout.houses)
            or any(
                not mask & ~self.placed
                and sum(candidates[cell].bit_length() - 1 for cell in bits(mask)) != layout.cage(number).total
                for number, mask in layout.summed_masks
            )
            or any(
                not layout.masks[number] & ~self.placed and not layout.rules[number].holds(self.filling)
                for number in range(layout.cage_numbers.stop, len(layout.rules))
            )
        )

    @property
    def filling(self) -> Filling:
        """The digits of a solved board, in reading order; 0 in a blocked cell."""
        return tuple(mask.bit_length() - 1 for mask in self.candidates)


def empty_board(puzzle: Puzzle) -> Board:
    """Return the board on which everything is open, givens too; blocked cells have a 0, which is no digit."""
    layout = layout_of(puzzle)
    candidates = [layout.all_digits] * layout.grid.cell_count
    for cell in layout.grid.blocked:
        candidates[cell] = 1
    return Board(layout, candidates, mask_of(layout.grid.blocked), layout.all_cells)


def opening_board(puzzle: Puzzle) -> Board:
    """Return the board before the first step: the givens placed, everything else open.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> board = opening_board(make_puzzle("classic", Grid.square(4), givens={0: 1}))
    >>> digits_of(board.candidates[1]), digits_of(board.candidates[15])
    ((2, 3, 4), (1, 2, 3, 4))
    """
    empty = empty_board(puzzle)
    return empty.after([Step("given", places=puzzle.givens)]).looking_at(empty.layout.all_cells)


_TOKEN = re.compile(r"([1-9]+)(\?)?|\{([0-9,]+)\}(\?)?|\.", re.ASCII)


def board_from_text(
    text: str,
    cages: Iterable[Cage] = (),
    size: int = 9,
    clues: Iterable[Rule] = (),
    houses: tuple[House, ...] | None = None,
) -> Board:
    """Build a board from the notation that pictures and tests share.

    One line a row, one word a cell: the open digits (``379``; ``{10,12}`` where digits go above 9), a
    lone digit for a placed cell (``5``), ``5?`` for a cell with one candidate that has not been written
    in, ``.`` for a cell in which all is open that no placed cell it sees rules out. Rows and cells that
    are not written are ``.``. Words are taken as they stand: candidates next to a placed digit are not
    tidied up.

    Parameters
    ----------
    text : str
        The picture.
    cages : iterable of Cage, optional
        The cages of the grid.
    size : int, optional
        Rows of the grid, with the usual boxes.
    clues : iterable of Rule, optional
        Marks, lines and clues at the edge.
    houses : tuple of House, optional
        Those beside rows and columns, where they are not the usual boxes.

    Examples
    --------
    >>> board = board_from_text("37 5 379 37")
    >>> digits_of(board.candidates[2]), digits_of(board.candidates[8])
    ((3, 7, 9), (1, 2, 3, 4, 6, 7, 8, 9))
    """
    grid = Grid.square(size) if houses is None else Grid(size, size, 0, 0, size)
    of_all = (*grid.houses, *(houses or ()))
    layout = layout_of(make_puzzle("killer", grid, cages=cages, clues=clues, houses=of_all))
    candidates = [0] * grid.cell_count
    placed = 0
    for row, line in enumerate(text.strip("\n").splitlines()):
        for column, word in enumerate(line.split()):
            match = _TOKEN.fullmatch(word)
            if match is None:
                raise ValueError(f"not a cell of a board: {word!r}")
            if word == ".":
                continue
            cell = row * size + column
            digits = [int(d) for d in (match[1] or match[3].split(","))]
            candidates[cell] = mask_of(digits)
            if len(digits) == 1 and not word.endswith("?"):
                placed |= 1 << cell
    for cell, mask in enumerate(candidates):
        if not mask:
            seen = [candidates[peer] for peer in layout.peers[cell] if placed >> peer & 1]
            candidates[cell] = layout.all_digits & ~union(seen)
    return Board(layout, candidates, placed, layout.all_cells)

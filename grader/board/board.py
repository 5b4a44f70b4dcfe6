"""The board a person works on: what is still open in every cell, and what each cell sees.

Sets of digits are bit masks: bit ``d`` stands for digit ``d``. Sets of cells are bit masks too: bit
``c`` stands for cell ``c`` (cells count in reading order from 0). A `Board` is never changed; applying
steps gives a new one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import cast

from grader.board.steps import Step
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import Rule

__all__ = [
    "Board",
    "Layout",
    "bits",
    "board_from_text",
    "digits_of",
    "empty_board",
    "layout_of",
    "mask_of",
    "opening_board",
]


def bits(mask: int) -> Iterator[int]:
    """Yield the positions of the bits of a mask, smallest first: its digits, or its cells.

    Examples
    --------
    >>> list(bits(0b10110))
    [1, 2, 4]
    """
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


@lru_cache(maxsize=4096)
def digits_of(mask: int) -> tuple[int, ...]:
    """Return the digits of a mask of digits, smallest first."""
    return tuple(bits(mask))


def mask_of(positions: Iterable[int]) -> int:
    """Return the mask of some digits, or of some cells.

    Examples
    --------
    >>> mask_of([1, 2, 4]) == 0b10110
    True
    """
    mask = 0
    for position in positions:
        mask |= 1 << position
    return mask


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """What never changes while a puzzle is solved: the rules, which of them each cell is in, who sees whom.

    A rule is spoken of by its number, its place in `rules`; so is a house, since houses come first.

    Parameters
    ----------
    grid : Grid
        Size, boxes and digits.
    rules : tuple of Rule
        As `Puzzle.premises` orders them.
    masks : tuple of int
        Their cells, as masks.
    houses : tuple of House
        Those in which every digit stands: the first of `rules`.
    house_masks : tuple of int
        The first of `masks`.
    cage_numbers : range
        The numbers of the cages whose digits differ.
    summed : range
        The numbers of all cages with a total: of those that may repeat digits, then of the others.
    cage_masks, summed_masks : tuple of (int, int)
        These numbers, each with the mask of its cells.
    all_houses, all_different : int
        Masks of the numbers of the houses, and of the rules whose cells all differ.
    houses_of, cages_of, apart_of : tuple of tuple of int
        For each cell, the houses and the cages it is in, and all other rules than houses whose cells differ,
        cages first.
    partners : tuple of (int, tuple of int)
        For each rule whose pairs never hold equal digits, its number and the mask of each cell's partners,
        less those with which the cell shares a rule anyway.
    sees : tuple of int
        For each cell, the mask of the cells that share such a rule with it, or are its partners.
    peers : tuple of tuple of int
        The same as tuples, in reading order.
    all_digits : int
        Mask of every digit.
    all_cells : int
        Mask of every cell.
    """

    grid: Grid
    rules: tuple[Rule, ...]
    masks: tuple[int, ...]
    houses: tuple[House, ...]
    house_masks: tuple[int, ...]
    cage_numbers: range
    summed: range
    cage_masks: tuple[tuple[int, int], ...]
    summed_masks: tuple[tuple[int, int], ...]
    all_houses: int
    all_different: int
    houses_of: tuple[tuple[int, ...], ...]
    cages_of: tuple[tuple[int, ...], ...]
    apart_of: tuple[tuple[int, ...], ...]
    partners: tuple[tuple[int, tuple[int, ...]], ...]
    sees: tuple[int, ...]
    peers: tuple[tuple[int, ...], ...]
    all_digits: int
    all_cells: int

    def cage(self, number: int) -> Cage | LinearSum:
        """Return the cage of a number."""
        return cast("Cage | LinearSum", self.rules[number])

    def houses_among(self, numbers: Iterable[int]) -> tuple[int, ...]:
        """Return those of some rules that are houses."""
        return tuple([number for number in numbers if number < len(self.houses)])

    def cages_among(self, numbers: Iterable[int]) -> tuple[int, ...]:
        """Return those of some rules that are cages with a total."""
        return tuple([number for number in numbers if number in self.summed])

    def link(self, one: int, other: int) -> tuple[int, ...]:
        """Return the premise that two cells differ, a house or else another rule that holds both; or none."""
        for number in (*self.houses_of[one], *self.apart_of[one]):
            if self.masks[number] >> other & 1:
                return (number,)
        return tuple([number for number, masks in self.partners if masks[one] >> other & 1][:1])


def layout_of(puzzle: Puzzle) -> Layout:
    """Work out the layout of a puzzle once, for all its boards."""
    count = puzzle.grid.cell_count
    houses = puzzle.full_houses
    house_masks, houses_of, house_sees, house_peers = _house_tables(houses, count)
    apart_of: list[tuple[int, ...]] = [()] * count
    sees = list(house_sees)
    rules = puzzle.premises
    masks = [*house_masks, *(mask_of(rule.cells) for rule in rules[len(houses) :])]
    first = len(houses) + len(puzzle.repeating_cages)
    cage_numbers, summed = (range(start, first + len(puzzle.cages)) for start in (first, len(houses)))
    apart = sum(type(rule) in (House, Cage, Different) for rule in rules)
    apart_numbers = range(first, first + apart - len(houses))
    for number in apart_numbers:
        for cell in bits(masks[number]):
            apart_of[cell] += (number,)
            sees[cell] |= masks[number] & ~(1 << cell)
    partners = _partners(rules, sees, puzzle.grid)
    return Layout(
        grid=puzzle.grid,
        rules=rules,
        masks=tuple(masks),
        houses=houses,
        house_masks=house_masks,
        cage_numbers=cage_numbers,
        summed=summed,
        cage_masks=tuple((number, masks[number]) for number in cage_numbers),
        summed_masks=tuple((number, masks[number]) for number in summed),
        all_houses=(1 << len(house_masks)) - 1,
        all_different=(1 << apart_numbers.stop) - 1 ^ mask_of(range(len(houses), first)),
        houses_of=houses_of,
        cages_of=tuple([tuple([n for n in numbers if n in cage_numbers]) for numbers in apart_of]),
        apart_of=tuple(apart_of),
        partners=partners,
        sees=tuple(sees),
        peers=tuple(
            peers if mask == by_house else tuple(bits(mask))
            for mask, by_house, peers in zip(sees, house_sees, house_peers, strict=True)
        ),
        all_digits=mask_of(puzzle.grid.all_digits),
        all_cells=(1 << count) - 1,
    )


def _partners(rules: Sequence[Rule], sees: list[int], grid: Grid) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Return the partners of each cell by each rule of pairs that differ, and add them to what it sees."""
    found = []
    for number, rule in enumerate(rules):
        if isinstance(rule, PairRule) and not any(rule.fits(digit, digit) for digit in grid.all_digits):
            masks = [0] * grid.cell_count
            for one, other in rule.pairs:
                if not sees[one] >> other & 1:
                    masks[one] |= 1 << other
                    masks[other] |= 1 << one
            if any(masks):
                found.append((number, tuple(masks)))
    for _, masks_of in found:
        for cell, mask in enumerate(masks_of):
            sees[cell] |= mask
    return tuple(found)


@lru_cache(maxsize=4)
def _places(candidates: tuple[int, ...], digits: int) -> list[int]:
    """Return what `Board.places` does: one technique after another asks it of the same board."""
    places = [0] * (digits + 1)
    for cell, mask in enumerate(candidates):
        bit = 1 << cell
        for digit in digits_of(mask):
            places[digit] |= bit
    return places


@lru_cache(maxsize=32)
def _house_tables(
    houses: tuple[House, ...], count: int
) -> tuple[tuple[int, ...], tuple[tuple[int, ...], ...], tuple[int, ...], tuple[tuple[int, ...], ...]]:
    """Return what houses alone say, the same for all such grids.

    Returns
    -------
    tuple
        The masks of the houses; for each cell the houses it is in, the mask of the cells it shares one
        with, and these cells.
    """
    masks = tuple(mask_of(house.cells) for house in houses)
    of: list[list[int]] = [[] for _ in range(count)]
    sees = [0] * count
    for index, house in enumerate(houses):
        for cell in house.cells:
            of[cell].append(index)
            sees[cell] |= masks[index] & ~(1 << cell)
    return masks, tuple(tuple(h) for h in of), tuple(sees), tuple(tuple(bits(mask)) for mask in sees)


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
            or any(_union(candidates[cell] for cell in house.cells) != everything for house in layout.houses)
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


def empty_board(layout: Layout) -> Board:
    """Return the board on which everything is open; blocked cells have a 0, which is no digit."""
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
    empty = empty_board(layout_of(puzzle))
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
            candidates[cell] = layout.all_digits & ~_union(seen)
    return Board(layout, candidates, placed, layout.all_cells)


def _union(masks: Iterable[int]) -> int:
    union = 0
    for mask in masks:
        union |= mask
    return union

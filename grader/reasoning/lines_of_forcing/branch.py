"""What follows from one assumption by singles and cage arithmetic alone: the line of a forcing chain.

A branch starts with one candidate taken to be right and goes forward level by level. At each level all
digits found on the level before are written in, they go from the cells that see them, the cages touched
keep only the digits of their open combinations, clues with few empty cells those of some way to fill them,
and cells with one digit left and digits with one place left are noted for the next level. Nothing is assumed
on the way, so a branch is one line, however many cells it touches.

Cells with a candidate ``d`` are kept as a mask for each digit as well: whether a house has one place left
for a digit is then a single operation. These masks are remembered for each level, so that the premises of a
conclusion can be traced back (`grader.reasoning.lines_of_forcing.tracing`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from grader.board.basis import seen_by_all
from grader.board.board import Board
from grader.board.guard import look_at_clock
from grader.reasoning.clues.narrow import filled_clues, left_by_clue
from grader.reasoning.combinations import open_digits, rest_of_cage
from grader.reasoning.pairs import barred_from
from verifier.puzzle.masks import bits, digits_of, mask_of

__all__ = ["BY_ASSUMPTION", "BY_NAKED_SINGLE", "Branch", "BranchLevel", "Failure", "Origin"]

BY_NAKED_SINGLE = -1
BY_ASSUMPTION = -2
"""Reasons for a digit that is written in; any other is the house in which it has one place left."""


@dataclass(frozen=True, slots=True)
class Failure:
    """Where a branch fails.

    Parameters
    ----------
    kind : str
        A ``cell``, a ``cage`` or a ``clue`` has nothing left, a digit has no place in a ``house``, or there
        is a ``clash``: a digit forced into a cell that cannot take it.
    where : int
        The cell, cage, clue or house; of a clash, the cell.
    digit : int
        The digit of a house or a clash.
    reason : int
        What forced the digit of a clash.
    """

    kind: str
    where: int
    digit: int = 0
    reason: int = 0


class Origin:
    """A board made ready for branches: worked out once, read by all of them.

    Parameters
    ----------
    board : Board
        Where the assumptions are made; nothing in it contradicts the rules yet.

    Attributes
    ----------
    places : sequence of int
        What `Board.places` returns.
    open_cages : list of tuple
        The cages that were not full yet: each with the mask of its empty cells, these cells, and what they
        make together. Some may have been filled since.
    clues : tuple of (int, int)
        What `filled_clues` returns.
    """

    def __init__(self, board: Board) -> None:
        self.board = board
        self.places: Sequence[int] = board.places()
        self.clues = filled_clues(board.layout)
        self.open_cages: list[tuple[int, int, list[int], int]] = []
        for cage, mask in board.layout.cage_masks:
            if mask & ~board.placed:
                cells, rest, _ = rest_of_cage(board, cage)
                self.open_cages.append((cage, mask_of(cells), cells, rest))

    @classmethod
    def at_end_of(cls, branch: Branch) -> Origin:
        """Return what a branch has come to, made ready for assumptions on top of its own."""
        origin, layout = cls.__new__(cls), branch.board.layout
        origin.board = Board(layout, branch.candidates, branch.placed, layout.all_cells)
        origin.places = branch.places
        origin.open_cages = branch.origin.open_cages
        origin.clues = branch.origin.clues
        return origin


class BranchLevel(NamedTuple):
    """One level of a branch: what was written in, and what was open then.

    Parameters
    ----------
    written : tuple of (int, int, int)
        Cells, their digits and the reasons, in order.
    after_digits : list of int
        For each digit the mask of its places, after the digits went from the cells that see them.
    after_cages : list of int
        The same after the cages and the clues were looked at.
    """

    written: tuple[tuple[int, int, int], ...]
    after_digits: list[int]
    after_cages: list[int]


class Branch:
    """One assumption and what has followed from it so far. Working memory: it changes as it goes.

    Parameters
    ----------
    origin : Origin
        Where the assumption is made; read, never changed.
    cell, digit : int
        The assumption; 0 for the digit where none is written in (see `of_combination`).

    Attributes
    ----------
    origin, board : Origin, Board
        Where the assumption was made.
    candidates, places, placed
        As of a `Board`: what is open by now.
    history : list of BranchLevel
        What happened: first what the assumption ruled out by itself, then level by level.
    held : dict of int to int
        Where the combination that is assumed can have each of its digits, as masks.
    by_clue : dict of (int, int) to int
        The clue that took a candidate, a pair of cell and digit.
    failure : Failure or None
        Where the branch failed; None as long as it has not.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> board = board_from_text("12 12 123", size=4)
    >>> branch = Branch(Origin(board), 2, 1)
    >>> branch.run()
    >>> branch.contradicted, branch.level  # 1 in r1c3 leaves 2 for both of the others
    (True, 2)
    """

    def __init__(self, origin: Origin, cell: int, digit: int) -> None:
        board = origin.board
        self.board = board
        self.origin = origin
        self.start = (cell, digit)
        self.candidates = list(board.candidates)
        self.places = list(origin.places)
        self.placed = board.placed
        self.history = [BranchLevel((), self.places.copy(), self.places.copy())]
        self.held: dict[int, int] = {}
        self.by_clue: dict[tuple[int, int], int] = {}
        self.failure: Failure | None = None
        self._queue: list[tuple[int, int, int]] = [(cell, digit, BY_ASSUMPTION)] if digit else []
        self._barred = barred_from(board.layout)

    @classmethod
    def of_combination(cls, origin: Origin, cage: int, combination: int) -> Branch:
        """Return the branch that takes one combination of a cage to be right.

        Parameters
        ----------
        origin : Origin
            Where the assumption is made; read, never changed.
        cage : int
            The cage, by its place in the layout.
        combination : int
            Mask of the digits of its empty cells.

        Examples
        --------
        With 1 and 4 in the cage, nothing is left for the cell beside it:

        >>> from grader.board.board import board_from_text
        >>> from verifier.puzzle.rules.cage import Cage
        >>> board = board_from_text("1234 1234 14", [Cage((0, 1), 5)])
        >>> Branch.of_combination(Origin(board), 0, 1 << 1 | 1 << 4).contradicted
        True
        """
        cells = origin.board.unsolved(origin.board.layout.rules[cage].cells)
        branch = cls(origin, cells[0], 0)
        branch._assume(combination, mask_of(cells))
        return branch

    def _assume(self, combination: int, cells: int) -> None:
        """Leave only the digits of a combination in some cells; these go from all that see their places."""
        touched = 0
        for digit, places in enumerate(self.places):
            held = places & cells
            if not combination >> digit & 1:
                gone = held
            elif held:
                self.held[digit] = held
                gone = places & seen_by_all(self.board.layout, held)
            else:
                gone = 0
            touched |= gone
            self.places[digit] ^= gone
            for cell in bits(gone):
                self.candidates[cell] ^= 1 << digit
        before = self.history.pop().after_cages
        self._look_at_cages(touched, ())
        self._note_singles(before)

    @property
    def level(self) -> int:
        """How many levels the branch has gone forward."""
        return len(self.history) - 1

    @property
    def contradicted(self) -> bool:
        """Whether the assumption has led to a cell, a house or a cage with nothing left."""
        return self.failure is not None

    @property
    def order(self) -> tuple[int, ...]:
        """The cells in the order in which they were written in, the assumption first."""
        return tuple(cell for past in self.history for cell, _, _ in past.written)

    @property
    def alive(self) -> bool:
        """Whether there is more to follow."""
        return self.failure is None and bool(self._queue)

    def advance(self) -> None:
        """Go forward by one level; does nothing once the branch has ended."""
        look_at_clock()
        if not self.alive:
            return
        queue, self._queue = self._queue, []
        touched = 0
        written = []
        for one in queue:
            lost = self._write(*one)
            if lost:
                touched |= lost
                written.append(one)
        before = self.history[-1].after_cages
        self._look_at_cages(touched, tuple(written))
        self._note_singles(before)

    def run(self, levels: int | None = None) -> None:
        """Go forward until nothing follows, a contradiction appears, or `levels` are done."""
        while self.alive and (levels is None or self.level < levels):
            self.advance()

    def _write(self, cell: int, digit: int, reason: int) -> int:
        """Write a digit in; return the mask of the cells to look at, 0 where it stands there already."""
        bit, own, places = 1 << digit, 1 << cell, self.places
        if self.placed & own and self.candidates[cell] == bit:
            return 0
        if not self.candidates[cell] & bit:
            self.failure = self.failure or Failure("clash", cell, digit, reason)
            return 0
        for other in digits_of(self.candidates[cell] ^ bit):
            places[other] ^= own
        self.candidates[cell] = bit
        self.placed |= own
        seen = places[digit] & self.board.layout.sees[cell]
        places[digit] ^= seen
        for peer in bits(seen):
            self.candidates[peer] ^= bit
        return own | seen | self._bar(cell, digit)

    def _bar(self, cell: int, digit: int) -> int:
        """Take what does not fit a digit from the cells that share a rule over pairs with its cell."""
        touched = 0
        for other, fit in self._barred[cell] if self._barred else ():
            gone = self.candidates[other] & ~fit.left[digit]
            if gone:
                self.candidates[other] ^= gone
                touched |= 1 << other
                for lost in digits_of(gone):
                    self.places[lost] ^= 1 << other
        return touched

    def _look_at_cages(self, touched: int, written: tuple[tuple[int, int, int], ...]) -> None:
        """Leave in each touched cage the digits of its open combinations; note the level."""
        after_digits = self.places.copy()
        if self.failure is None:
            clues = self.origin.clues
            before = self.candidates.copy() if clues else self.candidates
            self._keep_open_combinations(touched)
            for clue, mask in clues:
                if mask & touched:
                    self._keep_open_ways(clue, before)
        self.history.append(BranchLevel(written, after_digits, self.places.copy()))

    def _keep_open_combinations(self, touched: int) -> None:
        candidates, placed, digits = self.candidates, self.placed, self.board.layout.grid.digits
        for cage, mask, cells, total in self.origin.open_cages:
            if not mask & touched:
                continue
            if mask & placed:
                total -= sum([candidates[cell].bit_length() - 1 for cell in cells if placed >> cell & 1])
                cells = [cell for cell in cells if not placed >> cell & 1]
                if not cells:
                    if total:
                        self.failure = self.failure or Failure("cage", cage)
                    continue
            possible = open_digits(tuple([candidates[cell] for cell in cells]), total, digits)
            if not possible:
                self.failure = self.failure or Failure("cage", cage)
                return
            for cell in cells:
                gone = candidates[cell] & ~possible
                if gone:
                    candidates[cell] ^= gone
                    for digit in digits_of(gone):
                        self.places[digit] ^= 1 << cell

    def _keep_open_ways(self, clue: int, before: Sequence[int]) -> None:
        """Leave in a clue what its ways leave, from what was open before any clue or cage was looked at."""
        for cell, left in left_by_clue(self.board.layout, clue, before).items():
            if not left:
                self.failure = self.failure or Failure("clue", clue)
                return
            gone = self.candidates[cell] & ~left
            self.candidates[cell] ^= gone
            for digit in digits_of(gone):
                self.places[digit] ^= 1 << cell
                self.by_clue[cell, digit] = clue

    def _note_singles(self, before: Sequence[int]) -> None:
        """Note what is to be written in next, or where nothing is left; `before` is the places till then."""
        if self.failure is None:
            self._note_naked_singles()
        if self.failure is None:
            self._note_hidden_singles(before)

    def _note_naked_singles(self) -> None:
        once = twice = 0
        for cells in self.places:
            twice |= once & cells
            once |= cells
        nothing = self.board.layout.all_cells & ~once
        if nothing:
            self.failure = Failure("cell", nothing.bit_length() - 1)
            return
        for cell in bits(once & ~twice & ~self.placed):
            self._queue.append((cell, self.candidates[cell].bit_length() - 1, BY_NAKED_SINGLE))

    def _note_hidden_singles(self, before: Sequence[int]) -> None:
        placed, layout = self.placed, self.board.layout
        masks = layout.house_masks
        every_house = range(len(masks))
        for digit, places in enumerate(self.places):
            lost = before[digit] ^ places
            if not lost:
                continue
            one_cell = not lost & (lost - 1)
            for house in layout.houses_of[lost.bit_length() - 1] if one_cell else every_house:
                if masks[house] & lost:
                    left = masks[house] & places
                    if not left:
                        self.failure = Failure("house", house, digit)
                        return
                    if not left & (left - 1) and not left & placed:
                        self._queue.append((left.bit_length() - 1, digit, house))

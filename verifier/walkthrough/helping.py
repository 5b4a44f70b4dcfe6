"""Help for somebody who is stuck: what has gone wrong so far, or else the way to the next digit."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace

from grader.board.board import Board, empty_board, opening_board
from grader.board.steps import Step, WalkStep
from grader.walking.walk import shortest_argument
from verifier.evidence.establish import count
from verifier.files.so_far import SoFar
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.masks import mask_of
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally
from verifier.walkthrough.wrong.mistakes import Mistake, mistakes_in
from verifier.walkthrough.wrong.shifting import Slip, slip_of

__all__ = ["Help", "help_from", "standing_in"]


@dataclass(frozen=True, slots=True)
class Help:
    """What there is to say about a part-filled grid.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    so_far : SoFar
        What stands in the grid, as it was given.
    tally : Tally
        How many solutions the puzzle has.
    board : Board
        What stands, without what is wrong: the board from which the steps go on.
    mistakes : tuple of Mistake
        What is wrong.
    slip : Slip or None
        The one slip that explains most of the mistakes.
    dropped : bool
        Whether the steps go on without what is wrong.
    steps : tuple of WalkStep
        The way to the next digit; none where something is wrong and not dropped, where the grid is full, or
        no technique goes further.
    cut : bool
        Whether the clock ended the search for it.
    """

    puzzle: Puzzle
    so_far: SoFar
    tally: Tally
    board: Board
    mistakes: tuple[Mistake, ...] = ()
    slip: Slip | None = None
    dropped: bool = False
    steps: tuple[WalkStep, ...] = ()
    cut: bool = False

    @property
    def sound(self) -> bool:
        """Whether the puzzle has exactly one solution, against which entries can be held."""
        return self.tally.only_solution is not None

    @property
    def goes_on(self) -> bool:
        """Whether there is a puzzle to go on with, and nothing wrong in the grid that is kept."""
        return not self.unsolvable and (self.dropped or not self.mistakes)

    @property
    def unsolvable(self) -> bool:
        """Whether the puzzle has no solution."""
        return self.tally.complete and not self.tally.count

    @property
    def full(self) -> bool:
        """Whether every cell has its digit."""
        return self.board.solved

    @property
    def still_right(self) -> int | None:
        """How many of the digits that were entered are right; None where nobody can say."""
        if not self.sound:
            return None
        own = {cell for cell, _ in self.so_far.entries} - {cell for cell, _ in self.puzzle.givens}
        return len(own - {each.cell for each in self.mistakes if each.digit is not None})


def help_from(puzzle: Puzzle, so_far: SoFar, *, drop_wrong: bool = False, seconds: float = 300) -> Help:
    """Say what is wrong in a part-filled grid, or find the way to the next digit.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    so_far : SoFar
        What stands in the grid; the puzzle's givens need not be repeated.
    drop_wrong : bool, optional
        Whether to go on without what is wrong.
    seconds : float, optional
        Guard on the wall clock.

    Returns
    -------
    Help
        Entries and marks are held against the solution if there is exactly one; otherwise only digits that
        clash are found. A mark that is missing is taken as ruled out; where there are no marks, everything
        is open that no entry in sight rules out.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> help_from(puzzle, SoFar(((3, 4),))).steps[-1].step.places
    ((6, 1),)
    >>> mistaken = help_from(puzzle, SoFar(((4, 4),), ((5, (2, 3)),)))
    >>> [(each.cell, each.digit) for each in mistaken.mistakes], mistaken.still_right
    ([(4, 4), (5, None)], 0)
    """
    deadline = time.monotonic() + seconds
    found = standing_in(puzzle, so_far, drop_wrong=drop_wrong, seconds=seconds)
    if not found.goes_on or found.full:
        return found
    try:
        argument = shortest_argument(found.board, deadline=deadline)
    except TimeoutError:
        return replace(found, cut=True)
    return replace(found, steps=argument.steps if argument else ())


def standing_in(puzzle: Puzzle, so_far: SoFar, *, drop_wrong: bool = False, seconds: float = 300) -> Help:
    """Say what stands in a part-filled grid and what is wrong in it; arguments as in `help_from`."""
    deadline = time.monotonic() + seconds
    tally = count(puzzle, 2, WorkAllowance(seconds=seconds))
    if tally.complete and not tally.count:
        return Help(puzzle, so_far, tally, opening_board(puzzle))
    mistakes = mistakes_in(puzzle, so_far, tally.only_solution, deadline - time.monotonic())
    return Help(
        puzzle,
        so_far,
        tally,
        board_so_far(puzzle, _without(so_far, mistakes)),
        mistakes,
        _slip(puzzle, so_far, tally),
        dropped=drop_wrong and bool(mistakes),
    )


def _slip(puzzle: Puzzle, so_far: SoFar, tally: Tally) -> Slip | None:
    givens, solution = dict(puzzle.givens), tally.only_solution
    own = {cell: digit for cell, digit in so_far.entries if givens.get(cell) != digit}
    return None if solution is None else slip_of(own, solution, puzzle.grid)


def _without(so_far: SoFar, mistakes: Sequence[Mistake]) -> SoFar:
    """Return what stands in a grid without what is wrong in it."""
    wrong = {each.cell for each in mistakes}
    return SoFar(
        tuple(entry for entry in so_far.entries if entry[0] not in wrong),
        tuple(marked for marked in so_far.marks if marked[0] not in wrong),
    )


def board_so_far(puzzle: Puzzle, so_far: SoFar) -> Board:
    """Return the board of a part-filled grid.

    Entries are placed, and go from the cells that see them; in a cell with pencil marks only these are
    open.
    """
    empty = empty_board(puzzle)
    layout, candidates = empty.layout, list(empty.candidates)
    for cell, marks in so_far.marks:
        candidates[cell] = mask_of(marks)
    entries: Sequence[tuple[int, int]] = sorted({**dict(puzzle.givens), **dict(so_far.entries)}.items())
    for cell, _ in entries:
        candidates[cell] = layout.all_digits
    board = Board(layout, candidates, empty.placed, layout.all_cells)
    return board.after([Step("given", places=tuple(entries))]).looking_at(layout.all_cells)

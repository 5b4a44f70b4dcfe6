"""Help for somebody who is stuck: what has gone wrong so far, or else the next step."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

from grader.board.board import Board, empty_board, layout_of, mask_of
from grader.board.steps import Step, WalkStep
from grader.walking.walk import next_step
from verifier.evidence.establish import count
from verifier.files.so_far import SoFar
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Tally

__all__ = ["Help", "board_so_far", "help_from"]


@dataclass(frozen=True, slots=True)
class Help:
    """What there is to say about a part-filled grid.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    tally : Tally
        How many solutions it has.
    wrong : tuple of (int, int)
        Entries that are not those of the solution: cell and digit.
    lost : tuple of int
        Cells whose pencil marks lack the digit of the solution.
    full : bool
        Whether every cell has its digit.
    taken : WalkStep or None
        The next step; None where something is wrong, the grid is full, or no technique goes further.
    cut : bool
        Whether the clock ended the search for it.
    """

    puzzle: Puzzle
    tally: Tally
    wrong: tuple[tuple[int, int], ...] = ()
    lost: tuple[int, ...] = ()
    full: bool = False
    taken: WalkStep | None = None
    cut: bool = False

    @property
    def sound(self) -> bool:
        """Whether the puzzle has exactly one solution, against which entries can be held."""
        return self.tally.only_solution is not None


def help_from(puzzle: Puzzle, so_far: SoFar, seconds: float = 300) -> Help:
    """Say what is wrong in a part-filled grid, or find the next step.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    so_far : SoFar
        What stands in the grid; the puzzle's givens need not be repeated.
    seconds : float, optional
        Guard on the wall clock.

    Returns
    -------
    Help
        Entries and marks are held against the solution if there is exactly one. A mark that is missing
        is taken as ruled out; where there are no marks, everything is open that no entry in sight
        rules out.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> help_from(puzzle, SoFar(((3, 4),))).taken.step.places
    ((6, 1),)
    >>> mistaken = help_from(puzzle, SoFar(((4, 4),), ((5, (2, 3)),)))
    >>> mistaken.wrong, mistaken.lost
    (((4, 4),), (5,))
    """
    deadline = time.monotonic() + seconds
    tally = count(puzzle, 2, WorkAllowance(seconds=seconds))
    entries = {**dict(puzzle.givens), **dict(so_far.entries)}
    if tally.complete and tally.count == 0:
        return Help(puzzle, tally)
    if tally.only_solution is not None:
        wrong, lost = _mistakes(entries, so_far, tally.only_solution)
        if wrong or lost:
            return Help(puzzle, tally, wrong, lost)
    full = len(entries) == puzzle.grid.cell_count
    try:
        taken = None if full else next_step(board_so_far(puzzle, so_far), deadline=deadline)
    except TimeoutError:
        return Help(puzzle, tally, cut=True)
    return Help(puzzle, tally, full=full, taken=taken)


def _mistakes(
    entries: dict[int, int], so_far: SoFar, solution: Filling
) -> tuple[tuple[tuple[int, int], ...], tuple[int, ...]]:
    wrong = tuple((cell, digit) for cell, digit in sorted(entries.items()) if digit != solution[cell])
    lost = tuple(cell for cell, marks in so_far.marks if solution[cell] not in marks)
    return wrong, lost


def board_so_far(puzzle: Puzzle, so_far: SoFar) -> Board:
    """Return the board of a part-filled grid.

    Entries are placed, and go from the cells that see them; in a cell with pencil marks only these are
    open.
    """
    empty = empty_board(layout_of(puzzle))
    layout, candidates = empty.layout, list(empty.candidates)
    for cell, marks in so_far.marks:
        candidates[cell] = mask_of(marks)
    entries: Sequence[tuple[int, int]] = sorted({**dict(puzzle.givens), **dict(so_far.entries)}.items())
    for cell, _ in entries:
        candidates[cell] = layout.all_digits
    board = Board(layout, candidates, empty.placed, layout.all_cells)
    return board.after([Step("given", places=tuple(entries))]).looking_at(layout.all_cells)

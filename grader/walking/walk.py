"""Walk a puzzle through as one would at the board: one step at a time, the easiest and nearest first.

`grader.grading.replay` works in rounds, so that the figures of a grade depend on no order. A walk goes up and
down the same ladder in an order that a person can follow.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from grader.board.board import Board, Layout, mask_of, opening_board
from grader.board.guard import OutOfTimeError, guarded, look_at_clock
from grader.board.steps import Step
from grader.board.technique import Technique
from grader.grading.replay import Outcome, outcome_of
from grader.ladder import LADDER
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["LEFT_OVER_AT_MOST", "Walk", "WalkStep", "cells_of", "next_step", "simplest_steps", "walk"]


LEFT_OVER_AT_MOST = 4
"""A house with more innies and outies than this, known or not, is not added up at a glance."""

_NOT_AT_A_GLANCE, _ITS_TURN = "rule-of-45", "rule-of-45-houses"
_TRIAL = "trial"


@dataclass(frozen=True, slots=True)
class WalkStep:
    """A step, and the board on which it is taken.

    Parameters
    ----------
    step : Step
        The step.
    board : Board
        What was open before it.
    width : int
        How many steps of its technique were open there: the places at which one could have gone on.
    """

    step: Step
    board: Board
    width: int = 1


@dataclass(frozen=True, slots=True)
class Walk:
    """A puzzle worked through, one step at a time.

    Parameters
    ----------
    layout : Layout
        The puzzle's houses and cages, which the steps speak of by number.
    outcome : Outcome
        Where it ended.
    filling : Filling or None
        The solution, when solved.
    steps : tuple of WalkStep
        In order.
    """

    layout: Layout
    outcome: Outcome
    filling: Filling | None
    steps: tuple[WalkStep, ...]


def walk(
    puzzle: Puzzle,
    *,
    trial: bool = True,
    deadline: float | None = None,
    ladder: Sequence[Technique] = LADDER,
) -> Walk:
    """Walk a puzzle through from its givens.

    At each moment the simplest technique that yields anything is used (a rule of 45 that leaves over more
    cells than `LEFT_OVER_AT_MOST` is no simple one, and waits for the turn of those over several houses),
    and of its steps

    1. the shortest chain,
    2. then one with the very pattern of the last step (the same cage, say, and its next digit),
    3. then one that rests on what the last step changed,
    4. then the one whose pattern is nearest to that of the last step (rows plus columns between them),
    5. then the one with the fewest premises,
    6. then the first in reading order.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    trial : bool, optional
        Whether the last technique, trial, may be used.
    deadline : float, optional
        A guard, on the clock of `time.monotonic`.
    ladder : sequence of Technique, optional
        The techniques in the order in which they are tried.

    Returns
    -------
    Walk
        Solved or contradicted only where the steps prove it.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> walked.outcome.value, [taken.step.places[0] for taken in walked.steps][:3]
    ('solved', [(3, 4), (6, 1), (11, 3)])
    """
    board = opening_board(puzzle)
    lookout = _Lookout(board.layout, [technique for technique in ladder if trial or technique.id != "trial"])
    taken: list[WalkStep] = []
    last: Step | None = None
    while not board.solved and 0 not in board.candidates:
        try:
            with guarded(deadline):
                open_steps = lookout.simplest(board)
        except OutOfTimeError:
            return Walk(board.layout, Outcome.CLOCK, None, tuple(taken))
        if not open_steps:
            break
        last = _chosen(open_steps, board, last)
        taken.append(WalkStep(last, board, len(open_steps)))
        board = board.after([last])
        lookout.note(board.fresh)
    outcome = outcome_of(puzzle, board)
    return Walk(board.layout, outcome, board.filling if outcome is Outcome.SOLVED else None, tuple(taken))


def next_step(board: Board, ladder: Sequence[Technique] = LADDER) -> WalkStep | None:
    """Return the step to take on a board of which it is not known how it came about.

    The simplest technique that yields anything; of its steps the shortest chain, then the fewest
    premises, then the first in reading order.

    Returns
    -------
    WalkStep or None
        None on a full board, and where no technique yields anything.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> found = next_step(board_from_text("4 1 . 8 2 9 3 7 5"))
    >>> found.step.technique, found.step.places
    ('last-cell-of-house', ((2, 6),))
    """
    open_steps = simplest_steps(board, ladder)
    return WalkStep(_chosen(open_steps, board, None), board, len(open_steps)) if open_steps else None


def simplest_steps(board: Board, ladder: Sequence[Technique] = LADDER) -> list[Step]:
    """Return every step of the simplest technique that yields anything, each effect once."""
    return _Lookout(board.layout, ladder).simplest(board)


class _Lookout:
    """What each technique has found and nobody has used yet. Working memory: it changes as the walk goes on.

    A step stays on the list as long as nothing changes in any cell that it speaks of. Where something
    does, it is dropped, and its technique looks again at all of them and at the cells that changed.

    Trial is dear, and what it has found holds whatever else goes: it stays on the list as long as it has
    something to remove, and nothing is tried anew before the list is empty.
    """

    def __init__(self, layout: Layout, ladder: Sequence[Technique]) -> None:
        self._ladder = ladder
        self._unseen = [layout.all_cells] * len(ladder)
        self._found: list[dict[object, Step]] = [{} for _ in ladder]

    def simplest(self, board: Board) -> list[Step]:
        """Return the steps of the simplest technique that yields anything."""
        waiting: list[Step] = []
        for rank, technique in enumerate(self._ladder):
            look_at_clock()
            self._look(rank, board)
            found = list(self._found[rank].values())
            if technique.id == _NOT_AT_A_GLANCE:
                waiting = [step for step in found if _many_left_over(step)]
                found = [step for step in found if not _many_left_over(step)]
            elif technique.id == _ITS_TURN:
                found, waiting = found + waiting, []
            if found:
                return found
        return waiting

    def _look(self, rank: int, board: Board) -> None:
        """Let a technique look at what it has not seen yet."""
        found = self._found[rank]
        if self._unseen[rank] and not (found and self._ladder[rank].id == _TRIAL):
            for step in self._ladder[rank].find(board.looking_at(self._unseen[rank])):
                look_at_clock()
                known = found.setdefault(step.effect, step)
                if known is not step and step.premise_count < known.premise_count:
                    found[step.effect] = step
            self._unseen[rank] = 0

    def note(self, changed: int) -> None:
        """Take down that something changed in these cells."""
        for rank, found in enumerate(self._found):
            tried = self._ladder[rank].id == _TRIAL
            stale = [s for s in found.values() if (_acted_on(s) if tried else cells_of(s)) & changed]
            self._unseen[rank] |= changed
            for step in stale:
                self._unseen[rank] |= cells_of(step)  # what is left of it may be seen from another house
                del found[step.effect]


def _many_left_over(step: Step) -> bool:
    return any(len(derived.linear.weights) > LEFT_OVER_AT_MOST for derived in step.sums)


def cells_of(step: Step) -> int:
    """Return the mask of all cells that a step speaks of: those it looks at, its pattern, its effect."""
    return mask_of((*step.looks, *step.focus)) | _acted_on(step)


def _acted_on(step: Step) -> int:
    return mask_of(cell for cell, _ in (*step.places, *step.removes))


def _chosen(steps: Iterable[Step], board: Board, last: Step | None) -> Step:
    layout, grid = board.layout, board.layout.grid

    def order(step: Step) -> tuple[object, ...]:
        rests = bool(mask_of((*step.looks, *step.focus)) & board.fresh)
        far = 0 if last is None else _distance(step, last, grid)
        on_goes = last is not None and _pattern(step, layout) == _pattern(last, layout)
        return step.length, not on_goes, not rests, far, step.premise_count, step.effect

    return min(steps, key=order)


def _pattern(step: Step, layout: Layout) -> tuple[object, ...]:
    return step.technique, step.focus, layout.cages_among(step.rules)[:1]


def _distance(one: Step, other: Step, grid: Grid) -> int:
    """Return how many rows and columns lie between the patterns of two steps."""
    return min(
        abs(a // grid.columns - b // grid.columns) + abs(a % grid.columns - b % grid.columns)
        for a in one.focus
        for b in other.focus
    )

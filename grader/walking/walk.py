"""Walk a puzzle through as one would at the board: one step at a time, the easiest and nearest first.

`grader.grading.replay` works in rounds, so that the figures of a grade depend on no order. A walk goes up and
down the same ladder in an order that a person can follow.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grader.board.board import Board, Layout, opening_board
from grader.board.guard import OutOfTimeError, guarded
from grader.board.steps import Step, WalkStep
from grader.board.technique import Technique, Trait
from grader.grading.replay import Outcome, outcome_of
from grader.ladder import LADDER, TECHNIQUES
from grader.walking.choosing import Finds, nearest, simplest_steps
from grader.walking.needed import needed_steps
from grader.walking.stages import Stage, stages_of
from grader.words.story import Part, paragraphs_of, story
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Walk", "next_step", "walk"]


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

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The steps by what they do for the solve: the chapters in which they are told."""
        return stages_of(self.steps)

    def parts(self, title: str = "") -> tuple[Part, ...]:
        """Return the walk in words: in chapters, or under one title."""
        if not title:
            return story(self.stages, self.layout)
        paragraphs = paragraphs_of(self.steps, self.layout)
        return (Part(title, "", paragraphs),) if paragraphs else ()

    @property
    def by_trial(self) -> int:
        """How many steps are trial."""
        return sum(Trait.TRIAL in TECHNIQUES[taken.step.technique].traits for taken in self.steps)

    def shortened(self) -> Walk:
        """Return the walk with only those steps that a later step, or the solution, rests on.

        That is every placing of a digit, and every removal that some placing needs; each is told on the
        board that the kept steps before it lead to. A walk that did not reach the solution is returned as
        it is: how far one got is all that it can tell.
        """
        walked = self
        while walked.filling is not None:
            steps = needed_steps(
                walked.steps, [n for n, taken in enumerate(walked.steps) if taken.step.places]
            )
            shorter = replace(walked, steps=steps)
            if len(steps) == len(walked.steps):
                return shorter
            walked = shorter  # a step told anew on a smaller board may need less than before
        return walked

    def story_of(self, cell: int) -> Walk:
        """Return the steps that the digit of one cell rests on; none for a given.

        Where the walk does not place its digit, the story is of what was removed from it.
        """
        steps = [taken.step for taken in self.steps]
        placing = [n for n, step in enumerate(steps) if any(c == cell for c, _ in step.places)]
        touching = [n for n, step in enumerate(steps) if any(c == cell for c, _ in step.removes)]
        return replace(self, steps=needed_steps(self.steps, placing or touching))


def walk(
    puzzle: Puzzle,
    *,
    trial: bool = True,
    deadline: float | None = None,
    ladder: Sequence[Technique] = LADDER,
) -> Walk:
    """Walk a puzzle through from its givens.

    At each moment the simplest technique that yields anything is used (a rule of 45 that leaves over more
    than four cells is no simple one, and waits for the turn of those over several houses),
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
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> walked.outcome.value, [taken.step.places[0] for taken in walked.steps][:3]
    ('solved', [(3, 4), (6, 1), (11, 3)])
    """
    board = opening_board(puzzle)
    used = [technique for technique in ladder if trial or Trait.TRIAL not in technique.traits]
    finds = Finds(board.layout, used)
    taken: list[WalkStep] = []
    last: Step | None = None
    while not board.solved and 0 not in board.candidates:
        try:
            with guarded(deadline):
                open_steps = finds.simplest(board)
        except OutOfTimeError:
            return Walk(board.layout, Outcome.CLOCK, None, tuple(taken))
        if not open_steps:
            break
        last = nearest(open_steps, board, last)
        taken.append(WalkStep(last, board, len(open_steps)))
        board = board.after([last])
        finds.note(board.fresh)
    outcome = outcome_of(puzzle, board)
    return Walk(board.layout, outcome, board.filling if outcome is Outcome.SOLVED else None, tuple(taken))


def next_step(
    board: Board, ladder: Sequence[Technique] = LADDER, *, deadline: float | None = None
) -> WalkStep | None:
    """Return the step to take on a board of which it is not known how it came about.

    The simplest technique that yields anything; of its steps the shortest chain, then the fewest
    premises, then the first in reading order.

    Returns
    -------
    WalkStep or None
        None on a full board, and where no technique yields anything.

    Raises
    ------
    TimeoutError
        If the guard runs out first: `deadline` is on the clock of `time.monotonic`.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> found = next_step(board_from_text("4 1 . 8 2 9 3 7 5"))
    >>> found.step.technique, found.step.places
    ('last-cell-of-house', ((2, 6),))
    """
    with guarded(deadline):
        open_steps = simplest_steps(board, ladder)
    return WalkStep(nearest(open_steps, board, None), board, len(open_steps)) if open_steps else None

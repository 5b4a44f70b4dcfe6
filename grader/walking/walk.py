"""Walk a puzzle through as one would at the board: one step at a time, the easiest and nearest first.

`grader.grading.replay` works in rounds, so that the figures of a grade depend on no order. A walk goes up and
down the same ladder in an order that a person can follow.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from grader.board.board import Board, opening_board
from grader.board.guard import OutOfTimeError, guarded
from grader.board.layout import Layout
from grader.board.steps import WalkStep
from grader.board.technique import Technique, Trait
from grader.grading.replay import Outcome, Replay, outcome_of
from grader.ladder import LADDER, TECHNIQUES
from grader.walking.argument import Argument, argument_for, slice_of, story_of
from grader.walking.breaths import in_breaths
from grader.walking.choosing import rungs_needed, rungs_of
from grader.walking.stages import Stage, stages_of
from grader.walking.thinking import Thinking
from grader.words.story import Part, paragraphs_of, story
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Walk", "shortest_argument", "walk"]


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
        In order, also those on which nothing rests.
    told : tuple of WalkStep
        The same way, argument by argument.
    """

    layout: Layout
    outcome: Outcome
    filling: Filling | None
    steps: tuple[WalkStep, ...]
    told: tuple[WalkStep, ...] = ()

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The steps by what they do for the solve: the chapters in which they are told."""
        return stages_of(self.steps)

    def parts(self, title: str = "") -> tuple[Part, ...]:
        """Return the walk in words: in chapters, or under one title."""
        if not title:
            return story(self.stages, self.layout)
        paragraphs = paragraphs_of(self.steps, self.layout)
        return (Part(title, "", paragraphs, self.steps[0].board),) if paragraphs else ()

    @property
    def by_trial(self) -> int:
        """How many steps are trial."""
        return sum(Trait.TRIAL in TECHNIQUES[taken.step.technique].traits for taken in self.steps)

    def shortened(self) -> Walk:
        """Return the walk with only those steps that a later step, or the solution, rests on.

        That is every placing of a digit, and every removal that some placing needs; each is told on the
        board that the steps before it lead to. Of a walk that did not reach the solution all that is known is
        told, what leads to digits first: how far one got is all that it can tell.
        """
        return replace(self, steps=self.told)

    def story_of(self, cell: int, *, deadline: float | None = None) -> Walk:
        """Return the steps that the digit of one cell rests on; none for a given.

        As few and as light as can be found; no technique is harder than the hardest of the walk up to
        there. Where the walk does not place its digit, the story is of what was removed from it.

        Parameters
        ----------
        cell : int
            The cell.
        deadline : float, optional
            On the clock of `time.monotonic`; after it the story is what the walk shows at a glance.
        """
        try:
            with guarded(deadline):
                steps = story_of(cell, self.told, LADDER)
        except OutOfTimeError:
            steps = slice_of(cell, self.told)
        return replace(self, steps=in_breaths(steps), told=())


def walk(
    puzzle: Puzzle,
    *,
    board: Board | None = None,
    played: Replay | None = None,
    trial: bool = True,
    deadline: float | None = None,
    ladder: Sequence[Technique] = LADDER,
) -> Walk:
    """Walk a puzzle through from its givens.

    A digit at hand comes before anything that removes candidates, and what removes them is told when a digit
    needs it (`grader.walking.thinking`). Of the digits at hand the simplest technique is used (a rule of 45
    that leaves over more than four cells is no simple one, and waits for the turn of those over several
    houses), and of its steps

    1. one with the very pattern of the last step (the same cage, say, and its next digit),
    2. then one that rests on what the last step changed,
    3. then the one whose pattern is nearest to that of the last step (rows plus columns between them),
    4. then the one of the least load,
    5. then the first in reading order;

    it is told as it is lightest to see. No technique is used that is harder than the hardest that is needed.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    board : Board, optional
        From where, when not from the givens: what a person has filled in so far.
    played : Replay, optional
        The replay of the puzzle, where there is one already: it says which technique is the hardest needed.
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
    board = board or opening_board(puzzle)
    used = [technique for technique in ladder if trial or Trait.TRIAL not in technique.traits]
    told: list[WalkStep] = []
    thinking = None
    outcome = Outcome.CLOCK
    with suppress(OutOfTimeError), guarded(deadline):
        thinking = Thinking(board, rungs_needed(board, used) if played is None else rungs_of(played, used))
        while not thinking.told.solved and 0 not in thinking.told.candidates:
            argument = thinking.next_argument()
            if not argument:
                break
            told += argument
        outcome = outcome_of(puzzle, thinking.known)
    if thinking is None:
        return Walk(board.layout, outcome, None, ())
    if outcome is not Outcome.SOLVED and 0 not in thinking.told.candidates:
        told += thinking.rest()
    filling = thinking.told.filling if outcome is Outcome.SOLVED else None
    return Walk(board.layout, outcome, filling, tuple(thinking.found), in_breaths(told))


def shortest_argument(
    board: Board,
    *,
    cell: int | None = None,
    ladder: Sequence[Technique] = LADDER,
    deadline: float | None = None,
) -> Argument | None:
    """Return the shortest argument that is found on a board of which it is not known how it came about.

    Parameters
    ----------
    board : Board
        From where.
    cell : int, optional
        A cell without a digit: the argument is for its digit, or ends in a contradiction where the board
        cannot be. When absent, it is for whichever digit is nearest.
    ladder : sequence of Technique, optional
        What may be used; nothing harder is than what is needed from there to the end.
    deadline : float, optional
        A guard, on the clock of `time.monotonic`.

    Returns
    -------
    Argument or None
        None on a full board, and where no technique leads to a digit.

    Raises
    ------
    TimeoutError
        If the guard runs out first.

    Examples
    --------
    >>> from grader.board.board import board_from_text
    >>> found = shortest_argument(board_from_text("4 1 . 8 2 9 3 7 5"))
    >>> [(taken.step.technique, taken.step.places) for taken in found.steps]
    [('last-cell-of-house', ((2, 6),))]
    """
    with guarded(deadline):
        used = rungs_needed(board, ladder)
        steps = Thinking(board, used).next_argument() if cell is None else argument_for(board, cell, used)
    return Argument(in_breaths(steps)) if steps else None

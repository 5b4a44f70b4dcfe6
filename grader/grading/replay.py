"""Work a puzzle through in rounds, each with the simplest technique that yields anything."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import reduce
from operator import or_

from grader.board.board import Board, opening_board
from grader.board.guard import OutOfTimeError, guarded, look_at_clock
from grader.board.layout import Layout
from grader.board.steps import Step
from grader.board.technique import Technique, Trait
from grader.ladder import LADDER, TECHNIQUES
from verifier.puzzle.breaches import solves
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Outcome", "Replay", "Round", "outcome_of", "replay"]


class Outcome(Enum):
    """Where a replay ended."""

    SOLVED = "solved"
    """Every cell has its digit: the only solution, since every step is forced."""
    CONTRADICTION = "contradiction"
    """A cell, a house or a cage has nothing left: there is no solution."""
    STUCK = "stuck"
    """No technique of the ladder yields anything more."""
    CLOCK = "clock"
    """A guard of the caller ended it; another run may get further."""


@dataclass(frozen=True, slots=True)
class Round:
    """One round: every step that its technique allowed, all applied.

    Parameters
    ----------
    technique : str
        The id of the technique.
    steps : tuple of Step
        One for each different effect, in the order found.
    empty : int
        Cells without a digit before the round.
    board : Board
        The board on which the steps were found.
    """

    technique: str
    steps: tuple[Step, ...]
    empty: int
    board: Board

    @property
    def width(self) -> int:
        """How many places a solver could have gone on at."""
        return len(self.steps)


@dataclass(frozen=True, slots=True)
class Replay:
    """A whole solve.

    Parameters
    ----------
    layout : Layout
        The puzzle's houses and cages, which the steps speak of by number.
    outcome : Outcome
        Where it ended.
    filling : Filling or None
        The solution, when solved.
    rounds : tuple of Round
        In order.
    end : Board or None
        The board after the last round; None where only the outcome is known.
    """

    layout: Layout
    outcome: Outcome
    filling: Filling | None
    rounds: tuple[Round, ...]
    end: Board | None = None

    @property
    def by_logic(self) -> bool:
        """Whether no round needed trial."""
        return all(Trait.TRIAL not in TECHNIQUES[played.technique].traits for played in self.rounds)


def replay(
    puzzle: Puzzle,
    *,
    trial: bool = True,
    deadline: float | None = None,
    ended: Callable[[], bool] | None = None,
    ladder: Sequence[Technique] = LADDER,
    begun: Replay | None = None,
) -> Replay:
    """Work a puzzle through from its givens.

    At each round every step of the simplest technique that yields anything is found and applied; then
    the next round starts from the bottom of the ladder. So the figures do not depend on the order in
    which steps are found.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    trial : bool, optional
        Whether the last technique, trial, may be used.
    deadline : float, optional
        A guard, on the clock of `time.monotonic`. A round that it cuts short is left out.
    ended : callable, optional
        Another guard: says whether whoever asked wants no answer any more.
    ladder : sequence of Technique, optional
        The techniques in the order in which they are tried.
    begun : Replay, optional
        A replay of the same puzzle that got stuck with the first techniques of the ladder alone: it goes on
        from there, to the same rounds as from the givens.

    Returns
    -------
    Replay
        Solved or contradicted only where the steps prove it.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> played = replay(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> played.outcome.value, played.filling
    ('solved', (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1))
    """
    board = opening_board(puzzle) if begun is None or begun.end is None else begun.end
    techniques = [technique for technique in ladder if trial or Trait.TRIAL not in technique.traits]
    changes, seen = [board.layout.all_cells], [0] * len(techniques)
    rounds: list[Round] = [] if begun is None else list(begun.rounds)
    while not board.solved and 0 not in board.candidates:
        try:
            with guarded(deadline, ended):
                played = _next_round(board, techniques, changes, seen)
        except OutOfTimeError:
            return Replay(board.layout, Outcome.CLOCK, None, tuple(rounds), board)
        if played is None:
            break
        rounds.append(played)
        board = board.after(played.steps)
        changes.append(board.fresh)
    outcome = outcome_of(puzzle, board)
    filling = board.filling if outcome is Outcome.SOLVED else None
    return Replay(board.layout, outcome, filling, tuple(rounds), board)


def _next_round(
    board: Board, techniques: Sequence[Technique], changes: Sequence[int], seen: list[int]
) -> Round | None:
    """Return the round of the simplest technique that yields anything.

    `changes` are the cells that each round changed; `seen` notes how many of these each technique has seen.
    """
    for rank, technique in enumerate(techniques):
        if seen[rank] < len(changes):
            look_at_clock()
            fresh = reduce(or_, changes[seen[rank] :])
            seen[rank] = len(changes)
            steps = _distinct(technique.find(board.looking_at(fresh)))
            if steps:
                empty = board.layout.grid.cell_count - board.placed.bit_count()
                return Round(technique.id, steps, empty, board)
    return None


def _distinct(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Return one step for each different effect: the one with the fewest premises."""
    best: dict[object, Step] = {}
    for step in steps:
        look_at_clock()
        known = best.setdefault(step.effect, step)
        if known is not step and step.premise_count < known.premise_count:
            best[step.effect] = step
    return tuple(best.values())


def outcome_of(puzzle: Puzzle, board: Board) -> Outcome:
    """Return where a solve ended that has come to `board` and goes no further.

    Every step is forced, so a grid that breaks a rule is a contradiction.
    """
    if board.solved and 0 not in board.candidates and solves(puzzle, board.filling):
        return Outcome.SOLVED
    stuck = not board.solved and not board.contradicted
    return Outcome.STUCK if stuck else Outcome.CONTRADICTION

"""Work a puzzle through in rounds, each with the simplest technique that yields anything."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from grader.board import Board, Layout
from grader.steps import Step
from verifier.puzzle.grid import Filling

__all__ = ["Outcome", "Replay", "Round", "replay"]


class Outcome(Enum):
    """Where a replay ended."""

    SOLVED = "solved"
    """Every cell has its digit: the only solution, since every step is forced."""
    CONTRADICTION = "contradiction"
    """A cell, a house or a cage has nothing left: there is no solution."""
    STUCK = "stuck"
    """No technique of the ladder yields anything more."""
    CLOCK = "clock"
    """The caller's guard ended it; another run may get further."""


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
    """

    layout: Layout
    outcome: Outcome
    filling: Filling | None
    rounds: tuple[Round, ...]

    @property
    def by_logic(self) -> bool:
        """Whether no round needed trial."""
        return all(played.technique != "trial" for played in self.rounds)

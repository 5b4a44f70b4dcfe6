"""The grade: how hard a puzzle is, and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grader.replay import Replay
from grader.steps import Step
from grader.tiers import TierTable, default_tiers

__all__ = ["BreakIn", "Grade", "grade"]


@dataclass(frozen=True, slots=True)
class BreakIn:
    """The first step of the hardest technique: where the puzzle gives way.

    Parameters
    ----------
    round : int
        Its round, counted from 1.
    step : Step
        The step itself; the one with the fewest premises where the round has several.
    """

    round: int
    step: Step


@dataclass(frozen=True, slots=True)
class Grade:
    """How hard a puzzle is.

    Parameters
    ----------
    tier : int
        From 1 (easiest) to 7 (needs trial).
    name : str
        The tier's name in the table that was used.
    hardest : str
        The id of the hardest technique needed.
    effort : float
        Expected work, in units of the median classic of the published human times.
    rounds, steps : int
        Rounds, and steps with different effects in them.
    by_technique : mapping of str to int
        Steps by technique id, in the order of the ladder.
    break_in : BreakIn or None
        None for a puzzle that needs no step at all.
    solved_by_logic : bool
        Whether no trial was needed.
    """

    tier: int
    name: str
    hardest: str
    effort: float
    rounds: int
    steps: int
    by_technique: Mapping[str, int]
    break_in: BreakIn | None
    solved_by_logic: bool


def grade(played: Replay, tiers: TierTable | None = None) -> Grade:
    """Grade a finished replay with a tier table (the default one when absent)."""
    raise NotImplementedError((played, tiers or default_tiers()))

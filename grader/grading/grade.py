"""The grade: how hard a puzzle is, and why."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from grader.board.steps import Step
from grader.grading.effort import default_effort, effort_of
from grader.grading.minutes import Minutes
from grader.grading.replay import Replay, Round
from grader.grading.tiers import Lift, TierTable, default_tiers
from grader.ladder import LADDER
from grader.techniques.trial import TRIAL
from grader.words.wording import catalogue_words

__all__ = ["Grade", "HardestStep", "grade", "steps_by_technique"]


@dataclass(frozen=True, slots=True)
class HardestStep:
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
    hardest : str or None
        The id of the hardest technique needed: trial, too, where the replay got stuck; None for a puzzle
        that was full from the start.
    effort : int
        Expected work; 100 is the median of the classics with published human times.
    minutes : Minutes
        How long people are expected to take; an estimate for all but classics.
    rounds, steps : int
        Rounds, and steps with different effects in them.
    by_technique : mapping of str to int
        Steps by technique id, in the order of the ladder.
    bottleneck_rounds : int
        Rounds in which one or two places were open and at least a third of the cells empty.
    lift : Lift or None
        Why the tier is one above that of the hardest technique; None where it is not.
    break_in : HardestStep or None
        None for a puzzle that needs no step at all, or more trial than the ladder has.
    solved_by_logic : bool
        Whether the replay reached the end without trial.
    """

    tier: int
    name: str
    hardest: str | None
    effort: int
    minutes: Minutes
    rounds: int
    steps: int
    by_technique: Mapping[str, int]
    bottleneck_rounds: int
    lift: Lift | None
    break_in: HardestStep | None
    solved_by_logic: bool

    @property
    def why_lifted(self) -> str:
        """Why the tier is one above that of the hardest technique, in words; empty where it is not."""
        if self.lift is None:
            return ""
        return catalogue_words.LIFTS[self.lift.value].format(steps=self.steps, rounds=self.bottleneck_rounds)


def grade(played: Replay, tiers: TierTable | None = None) -> Grade:
    """Grade a replay.

    Parameters
    ----------
    played : Replay
        A replay of a puzzle with one solution. One that got stuck needs more than the ladder has, so it
        is graded as needing trial.
    tiers : TierTable, optional
        The table to use; the one that ships with the grader when absent.

    Returns
    -------
    Grade
        The same for every turned, mirrored or reordered form of the puzzle.

    Examples
    --------
    >>> from grader.grading.replay import replay
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> easy = grade(replay(make_puzzle("classic", Grid.square(4), givens=givens)))
    >>> easy.tier, easy.hardest, easy.solved_by_logic
    (1, 'hidden-single-box', True)
    """
    table = tiers or default_tiers()
    by_technique = steps_by_technique(played)
    by_logic = played.by_logic and played.filling is not None
    # What the ladder does not work through needs trial, and more of it than the last technique does.
    hardest = next(reversed(by_technique), None) if played.filling is not None else TRIAL.id
    steps = sum(by_technique.values())
    bottlenecks = sum(_is_bottleneck(r, played.layout.grid.cell_count) for r in played.rounds)
    lift = None
    if hardest is None:
        tier = min(table.names)
    elif not by_logic:
        tier = table.last
    else:
        figures = hardest, steps / played.rounds[0].empty, bottlenecks
        tier, lift = table.tier(*figures), table.lift(*figures)
    effort = effort_of(played)
    return Grade(
        tier=tier,
        name=table.names[tier],
        hardest=hardest,
        effort=effort,
        minutes=default_effort().minutes.at(effort),
        rounds=len(played.rounds),
        steps=steps,
        by_technique=by_technique,
        bottleneck_rounds=bottlenecks,
        lift=lift,
        break_in=_break_in(played.rounds, hardest),
        solved_by_logic=by_logic,
    )


def steps_by_technique(played: Replay) -> dict[str, int]:
    """Return how many steps of each technique a replay has, in the order of the ladder."""
    counts = Counter(step.technique for played_round in played.rounds for step in played_round.steps)
    return {technique.id: counts[technique.id] for technique in LADDER if counts[technique.id]}


def _is_bottleneck(played: Round, cells: int) -> bool:
    return played.width <= 2 and played.empty * 3 >= cells


def _break_in(rounds: tuple[Round, ...], hardest: str | None) -> HardestStep | None:
    for number, played in enumerate(rounds, start=1):
        if played.technique == hardest:
            return HardestStep(number, min(played.steps, key=lambda step: (step.premise_count, step.effect)))
    return None

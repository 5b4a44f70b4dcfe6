"""How hard a sound puzzle is, as its verdict says it: from the replay that worked it through."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from verifier.verdict import wording
from verifier.verdict.style.style import HouseStyle
from verifier.verdict.verdict import BreakInRecord, Difficulty, Minutes

if TYPE_CHECKING:
    from grader.grading.grade import HardestStep
    from grader.grading.replay import Replay

__all__ = ["Graded", "graded"]


class Graded(NamedTuple):
    """How hard a puzzle is, and the sentence of the check that says so."""

    difficulty: Difficulty
    says: str


def graded(played: Replay | None, style: HouseStyle) -> Graded | None:
    """Return how hard a sound puzzle is.

    Parameters
    ----------
    played : Replay or None
        The replay, with the techniques that the house style works puzzles through with.
    style : HouseStyle
        Its tiers.

    Returns
    -------
    Graded or None
        None where there is no replay, or the clock ended it. A replay that came to no end because the
        house style goes no further says how far it came, and nothing of what it would have taken.
    """
    from grader.grading.replay import Outcome

    if played is None or played.outcome is Outcome.CLOCK:
        return None
    if style.highest_tier is not None and played.outcome is not Outcome.SOLVED:
        return _stopped(played, style.highest_tier)
    return _whole(played, style)


def _stopped(played: Replay, tier: int) -> Graded:
    from grader.grading.grade import steps_by_technique

    by_technique = steps_by_technique(played)
    difficulty = Difficulty(
        tier=None,
        name=None,
        hardest=None,
        effort=None,
        rounds=len(played.rounds),
        steps=sum(by_technique.values()),
        by_technique=by_technique,
        break_in=None,
        solved_by_logic=None,
        beyond=tier,
    )
    return Graded(difficulty, wording.stopped(tier))


def _whole(played: Replay, style: HouseStyle) -> Graded:
    from grader.grading.grade import grade

    found = grade(played, style.tiers_to_grade_with())
    says = wording.graded(
        found.tier, found.name, found.hardest, found.why_lifted, by_logic=found.solved_by_logic
    )
    difficulty = Difficulty(
        tier=found.tier,
        name=found.name,
        hardest=found.hardest,
        effort=found.effort,
        rounds=found.rounds,
        steps=found.steps,
        by_technique=found.by_technique,
        break_in=_break_in(played, found.break_in),
        solved_by_logic=found.solved_by_logic,
        minutes=Minutes(found.minutes.middle, found.minutes.least, found.minutes.most),
    )
    return Graded(difficulty, says)


def _break_in(played: Replay, hardest: HardestStep | None) -> BreakInRecord | None:
    if hardest is None:
        return None
    from grader.words.narrate import tell
    from verifier.puzzle.masks import digits_of

    step, layout = hardest.step, played.layout
    board = played.rounds[hardest.round - 1].board
    name = layout.grid.cell_name
    return BreakInRecord(
        round=hardest.round,
        technique=step.technique,
        says=tell(step, layout, board),
        places={name(cell): digit for cell, digit in step.places},
        removes={name(cell): digits_of(mask) for cell, mask in step.removes},
    )

"""A quick look at a candidate, which proves nothing: it tells what is worth a verdict.

What easy techniques work through has one solution. What they do not, the count refuses where it has others,
and the rest is worked through with the techniques that the wish allows, and no further.
"""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import takewhile

from grader.grading.grade import Grade, grade
from grader.grading.replay import Outcome, Replay, replay
from grader.grading.tiers import TierTable
from grader.ladder import LADDER
from verifier.evidence.establish import count
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning.search.leads import cells_of_hardest

__all__ = ["Ceiling", "Look", "LookingTask", "look_at"]

_WORK = 3.0
"""What the count of a candidate may take, in the units of `WorkAllowance`."""
_EASY = 3
"""Up to this tier, working through takes no longer than the count, also where there are several solutions."""
_MORE_THAN_SINGLES = 2
"""The lowest tier of techniques at which people get stuck where there is one way on."""
_MOST_SOLUTIONS = 8
"""So many are shown of a candidate that has several: more hardly take longer than two, and refute others."""


@dataclass(frozen=True, slots=True)
class Ceiling:
    """How far candidates are worked through.

    Parameters
    ----------
    tiers : TierTable
        The tiers of the house.
    tier : int
        The highest one whose techniques are used.
    """

    tiers: TierTable
    tier: int

    def reaches(self, technique: str) -> bool:
        """Whether a technique is used, by its id."""
        return self.tiers.tier_of[technique] <= self.tier

    def begins_with(self, technique: str) -> bool:
        """Whether it is one of those with which everything is begun, as long as none below it is not."""
        return self.tiers.tier_of[technique] <= min(self.tier, _EASY)


@dataclass(frozen=True, slots=True)
class Look:
    """What was seen of a candidate.

    Parameters
    ----------
    unique : bool
        Whether it seems to have one solution and no other.
    grade : Grade or None
        None where it takes more than the ceiling, or has other solutions.
    narrow : int
        Rounds of more than singles in which there was one way on.
    open : float
        What part of all digits is still open where it could not be worked through to the end.
    leads : mapping of int to float
        What its hardest steps rest on, see `verifier.tuning.search.leads.cells_of_hardest`.
    others : sequence of Filling
        Some other solutions that it has now.
    cut : bool
        Whether the clock ended the look; it says nothing then.
    """

    unique: bool
    grade: Grade | None = None
    narrow: int = 0
    open: float = 0.0
    leads: Mapping[int, float] = field(default_factory=dict)
    others: Sequence[Filling] = ()
    cut: bool = False


@dataclass(frozen=True, slots=True)
class LookingTask:
    """What it takes to look at a candidate, in whatever process.

    Parameters
    ----------
    puzzle : Puzzle
        The candidate.
    solution : Filling
        A solution of it.
    ceiling : Ceiling
        How far to work it through.
    until : float
        When the time is up, on the clock of `time.time`.
    """

    puzzle: Puzzle
    solution: Filling
    ceiling: Ceiling
    until: float


_CUT = Look(False, cut=True)


def look_at(task: LookingTask) -> Look:
    """Return what is seen of a candidate.

    Examples
    --------
    >>> from grader.grading.tiers import default_tiers
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4), givens={0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3})
    >>> solution = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> look = look_at(LookingTask(puzzle, solution, Ceiling(default_tiers(), 2), time.time() + 60))
    >>> look.unique, look.grade.tier
    (True, 1)
    """
    seconds = task.until - time.time()
    if seconds <= 0:
        return _CUT
    deadline, ceiling = time.monotonic() + seconds, task.ceiling
    easy = list(takewhile(lambda technique: ceiling.begins_with(technique.id), LADDER))
    played = replay(task.puzzle, deadline=deadline, ladder=easy)
    if played.outcome is Outcome.CLOCK:
        return _CUT
    if played.outcome is not Outcome.SOLVED:
        counted = count(task.puzzle, _MOST_SOLUTIONS, WorkAllowance(work=_WORK, seconds=seconds))
        if counted.cut:
            return _CUT
        if counted.only_solution is None:
            return Look(False, others=[other for other in counted.solutions if other != task.solution])
        ladder = [technique for technique in LADDER if ceiling.reaches(technique.id)]
        played = replay(task.puzzle, deadline=deadline, ladder=ladder, begun=played)
        if played.outcome is Outcome.CLOCK:
            return _CUT
    found = grade(played, ceiling.tiers) if played.outcome is Outcome.SOLVED else None
    return Look(True, found, _narrow(played, ceiling), _open(played), cells_of_hardest(played, ceiling.tiers))


def _narrow(played: Replay, ceiling: Ceiling) -> int:
    tiers = ceiling.tiers.tier_of
    return sum(each.width == 1 and tiers[each.technique] >= _MORE_THAN_SINGLES for each in played.rounds)


def _open(played: Replay) -> float:
    assert played.end is not None, "a replay that was made has a board at its end"
    grid = played.layout.grid
    left = sum(mask.bit_count() - 1 for mask in played.end.candidates)
    return left / (grid.cell_count * (grid.digits - 1) or 1)

"""A quick look at a candidate, which proves nothing: it tells what is worth a verdict.

The count alone refuses what has other solutions now. What is left is worked through with the techniques that
the wish allows, and no further.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, field

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


@dataclass(frozen=True, slots=True)
class Look:
    """What was seen of a candidate.

    Parameters
    ----------
    unique : bool
        Whether the count found one solution and no other.
    grade : Grade or None
        None where it takes more than the ceiling, or has other solutions.
    open : float
        What part of all digits is still open where it could not be worked through to the end.
    leads : mapping of int to float
        What its hardest steps rest on, see `verifier.tuning.search.leads.cells_of_hardest`.
    other : Filling or None
        Another solution that it has now.
    cut : bool
        Whether the clock ended the look; it says nothing then.
    """

    unique: bool
    grade: Grade | None = None
    open: float = 0.0
    leads: Mapping[int, float] = field(default_factory=dict)
    other: Filling | None = None
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
        return Look(False, cut=True)
    deadline, ceiling = time.monotonic() + seconds, task.ceiling
    counted = count(task.puzzle, 2, WorkAllowance(work=_WORK, seconds=seconds))
    if counted.cut:
        return Look(False, cut=True)
    if counted.only_solution is None:
        others = [filling for filling in counted.solutions if filling != task.solution]
        return Look(False, other=others[0] if others else None)
    played = replay(
        task.puzzle,
        deadline=deadline,
        ladder=[technique for technique in LADDER if ceiling.reaches(technique.id)],
    )
    if played.outcome is Outcome.CLOCK:
        return Look(False, cut=True)
    found = grade(played, ceiling.tiers) if played.outcome is Outcome.SOLVED else None
    return Look(True, found, _open(played), cells_of_hardest(played, ceiling.tiers))


def _open(played: Replay) -> float:
    assert played.end is not None, "a replay that was made has a board at its end"
    grid = played.layout.grid
    left = sum(mask.bit_count() - 1 for mask in played.end.candidates)
    return left / (grid.cell_count * (grid.digits - 1) or 1)

"""The stages of a walk: opening arithmetic, the way to the break-in, the break-in itself, the run-in.

Each is told in a chapter of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grader.board.steps import WalkStep
from grader.board.technique import Trait
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER, TECHNIQUES

__all__ = ["STAGES", "Stage", "stages_of"]

STAGES = ("opening", "approach", "break-in", "aftermath", "run-in")
"""The stages in order; `grader.words.wording.walk_words` has their titles."""

_NO_BREAK_IN_UP_TO = 2
"""Up to this tier nothing has to be broken into."""


@dataclass(frozen=True, slots=True)
class Stage:
    """Some steps of a walk that belong together.

    Parameters
    ----------
    name : str
        One of `STAGES`.
    first : int
        The number of its first step in the walk, counted from 1.
    steps : tuple of WalkStep
        Never empty.
    """

    name: str
    first: int
    steps: tuple[WalkStep, ...]


def stages_of(steps: Sequence[WalkStep]) -> tuple[Stage, ...]:
    """Divide the steps of a walk into stages.

    - *opening*: the arithmetic at the start, until something else is needed;
    - *approach*: what comes before the first step of the hardest technique;
    - *break-in*: from that step to the first digit that is placed afterwards;
    - *aftermath*: as long as candidates have to be removed;
    - *run-in*: from there on every step places a digit.

    A walk whose hardest technique places digits, or belongs to the first two tiers, has no break-in: it
    gives way everywhere.

    Returns
    -------
    tuple of Chapter
        In order, without empty ones.

    Examples
    --------
    >>> from grader.walking.walk import walk
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> givens = {0: 1, 1: 2, 2: 3, 7: 2, 8: 2, 13: 3}
    >>> walked = walk(make_puzzle("classic", Grid.square(4), givens=givens))
    >>> [(stage.name, stage.first, len(stage.steps)) for stage in stages_of(walked.steps)]
    [('run-in', 1, 10)]
    """
    traits = [TECHNIQUES[taken.step.technique].traits for taken in steps]
    opening = next((n for n, trait in enumerate(traits) if Trait.ARITHMETIC not in trait), len(steps))
    run_in = next((n + 1 for n in range(len(steps) - 1, -1, -1) if not steps[n].step.places), 0)
    hard = _hardest(steps)
    if hard is None:
        ends = [opening, opening, opening, max(run_in, opening)]
    else:
        placed = (n + 1 for n in range(hard, len(steps)) if steps[n].step.places)
        broken = next(placed, len(steps))
        ends = [min(opening, hard), hard, broken, max(run_in, broken)]
    starts = [0, *ends]
    stages = zip(STAGES, starts, [*ends, len(steps)], strict=True)
    return tuple(Stage(name, at + 1, tuple(steps[at:end])) for name, at, end in stages if end > at)


def _hardest(steps: Sequence[WalkStep]) -> int | None:
    """Return the place of the first step of the hardest technique; None if that technique is an easy one."""
    ranks = {technique.id: rank for rank, technique in enumerate(LADDER)}
    if not steps:
        return None
    top = max(ranks[taken.step.technique] for taken in steps)
    first = next(n for n, taken in enumerate(steps) if ranks[taken.step.technique] == top)
    easy = default_tiers().tier_of[steps[first].step.technique] <= _NO_BREAK_IN_UP_TO
    return None if easy or steps[first].step.places else first

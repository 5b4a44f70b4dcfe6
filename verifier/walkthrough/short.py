"""A walk in short: the steps on which it turns, each with its idea, and how much follows from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grader.board.steps import WalkStep
from grader.grading.tiers import default_tiers
from grader.ladder import LADDER, TECHNIQUES
from grader.words.narrate import tell
from verifier.walkthrough import wording
from verifier.walkthrough.work import Walkthrough

__all__ = ["KeyStep", "key_steps", "lead_of"]

_MOST = 8
"""So many steps can be kept in mind for a talk."""
_FEWEST = 4
"""Where there is so little to think about, digits that everybody sees are told as well."""
_APART = 4
"""Steps that are told beyond the first of their technique lie at least so many steps apart."""


@dataclass(frozen=True, slots=True)
class KeyStep:
    """One of the steps on which a walk turns.

    Parameters
    ----------
    number : int
        Its number in the walk, counted from 1.
    taken : WalkStep
        The step, and the board on which it is taken.
    says : str
        Its sentence.
    idea : str
        A line on what it is about.
    follows : str
        How much follows from it before the next one; empty where nothing does.
    """

    number: int
    taken: WalkStep
    says: str
    idea: str
    follows: str


def key_steps(told: Walkthrough) -> tuple[KeyStep, ...]:
    """Return the steps on which a walk turns, about eight, in the order of the walk.

    Parameters
    ----------
    told : Walkthrough
        A walk that tells the whole puzzle.

    Notes
    -----
    The first step of each technique that takes some thought, the hardest first, and the steps at which people
    get stuck; then others of these, where most of the walk is still untold. Our own derivation.
    """
    steps = told.told.steps
    chosen = sorted(_chosen(told))
    found: list[KeyStep] = []
    for number, until in zip(chosen, [*chosen[1:], len(steps) + 1], strict=True):
        taken = steps[number - 1]
        said_before = next((each for each in found if _technique(each.taken) == _technique(taken)), None)
        if said_before is None:
            summary = TECHNIQUES[_technique(taken)].summary
            idea = wording.IDEA.format(summary=summary[:1].lower() + summary[1:])
        else:
            idea = wording.SAME_IDEA.format(number=said_before.number)
        digits = sum(len(later.step.places) for later in steps[number : until - 1])
        says = tell(taken.step, told.told.layout, taken.board)
        found.append(KeyStep(number, taken, says, idea, wording.follows(digits, last=until > len(steps))))
    return tuple(found)


def lead_of(told: Walkthrough, keys: Sequence[KeyStep]) -> str:
    """Return how much comes before the first key step; empty where nothing does."""
    before = told.told.steps[: keys[0].number - 1] if keys else ()
    return wording.come_first(sum(len(taken.step.places) for taken in before))


def _chosen(told: Walkthrough) -> set[int]:
    ranks = {technique.id: rank for rank, technique in enumerate(LADDER)}
    steps = told.told.steps
    firsts: dict[str, int] = {}
    for number, taken in enumerate(steps, start=1):
        firsts.setdefault(_technique(taken), number)
    hardest_first = [firsts[name] for name in sorted(firsts, key=lambda name: -ranks[name])]
    thought = [number for number in hardest_first if not _seen(steps[number - 1])]
    chosen = set([*thought[:1], *sorted(told.narrow), *thought[1:]][:_MOST])
    others = [number for number, taken in enumerate(steps, start=1) if not _seen(taken)]
    while len(chosen) < _MOST and others:
        farthest = max(others, key=lambda number: (_gap(number, chosen), -number))
        if _gap(farthest, chosen) < _APART:
            break
        chosen.add(farthest)
    easier = [number for number in hardest_first if number not in chosen]
    return {*chosen, *easier[: max(_FEWEST - len(chosen), 0)]}


def _seen(taken: WalkStep) -> bool:
    """Whether everybody sees the step: a digit of the easiest tier that no sum is needed for."""
    easiest = default_tiers().tier_of[_technique(taken)] == 1
    return easiest and bool(taken.step.places) and not taken.step.sums


def _gap(number: int, chosen: set[int]) -> int:
    return min((abs(number - other) for other in chosen), default=number)


def _technique(taken: WalkStep) -> str:
    return taken.step.technique

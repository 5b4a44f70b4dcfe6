"""Steps told in one breath: a removal with one use, and the step that uses it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grader.board.steps import WalkStep
from grader.walking.thinning import uses

__all__ = ["in_breaths"]

STEPS_AT_MOST = 4
"""Nobody takes in more at once."""


def in_breaths(steps: Sequence[WalkStep]) -> tuple[WalkStep, ...]:
    """Return the same steps with the breaths numbered, from 1.

    A removal shares its breath with the only step, up to the next digit, that needs it, if what stands
    between them is told in that breath too.

    Parameters
    ----------
    steps : sequence of WalkStep
        In the order in which they are told.
    """
    told: list[WalkStep] = []
    breath = at = 0
    while at < len(steps):
        end = next((n for n in range(at, len(steps)) if steps[n].step.places), len(steps) - 1)
        argument = steps[at : end + 1]
        ends = _ends(argument)
        for number, taken in enumerate(argument):
            if number == 0 or number - 1 in ends:
                breath += 1
            told.append(replace(taken, breath=breath))
        at = end + 1
    return tuple(told)


def _ends(argument: Sequence[WalkStep]) -> set[int]:
    """Return the places of the steps of an argument after which one breathes."""
    last = len(argument) - 1
    ends = {last}
    used = uses(argument[0].board, argument)
    end = last  # of the breath that is put together, from its end
    for number in range(last - 1, -1, -1):
        if len(used[number]) != 1 or max(used[number]) > end or end - number >= STEPS_AT_MOST:
            ends.add(number)
            end = number
    return ends

"""Effort: how much work a solve is, in units of the median classic with published human times."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import yaml

from grader.replay import Round

__all__ = ["EffortTable", "default_effort", "effort_of"]


@dataclass(frozen=True, slots=True)
class EffortTable:
    """The constants of the effort figure; ``effort.yaml`` beside this module explains them.

    Parameters
    ----------
    crowding : float
        How much cheaper a place gets when many are open at once; from 0 (not at all) to 1.
    unit : float
        The sum that counts as effort 1.0.
    ease : mapping of str to float
        For techniques that place digits: how easily a place is seen.
    cost : mapping of str to float
        For techniques that remove candidates: what a round costs for each empty cell.
    """

    crowding: float
    unit: float
    ease: Mapping[str, float]
    cost: Mapping[str, float]


@cache
def default_effort() -> EffortTable:
    """Return the constants that ship with the grader."""
    record = yaml.load(files("grader").joinpath("effort.yaml").read_text(encoding="utf-8"), yaml.CSafeLoader)
    return EffortTable(float(record["crowding"]), float(record["unit"]), record["ease"], record["cost"])


def effort_of(rounds: Sequence[Round], table: EffortTable | None = None) -> float:
    """Return the effort of a solve, to two decimals.

    Parameters
    ----------
    rounds : sequence of Round
        The whole solve.
    table : EffortTable, optional
        The constants; those that ship with the grader when absent.

    Returns
    -------
    float
        1.0 for the median of the classics with published human times.

    Notes
    -----
    After two findings of Pelánek (FLAIRS 2011; arXiv 1403.7373): people's times follow the hardness of
    the single steps, and how few of them are open at once.
    """
    used = table or default_effort()
    total = 0.0
    for played in rounds:
        ease = used.ease.get(played.technique)
        if ease is None:
            total += used.cost[played.technique] * played.empty
        else:
            total += played.width * played.empty / (ease * played.width) ** used.crowding
    return round(total / used.unit, 2)

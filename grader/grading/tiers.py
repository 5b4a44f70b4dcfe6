"""The tier table: which technique belongs to which tier, and what lifts a puzzle by one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache
from importlib.resources import files
from typing import Any

import yaml

__all__ = ["Lift", "TierTable", "default_tiers", "tiers_from"]


class Lift(Enum):
    """Why a puzzle is in the tier above that of its hardest technique."""

    STEPS = "steps"
    """It has many steps for its size."""
    BOTTLENECKS = "bottlenecks"
    """In many rounds hardly anything is open."""


@dataclass(frozen=True, slots=True)
class TierTable:
    """Which tier a technique belongs to, and what lifts a puzzle by one.

    Parameters
    ----------
    names : mapping of int to str
        The name of each tier, from 1 (easiest) to the last, which is for puzzles that need trial.
    tier_of : mapping of str to int
        The tier of each technique id.
    steps_per_cell : float
        A puzzle with more steps than this for each cell empty at the start is lifted.
    bottleneck_rounds : int
        A puzzle with more rounds than this in which hardly anything was open is lifted.
    """

    names: Mapping[int, str]
    tier_of: Mapping[str, int]
    steps_per_cell: float
    bottleneck_rounds: int

    @property
    def last(self) -> int:
        """The tier of puzzles that need trial."""
        return max(self.names)

    def renamed(self, names: Mapping[int, str]) -> TierTable:
        """Return the same table with other names for some tiers.

        Examples
        --------
        >>> default_tiers().renamed({1: "a stroll"}).names[1]
        'a stroll'
        """
        return replace(self, names={**self.names, **names})

    def tier(self, hardest: str, steps_per_cell: float, bottleneck_rounds: int) -> int:
        """Return the tier of a puzzle with these figures.

        Parameters
        ----------
        hardest : str
            The id of the hardest technique needed.
        steps_per_cell : float
            Steps for each cell that was empty at the start.
        bottleneck_rounds : int
            Rounds in which one or two places were open and at least a third of the cells empty.

        Examples
        --------
        >>> table = default_tiers()
        >>> table.tier("naked-pair", 1.5, 3), table.tier("naked-pair", 9.0, 3), table.tier("trial", 9.0, 99)
        (3, 4, 7)
        """
        lift = self.lift(hardest, steps_per_cell, bottleneck_rounds)
        return self.tier_of[hardest] + (lift is not None)

    def lift(self, hardest: str, steps_per_cell: float, bottleneck_rounds: int) -> Lift | None:
        """Return what lifts a puzzle with these figures above the tier of its hardest technique, if anything.

        Examples
        --------
        >>> default_tiers().lift("naked-pair", 9.0, 3), default_tiers().lift("wide-forcing-chain", 9.0, 99)
        (<Lift.STEPS: 'steps'>, None)
        """
        if self.tier_of[hardest] + 1 >= self.last:
            return None
        if bottleneck_rounds > self.bottleneck_rounds:
            return Lift.BOTTLENECKS
        return Lift.STEPS if steps_per_cell > self.steps_per_cell else None


@cache
def default_tiers() -> TierTable:
    """Return the table that ships with the grader.

    Examples
    --------
    >>> default_tiers().names[4], default_tiers().tier_of["x-wing"]
    ('ridge', 5)
    """
    text = files("grader.grading").joinpath("tiers.yaml").read_text(encoding="utf-8")
    return tiers_from(yaml.load(text, yaml.CSafeLoader))


def tiers_from(record: Mapping[str, Any]) -> TierTable:
    """Build a table from the record that a tier file holds (see ``tiers.yaml`` beside this module).

    Raises
    ------
    KeyError, TypeError, ValueError
        If the record is not of that form; who reads files for people checks it first.
    """
    names = {int(tier): str(entry["name"]) for tier, entry in record["tiers"].items()}
    tier_of = {str(t): int(tier) for tier, entry in record["tiers"].items() for t in entry["techniques"]}
    lift = record["lift"]
    return TierTable(names, tier_of, float(lift["steps_per_cell"]), int(lift["bottleneck_rounds"]))

"""What a diagnosis comes to: findings in words and in figures, and repairs in the order of their rank."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

from verifier.diagnosis.repairs.mends import Mend
from verifier.puzzle.puzzle import Puzzle

__all__ = ["Diagnosis", "Finding", "SolutionCount"]


class SolutionCount(Enum):
    """How many solutions the puzzle has."""

    NONE = "none"
    ONE = "one"
    SEVERAL = "several"
    UNKNOWN = "unknown"
    """The budget did not suffice to find out."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was found.

    Parameters
    ----------
    code : str
        What kind of finding.
    says : str
        In words, ready to be sent to the setter.
    facts : mapping of str to plain values
        The same for a program: cells by name, cages with their totals, grids row by row.
    """

    code: str
    says: str
    facts: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What is wrong with a puzzle, and what would put it right.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    count : SolutionCount
        How many solutions it has.
    findings : tuple of Finding
        What is wrong.
    mends : tuple of Mend
        Repairs, the best first; each is proved to leave exactly one solution.
    cut_short : bool
        Whether the budget ended the search, so that there may be more.
    """

    puzzle: Puzzle
    count: SolutionCount
    findings: tuple[Finding, ...]
    mends: tuple[Mend, ...]
    cut_short: bool = False

    @property
    def sound(self) -> bool:
        """Whether there is nothing to mend; it may look odd all the same."""
        return self.findings[0].code == "sound"

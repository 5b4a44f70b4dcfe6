"""How long a puzzle of some effort takes people, in minutes.

Known are the mean times that 10 to 43 people took over each of 511 published classics (S.-W. Wang, IEEE
Access 12, 2024), not the times of each of them. So the range is one of puzzles: of the classics of an effort,
four in five took their solvers, in the mean, no less than its lower and no more than its upper end. It is in
proportion to the effort, as the times are. No times of killers or of other rules are published: for them the
same proportion is an estimate.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

__all__ = ["Minutes", "MinutesTable"]


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long people are expected to take, in whole minutes; at least one where there is anything to do.

    Parameters
    ----------
    middle : int
        The middle solver: what half the puzzles of such an effort exceed.
    least, most : int
        Four in five lie between.
    """

    middle: int
    least: int
    most: int


@dataclass(frozen=True, slots=True)
class MinutesTable:
    """The minutes of a puzzle of effort 100."""

    middle: float
    least: float
    most: float

    @classmethod
    def of(cls, record: Mapping[str, float]) -> MinutesTable:
        """Return the table that ``effort.yaml`` holds."""
        return cls(float(record["middle"]), float(record["from"]), float(record["to"]))

    def at(self, effort: int) -> Minutes:
        """Return the minutes of a puzzle.

        Examples
        --------
        >>> table = MinutesTable(middle=6.0, least=4.5, most=9.0)
        >>> table.at(100), table.at(4)
        (Minutes(middle=6, least=4, most=9), Minutes(middle=1, least=1, most=1))
        """
        middle, least, most = (
            max(min(effort, 1), round(minutes * effort / 100))
            for minutes in (self.middle, self.least, self.most)
        )
        return Minutes(middle, least, most)

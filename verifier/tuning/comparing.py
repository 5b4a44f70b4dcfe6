"""Two versions of a puzzle side by side: what each is like, and what was changed."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, replace

from verifier.diagnosis.repairs.changes import Change
from verifier.puzzle.grid import Grid
from verifier.puzzle.printable import filled
from verifier.puzzle.puzzle import Puzzle
from verifier.tuning import wording
from verifier.tuning.answers import JudgingTask, TuningAnswer, answer_to, walked
from verifier.tuning.changes_between import changes_between
from verifier.tuning.portrait import lines_of, technique_name
from verifier.tuning.wish import Wish

__all__ = ["Beside", "VersionsCompared", "compare"]

Beside = tuple[str, str, str]
"""What a line is about, and what is said of the first and of the second."""


@dataclass(frozen=True, slots=True)
class VersionsCompared:
    """Two versions of a puzzle.

    Parameters
    ----------
    first, second : TuningAnswer
        Each with its verdict, held against no wish.
    changes : tuple of Change or None
        What makes the second of the first; None where their grids are of other kinds.
    """

    first: TuningAnswer
    second: TuningAnswer
    changes: tuple[Change, ...] | None

    @property
    def differing(self) -> tuple[int, ...] | None:
        """The cells, filled in both, in which their solutions differ; None where they cannot be compared."""
        one, other = (each.verdict.solutions.filling for each in (self.first, self.second))
        if one is None or other is None or self.changes is None:
            return None
        digits = enumerate(zip(one, other, strict=True))
        return tuple(cell for cell, (first, second) in digits if first != second and first and second)

    @property
    def lines(self) -> tuple[Beside, ...]:
        """What the two are like, line by line."""
        one, other = lines_of(self.first), lines_of(self.second)
        abouts = dict.fromkeys((*one, *other))
        return tuple((about, one.get(about, ""), other.get(about, "")) for about in abouts)

    @property
    def techniques(self) -> tuple[Beside, ...]:
        """How many steps of each technique the two take, hardest last."""
        from grader.ladder import LADDER

        one, other = (
            difficulty.by_technique if (difficulty := each.verdict.difficulty) else {}
            for each in (self.first, self.second)
        )
        names = [technique.id for technique in LADDER if technique.id in one or technique.id in other]
        return tuple((technique_name(n), str(one.get(n, 0)), str(other.get(n, 0))) for n in names)

    def says(self) -> Iterator[str]:
        """Yield what there is to say of both together, a sentence each."""
        grid, other = self.first.puzzle.grid, self.second.puzzle.grid
        if self.changes is None:
            names = (grid.name, other.name)
            first, second = names if len(set(names)) > 1 else map(_with_boxes, (grid, other))
            yield filled(wording.OTHER_GRID, first=first, second=second)
            return
        if self.differing is None:
            yield wording.NO_COMMON_SOLUTION
        elif self.differing:
            yield filled(wording.OTHER_SOLUTION, cells=grid.cell_names(self.differing))
        else:
            yield wording.SAME_SOLUTION
        yield wording.WHAT_CHANGED if self.changes else wording.SAME_RULES
        yield from (change.says(grid) for change in self.changes)


def _with_boxes(grid: Grid) -> str:
    """Return the size of a grid with that of its boxes, if they all have one."""
    template = wording.BOXES if grid.box_rows else wording.NO_BOXES
    return filled(template, size=grid.name, boxes=grid.boxes_name)


def compare(first: Puzzle, second: Puzzle, seconds: float = 300) -> VersionsCompared:
    """Judge two versions of a puzzle, and find what was changed from the first to the second.

    Parameters
    ----------
    first, second : Puzzle
        Sound or not.
    seconds : float, optional
        What each may take.
    """
    one, other = (
        walked(answer_to(JudgingTask((), each, Wish(), time.time() + seconds))) for each in (first, second)
    )
    alike = replace(first.grid, blocked=()) == replace(second.grid, blocked=())
    changes = changes_between(first, second) if alike else None
    return VersionsCompared(one, other, changes)

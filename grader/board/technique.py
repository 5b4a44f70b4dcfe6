"""What a technique is: a name and a function from a board to steps."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from grader.board.board import Board
from grader.board.steps import Step

__all__ = ["Technique"]


@dataclass(frozen=True, slots=True)
class Technique:
    """One way of reasoning.

    Parameters
    ----------
    id : str
        Its name in files and verdicts, such as ``naked-pair``; never given to another technique.
    name : str
        Its name as people say it, such as ``naked pair``.
    find : callable
        A pure function: a board in, every step that the technique allows on it out. It may pass over
        houses, cages and sums without a fresh cell (see `Board`).
    """

    id: str
    name: str
    find: Callable[[Board], Iterable[Step]]

"""The only solution of a puzzle nobody has judged, for its key: a printed one, mostly."""

from __future__ import annotations

from verifier.evidence.establish import count
from verifier.puzzle.allowance import WorkAllowance
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["only_solution"]

_WORK = 5.0
"""Most work to find it, in the solver's deterministic units."""


def only_solution(puzzle: Puzzle) -> Filling | None:
    """Return the only solution of a puzzle; None where there is none, or several, or it is not found in time.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> only_solution(make_puzzle("classic", Grid.square(4), givens={0: 1, 6: 2, 9: 3, 15: 4}))
    (1, 2, 4, 3, 3, 4, 2, 1, 4, 3, 1, 2, 2, 1, 3, 4)
    >>> only_solution(make_puzzle("classic", Grid.square(4)))
    """
    return count(puzzle, 2, WorkAllowance(work=_WORK)).only_solution

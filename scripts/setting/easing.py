"""Easing a hard puzzle with givens until the technique that one looks for is its hardest."""

from __future__ import annotations

from random import Random

from grader.grading.replay import Outcome, Replay, replay
from grader.ladder import LADDER
from scripts.setting.broken import with_givens
from scripts.setting.chance import shuffled
from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle

__all__ = ["eased"]


def eased(puzzle: Puzzle, filling: Filling, technique: str, rng: Random) -> list[int] | None:
    """Return cells to give besides, after which a technique is the hardest that a puzzle needs.

    The ladder is cut off above the technique. Where it gets stuck, a cell is given that it did not reach,
    but none whose digit would spare the technique once it is needed.

    Parameters
    ----------
    puzzle : Puzzle
        A puzzle with one solution.
    filling : tuple of int
        Its solution.
    technique : str
        The id of the technique.
    rng : Random
        Seeded by the caller.

    Returns
    -------
    list of int or None
        The cells; None where the puzzle does without the technique, or has come to do without it.

    Examples
    --------
    >>> from scripts.setting.killers import Draft, draw_killer
    >>> from verifier.puzzle.grid import Grid
    >>> grid = Grid.square(4)
    >>> puzzle, filling = draw_killer(grid, Draft(7, {2: 2, 3: 1}))
    >>> [grid.cell_name(cell) for cell in eased(puzzle, filling, "rest-of-house", Random(0))]
    ['r1c4']
    """
    ranks = [known.id for known in LADDER]
    ladder = LADDER[: ranks.index(technique) + 1]

    def with_given(cells: list[int]) -> Replay:
        return replay(with_givens(puzzle, {cell: filling[cell] for cell in cells}), ladder=ladder)

    if not _needs(replay(puzzle), technique):
        return None
    given: list[int] = []
    played = with_given(given)
    while played.outcome is Outcome.STUCK:
        for cell in shuffled(_not_reached(played), rng):
            further = with_given([*given, cell])
            if _needs(further, technique) or not _needs(played, technique):
                break
        else:
            return None
        given, played = [*given, cell], further
    return given if _needs(played, technique) else None


def _needs(played: Replay, technique: str) -> bool:
    return any(one.technique == technique for one in played.rounds)


def _not_reached(played: Replay) -> list[int]:
    assert played.end is not None
    return [cell for cell in range(played.layout.grid.cell_count) if not played.end.placed >> cell & 1]

"""A search that goes through its stages as far as the budget lasts, and knows what it has not looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from enum import Enum
from typing import TypeVar

from verifier.diagnosis.search_budget import OutOfBudgetError
from verifier.puzzle.puzzle import KAKURO, Puzzle

__all__ = ["Stage", "search_through"]

_Found = TypeVar("_Found")


class Stage(Enum):
    """What a stage of the search looks for; the values are how people are told of it."""

    CLAIM = "the solution in the file"
    SEEN = "cages in pieces and forgotten marks"
    CONFLICT = "what contradicts what"
    VALUES = "other totals and givens"
    SORTS = "repeats and totals that were forgotten"
    EXCHANGES = "totals that changed places"
    MOVES = "cells in the wrong cage"
    BLOCKED = "blocked cells in the wrong place"
    CELLS = "cells that changed places"
    PARTED = "cages to split"
    PAIRS = "two slips at once"
    IDLE = "what the puzzle can do without"
    GIVENS = "extra givens"
    REDRAWN = "cages to split, add or join"


_OF_CAGES = {Stage.SEEN, Stage.EXCHANGES, Stage.MOVES, Stage.CELLS, Stage.PARTED}
"""There is nothing to look for where there are no cages."""


def search_through(
    puzzle: Puzzle, stages: Sequence[tuple[Stage, Iterable[_Found]]], take: Callable[[_Found], object]
) -> tuple[Stage, ...]:
    """Go through the stages in order, and hand on what each finds as soon as it is found.

    Parameters
    ----------
    puzzle : Puzzle
        What is looked at; stages in which nothing can be found in it are left out.
    stages : sequence of (Stage, iterable)
        What is looked for, and a search that begins when its turn comes.
    take : callable
        Takes what is found.

    Returns
    -------
    tuple of Stage
        What was not looked at, or not to its end, when the budget was spent; empty if it lasted.

    Examples
    --------
    >>> def spent():
    ...     yield "half"
    ...     raise OutOfBudgetError
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle, found = make_puzzle("classic", Grid.square(4)), []
    >>> stages = [(Stage.GIVENS, ["all"]), (Stage.VALUES, spent()), (Stage.MOVES, []), (Stage.PAIRS, [])]
    >>> left = search_through(puzzle, stages, found.append)
    >>> found, [look.value for look in left]
    (['all', 'half'], ['other totals and givens', 'two slips at once'])
    """
    stages = [stage for stage in stages if _is_to_the_point(stage[0], puzzle)]
    for number, (_, search) in enumerate(stages):
        try:
            for found in search:
                take(found)
        except OutOfBudgetError:
            return tuple(look for look, _ in stages[number:])
    return ()


_NOT_OF_RUNS = {Stage.SORTS, Stage.MOVES, Stage.CELLS, Stage.PARTED, Stage.REDRAWN}
"""What would draw cages anew: those of a kakuro lie as its blocked cells have them."""


def _is_to_the_point(look: Stage, puzzle: Puzzle) -> bool:
    if look is Stage.CLAIM:
        return puzzle.solution is not None
    if look in (_NOT_OF_RUNS if puzzle.kind == KAKURO else {Stage.BLOCKED}):
        return False
    if look is Stage.SORTS:
        return len(puzzle.all_cages) > len(puzzle.cages)
    return bool(puzzle.cages) or look not in _OF_CAGES

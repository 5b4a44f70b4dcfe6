"""What a puzzle has beyond a classic or a killer, by the words that a file uses for it."""

from __future__ import annotations

from verifier.puzzle.puzzle import KAKURO, Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.given import Given
from verifier.puzzle.rules.house import House
from verifier.puzzle.rules.linear_sum import LinearSum

__all__ = ["BOXES", "FURTHER_HOUSES", "SORTS_OF_CAGES", "further_rules"]

BOXES = "boxes"
"""Boxes of any shape, or none."""
FURTHER_HOUSES = {
    "falling diagonal": "diagonals",
    "rising diagonal": "diagonals",
    "extra house": "extra_houses",
}
"""The key of a file by which houses of a kind are stated."""
SORTS_OF_CAGES = (Different.word, LinearSum.word)
"""Cages that are not as usual."""


def further_rules(puzzle: Puzzle) -> tuple[str, ...]:
    """Return the words of the rules that go beyond the usual houses, cages and givens.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> houses = (*grid.houses, *grid.diagonals)
    >>> puzzle = make_puzzle("killer", grid, houses=houses, clues=[Different((0, 1))])
    >>> further_rules(puzzle)
    ('diagonals', 'cage_without_total')
    """
    if puzzle.kind == KAKURO:
        return ()
    boxes = [] if puzzle.grid.box_rows else [BOXES]
    houses = [FURTHER_HOUSES[house.kind] for house in puzzle.houses if house.kind in FURTHER_HOUSES]
    rules = [rule.word for rule in puzzle.rules if type(rule) not in (House, Cage, Given)]
    return tuple(dict.fromkeys([*boxes, *houses, *rules]))

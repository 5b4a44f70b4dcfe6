"""What the picture of a puzzle alone does not say of its rules, as it must be printed beside it."""

from __future__ import annotations

from verifier.puzzle.printable import listed
from verifier.puzzle.puzzle import Puzzle

__all__ = ["NOT_SEEN", "rules_to_say"]

_PREFIX = "the rule that "
NOT_SEEN = ("no_repeats", "not_consecutive", "all_marked")
"""The words of the rules that are said and not drawn: those of the whole grid."""


def rules_to_say(puzzle: Puzzle) -> str:
    """Return in words what the picture alone does not say; empty where it says all.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> grid = Grid.square(4)
    >>> rules_to_say(make_puzzle("classic", grid, houses=(*grid.houses, *grid.diagonals)))
    'every digit stands once in the falling diagonal and in the rising diagonal'
    >>> rules_to_say(make_puzzle("classic", grid))
    ''
    """
    further = dict.fromkeys(
        house.kind for house in puzzle.houses if house.kind not in ("row", "column", "box")
    )
    said = []
    if further:
        places = listed(f"in {'each ' if kind == 'extra house' else 'the '}{kind}" for kind in further)
        said.append(f"every digit stands once {places}")
    for rule in puzzle.rules:
        if rule.word in NOT_SEEN:
            said.append(rule.called(puzzle.grid).removeprefix(_PREFIX))
    return "; ".join(said)

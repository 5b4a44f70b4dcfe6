"""The rules in plain Python, and which of them a full grid breaks.

Nothing here solves anything. Every solution that a witness reports is held against this module before
it counts, so it is kept as plain as the rules themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.rule import Rule

__all__ = ["Breach", "breaches", "solves"]


@dataclass(frozen=True, slots=True)
class Breach:
    """One rule that a filling breaks.

    Parameters
    ----------
    rule : Rule or None
        The rule that is broken; None where a digit is none of the grid's, or the filling has the wrong
        length.
    cells : tuple of int
        The cells in which it is broken: those that repeat a digit, the cells of a cage, a given.
    """

    rule: Rule | None
    cells: tuple[int, ...]


def breaches(puzzle: Puzzle, filling: Filling) -> Iterator[Breach]:
    """Yield every rule of `puzzle` that `filling` breaks: digits first, then the rules in their order.

    Parameters
    ----------
    puzzle : Puzzle
        The rules.
    filling : tuple of int
        A digit for every cell, in reading order.

    Yields
    ------
    Breach
        Nothing when `filling` solves the puzzle.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={2: 3})
    >>> list(breaches(puzzle, (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)))
    []
    >>> [b.cells for b in breaches(puzzle, (2, 1, 4, 3, 3, 4, 1, 2, 1, 2, 3, 4, 4, 3, 2, 1))]
    [(2,)]
    """
    if len(filling) != puzzle.grid.cell_count:
        yield Breach(None, ())
        return
    grid = puzzle.grid
    strangers = [cell for cell in grid.cells if not 1 <= filling[cell] <= grid.digits]
    strangers += [cell for cell in grid.blocked if filling[cell]]
    if strangers:
        yield Breach(None, tuple(sorted(strangers)))
    for rule in puzzle.rules:
        cells = rule.broken_in(filling)
        if cells:
            yield Breach(rule, cells)


def solves(puzzle: Puzzle, filling: Filling) -> bool:
    """Whether `filling` obeys every rule of `puzzle`."""
    return next(breaches(puzzle, filling), None) is None

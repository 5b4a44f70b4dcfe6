"""The rules in plain Python, and which of them a full grid breaks.

Nothing here solves anything. Every solution that a witness reports is held against this module before
it counts, so it is kept as plain as the rules themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__ = ["Breach", "breaches", "solves"]


@dataclass(frozen=True, slots=True)
class Breach:
    """One rule that a filling breaks.

    Parameters
    ----------
    rule : House, Cage or None
        The house or cage that is broken; None where a given is contradicted, a digit is none of the
        grid's, or the filling has the wrong length.
    cells : tuple of int
        The cells concerned: those that repeat a digit, the cells of the cage, or the given.
    """

    rule: House | Cage | None
    cells: tuple[int, ...]


def breaches(puzzle: Puzzle, filling: Filling) -> Iterator[Breach]:
    """Yield every rule of `puzzle` that `filling` breaks: digits, houses, cages, givens, in this order.

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
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={2: 3})
    >>> list(breaches(puzzle, (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)))
    []
    >>> [b.cells for b in breaches(puzzle, (2, 1, 4, 3, 3, 4, 1, 2, 1, 2, 3, 4, 4, 3, 2, 1))]
    [(2,)]
    """
    if len(filling) != puzzle.grid.cell_count:
        yield Breach(None, ())
        return
    strangers = tuple(c for c, digit in enumerate(filling) if not 1 <= digit <= puzzle.grid.digits)
    if strangers:
        yield Breach(None, strangers)
    for house in puzzle.houses:
        repeated = _repeated(house.cells, filling)
        if repeated:
            yield Breach(house, repeated)
    for cage in puzzle.cages:
        repeated = _repeated(cage.cells, filling)
        if repeated or sum(filling[c] for c in cage.cells) != cage.total:
            yield Breach(cage, repeated or cage.cells)
    for cell, digit in puzzle.givens:
        if filling[cell] != digit:
            yield Breach(None, (cell,))


def solves(puzzle: Puzzle, filling: Filling) -> bool:
    """Whether `filling` obeys every rule of `puzzle`."""
    return next(breaches(puzzle, filling), None) is None


def _repeated(cells: tuple[int, ...], filling: Filling) -> tuple[int, ...]:
    digits = [filling[c] for c in cells]
    if len(set(digits)) == len(digits):
        return ()
    return tuple(c for c, digit in zip(cells, digits, strict=True) if digits.count(digit) > 1)

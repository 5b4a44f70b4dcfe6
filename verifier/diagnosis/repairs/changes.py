"""Changes to a puzzle: what a setter can put right, and what the puzzle is then.

A change names the cages as they stand before it. Several changes are made one after the other, so a later
one names what the earlier ones have left.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["CageChange", "CellMove", "Change", "GivenChange", "TotalChange", "changed"]


@dataclass(frozen=True, slots=True)
class TotalChange:
    """A cage gets another total.

    Parameters
    ----------
    cage : Cage
        As it stands.
    to : int
        The new total.
    """

    cage: Cage
    to: int


@dataclass(frozen=True, slots=True)
class GivenChange:
    """A given is put in, taken out, or another digit.

    Parameters
    ----------
    cell : int
        Where.
    old, new : int or None
        The digit before and after; None for no given.
    """

    cell: int
    old: int | None
    new: int | None


@dataclass(frozen=True, slots=True)
class CellMove:
    """A cell goes from one cage to another; the totals stay.

    Parameters
    ----------
    cell : int
        The cell.
    old, new : Cage or None
        The cage it leaves and the cage it joins, as they stand; None for no cage.
    """

    cell: int
    old: Cage | None
    new: Cage | None


@dataclass(frozen=True, slots=True)
class CageChange:
    """Cages are drawn anew: one split, two joined, one added.

    Parameters
    ----------
    old, new : tuple of Cage
        The cages that go and those that come.
    """

    old: tuple[Cage, ...]
    new: tuple[Cage, ...]


Change = TotalChange | GivenChange | CellMove | CageChange


def changed(puzzle: Puzzle, changes: Iterable[Change]) -> Puzzle:
    """Return the puzzle after some changes, made in order.

    Parameters
    ----------
    puzzle : Puzzle
        As it was set; it stays as it is.
    changes : iterable of Change
        Each must name cages that the puzzle has when its turn comes.

    Returns
    -------
    Puzzle
        With the same credits and the same claimed solution.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3), Cage((2, 3), 7)])
    >>> after = changed(puzzle, [TotalChange(puzzle.cages[0], 4), GivenChange(5, None, 2)])
    >>> after.cages[0].total, after.givens
    (4, ((5, 2),))
    >>> changed(puzzle, [CellMove(1, *puzzle.cages)]).cages
    (Cage(cells=(0,), total=3), Cage(cells=(1, 2, 3), total=7))
    """
    cages, givens = list(puzzle.cages), dict(puzzle.givens)
    for change in changes:
        if isinstance(change, GivenChange):
            givens.pop(change.cell, None)
            if change.new is not None:
                givens[change.cell] = change.new
        else:
            old, new = _cages_of(change)
            for cage in old:
                cages.remove(cage)
            cages.extend(new)
    return make_puzzle(
        puzzle.kind,
        puzzle.grid,
        cages=cages,
        givens=givens,
        credits=puzzle.credits,
        solution=puzzle.solution,
        houses=puzzle.houses,
    )


def _cages_of(change: TotalChange | CellMove | CageChange) -> tuple[list[Cage], list[Cage]]:
    """Return the cages that go and those that come."""
    if isinstance(change, TotalChange):
        return [change.cage], [Cage(change.cage.cells, change.to)]
    if isinstance(change, CageChange):
        return list(change.old), list(change.new)
    old, new = [], []
    if change.old is not None:
        old.append(change.old)
        left = tuple(cell for cell in change.old.cells if cell != change.cell)
        new += [Cage(left, change.old.total)] if left else []
    if change.new is not None:
        old.append(change.new)
        new.append(Cage(tuple(sorted((*change.new.cells, change.cell))), change.new.total))
    return old, new

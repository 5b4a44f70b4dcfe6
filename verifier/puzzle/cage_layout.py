"""What looks wrong with cages at a glance: one in pieces, and the only cell that is in none.

A puzzle may be meant so. But where it is broken, this is what a proofreader would look at first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from verifier.puzzle.neighbours import beside, pieces
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule
from verifier.puzzle.run_layout import runs_without_total

__all__ = [
    "bare_cells",
    "cage_of_sort",
    "cages_in_pieces",
    "cages_side_by_side",
    "lone_bare_cell",
    "places_that_look_wrong",
]


def cage_of_sort(cells: Iterable[int], total: int | None, *, repeats: bool = False) -> Rule:
    """Return a cage of the sort that has this total, or none, and may repeat digits, or not.

    Parameters
    ----------
    cells : iterable of int
        In any order.
    total : int or None
        What the digits add up to.
    repeats : bool, optional
        Whether a digit may stand in several of its cells; without a total, none may.

    Examples
    --------
    >>> cage_of_sort([1, 0], 3), cage_of_sort([0], None), cage_of_sort([0, 1], 2, repeats=True).is_cage
    (Cage(cells=(0, 1), total=3), Different(cells=(0,)), True)
    """
    ordered = tuple(sorted(cells))
    if total is None:
        return Different(ordered)
    return LinearSum(tuple((cell, 1) for cell in ordered), total) if repeats else Cage(ordered, total)


def cages_in_pieces(puzzle: Puzzle) -> dict[Rule, tuple[tuple[int, ...], ...]]:
    """Return the pieces of each cage that has more than one.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> from verifier.puzzle.rules.cage import Cage
    >>> cages = [Cage((0, 1, 11), 6), Cage((2, 3), 7)]
    >>> cages_in_pieces(make_puzzle("killer", Grid.square(4), cages=cages))
    {Cage(cells=(0, 1, 11), total=6): ((0, 1), (11,))}
    """
    fallen = {cage: pieces(puzzle.grid, cage.cells) for cage in puzzle.all_cages}
    return {cage: found for cage, found in fallen.items() if len(found) > 1}


def bare_cells(puzzle: Puzzle) -> list[int]:
    """Return the cells in no cage, in reading order."""
    return sorted(set(puzzle.grid.cells).difference(*(cage.cells for cage in puzzle.all_cages)))


def lone_bare_cell(puzzle: Puzzle) -> int | None:
    """Return the cell in no cage, if all others are in one."""
    bare = bare_cells(puzzle)
    return bare[0] if len(bare) == 1 else None


def places_that_look_wrong(puzzle: Puzzle) -> int:
    """Return how much there is to be looked at: pieces too many, the only cell in no cage, totals missing."""
    too_many = sum(len(found) - 1 for found in cages_in_pieces(puzzle).values())
    return too_many + (lone_bare_cell(puzzle) is not None) + len(runs_without_total(puzzle))


def cages_side_by_side(puzzle: Puzzle) -> Iterator[tuple[Cage, Cage]]:
    """Yield each two cages that have a border in common, in the order of the cages.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> cages = [Cage((0, 1), 3), Cage((4, 5), 7), Cage((14, 15), 3)]
    >>> list(cages_side_by_side(make_puzzle("killer", Grid.square(4), cages=cages))) == [tuple(cages[:2])]
    True
    """
    near_to = {
        cage: {near for cell in cage.cells for near in beside(puzzle.grid, cell)} for cage in puzzle.cages
    }
    for one, other in combinations(puzzle.cages, 2):
        if near_to[one].intersection(other.cells):
            yield one, other

"""What all ways of breaking a puzzle share."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, starmap
from typing import NamedTuple

from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

__all__ = ["Broken", "clashes", "loose_cages", "named", "sets_of", "with_cages", "with_givens", "with_total"]


class Broken(NamedTuple):
    """A puzzle with a fault, and what is known of it because the fault was put in.

    Parameters
    ----------
    puzzle : Puzzle
        The puzzle.
    made : str
        What was done to it.
    codes : tuple of str
        The reasons that its verdict must give.
    solutions : int
        0, 1, or 2 for "at least two".
    """

    puzzle: Puzzle
    made: str
    codes: tuple[str, ...]
    solutions: int = 0


def with_cages(puzzle: Puzzle, cages: list[Cage]) -> Puzzle:
    """Return the puzzle with other cages."""
    return make_puzzle(puzzle.kind, puzzle.grid, cages=cages, givens=puzzle.givens)


def with_total(puzzle: Puzzle, cage: Cage, total: int) -> Puzzle:
    """Return the puzzle with another total for one cage."""
    return with_cages(puzzle, [replace(c, total=total) if c == cage else c for c in puzzle.cages])


def with_givens(puzzle: Puzzle, givens: dict[int, int]) -> Puzzle:
    """Return the puzzle with more givens, or with others in the same cells."""
    return puzzle.having(Given, starmap(Given, {**dict(puzzle.givens), **givens}.items()))


def clashes(puzzle: Puzzle, cell: int, digit: int) -> bool:
    """Whether a given elsewhere in a house of `cell` has the same digit."""
    givens = dict(puzzle.givens)
    return any(
        givens.get(other) == digit
        for house in puzzle.houses
        if cell in house.cells
        for other in house.cells
        if other != cell
    )


def sets_of(cage: Cage, total: int, grid: Grid) -> list[set[int]]:
    """Return the sets of different digits that a cage could hold with this total."""
    sets = combinations(grid.all_digits, len(cage.cells))
    return [set(digits) for digits in sets if sum(digits) == total]


def named(puzzle: Puzzle, cage: Cage) -> str:
    """Return how a remark names a cage."""
    return "the cage " + " ".join(puzzle.grid.cell_name(cell) for cell in cage.cells)


def loose_cages(puzzle: Puzzle) -> list[Cage]:
    """Return the cages without a given that are no part of a house covered by whole cages."""
    given = {cell for cell, _ in puzzle.givens}
    bound: set[Cage] = set()
    for house in puzzle.houses:
        inside = [cage for cage in puzzle.cages if set(cage.cells) <= set(house.cells)]
        if sum(len(cage.cells) for cage in inside) == len(house.cells):
            bound |= set(inside)
    return [cage for cage in puzzle.cages if cage not in bound and not given & set(cage.cells)]

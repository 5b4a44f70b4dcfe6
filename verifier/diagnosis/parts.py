"""The parts of a puzzle that can contradict each other: houses, cages and givens."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__ = ["Given", "Part", "cells_of", "facts_of", "meets", "only", "parts_of", "without"]


@dataclass(frozen=True, slots=True)
class Given:
    """A digit printed in a cell."""

    cell: int
    digit: int


Part = House | Cage | Given


def parts_of(puzzle: Puzzle) -> tuple[Part, ...]:
    """Return the houses, cages and givens of a puzzle, in this order."""
    return (*puzzle.houses, *puzzle.cages, *(Given(cell, digit) for cell, digit in puzzle.givens))


def only(puzzle: Puzzle, parts: Iterable[Part]) -> Puzzle:
    """Return the puzzle with none but these of its parts; every cell still holds a digit of the grid.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("killer", Grid.square(4), cages=[Cage((0, 1), 3)], givens={5: 2})
    >>> left = only(puzzle, [puzzle.houses[0], Given(5, 2)])
    >>> len(left.houses), left.cages, left.givens
    (1, (), ((5, 2),))
    """
    kept = set(parts)
    return replace(
        puzzle,
        houses=tuple(house for house in puzzle.houses if house in kept),
        cages=tuple(cage for cage in puzzle.cages if cage in kept),
        givens=tuple(pair for pair in puzzle.givens if Given(*pair) in kept),
    )


def without(puzzle: Puzzle, parts: Iterable[Part]) -> Puzzle:
    """Return the puzzle without these of its parts."""
    gone = set(parts)
    return only(puzzle, (part for part in parts_of(puzzle) if part not in gone))


def cells_of(part: Part) -> tuple[int, ...]:
    """Return the cells of a part."""
    return (part.cell,) if isinstance(part, Given) else part.cells


def meets(part: Part, filling: Filling) -> bool:
    """Whether a filling holds the given, has the total of the cage, and repeats no digit in cage or house.

    Examples
    --------
    >>> meets(Cage((0, 1), 3), (1, 2)), meets(Cage((0, 1), 2), (1, 1)), meets(Given(0, 1), (1, 2))
    (True, False, True)
    """
    if isinstance(part, Given):
        return filling[part.cell] == part.digit
    digits = [filling[cell] for cell in part.cells]
    return len(set(digits)) == len(digits) and (isinstance(part, House) or sum(digits) == part.total)


def facts_of(grid: Grid, parts: Sequence[Part]) -> dict[str, Any]:
    """Return the parts as plain values, for a program; kinds that do not occur are left out."""
    name = grid.cell_name
    facts: dict[str, Any] = {
        "houses": [part.name for part in parts if isinstance(part, House)],
        "cages": [
            {"total": part.total, "cells": [name(cell) for cell in part.cells]}
            for part in parts
            if isinstance(part, Cage)
        ],
        "givens": {name(part.cell): part.digit for part in parts if isinstance(part, Given)},
    }
    return {key: value for key, value in facts.items() if value}

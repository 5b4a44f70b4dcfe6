"""A house: cells that hold every digit once, or no digit twice."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.printable import plural
from verifier.puzzle.rules.rule import Rule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["House", "by_kind", "disjoint_kinds", "repeated"]


@dataclass(frozen=True, slots=True)
class House(Rule):
    """Cells that hold every digit once; with fewer cells than there are digits, no digit twice.

    Parameters
    ----------
    kind : str
        ``row``, ``column`` or ``box``; any other name, such as ``extra house`` or ``rising diagonal``.
    number : int
        Counted from 1, boxes in the order of their first cells; 0 where there is only one of a kind.
    cells : tuple of int
        In reading order.

    Examples
    --------
    >>> House("row", 3, (18, 19, 20)).name, House("rising diagonal", 0, (2, 4, 6)).name
    ('row 3', 'rising diagonal')
    """

    word: ClassVar[str] = "house"
    rank: ClassVar[int] = 0
    differs: ClassVar[bool] = True

    kind: str
    number: int
    cells: tuple[int, ...]

    @property
    def name(self) -> str:
        """The name people use, such as ``row 3``."""
        return f"{self.kind} {self.number}" if self.number else self.kind

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of digits that stand in the house more than once."""
        return repeated(self.cells, filling)

    def called(self, grid: Grid) -> str:  # noqa: ARG002 - other rules are called by their cells
        """Return its name."""
        return self.name

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its name and its cells."""
        return {"house": self.name, "cells": [grid.cell_name(cell) for cell in self.cells]}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the house elsewhere; the puzzle that it goes to names its houses anew."""
        return replace(self, cells=tuple(sorted(places[cell] for cell in self.cells)))

    def relabelled(self, digits: Sequence[int]) -> Self:  # noqa: ARG002 - any digits will do
        """Return the house itself."""
        return self


def disjoint_kinds(houses: Iterable[House]) -> list[tuple[House, ...]]:
    """Return the houses of each kind together, if no two of them have a cell in common; else each by itself.

    Examples
    --------
    >>> row, first, other = House("row", 1, (0, 1)), House("extra", 1, (0, 2)), House("extra", 2, (2, 3))
    >>> [[house.name for house in alike] for alike in disjoint_kinds([row, first, other])]
    [['row 1'], ['extra 1'], ['extra 2']]
    """
    kinds: dict[str, list[House]] = {}
    for house in houses:
        kinds.setdefault(house.kind, []).append(house)
    found: list[tuple[House, ...]] = []
    for alike in kinds.values():
        cells = [cell for house in alike for cell in house.cells]
        found += [tuple(alike)] if len(set(cells)) == len(cells) else [(house,) for house in alike]
    return found


def by_kind(houses: Iterable[House], numbers_in_words: Callable[[list[int]], str]) -> list[str]:
    """Return houses as one says them, those of a kind together.

    Examples
    --------
    >>> cells = (0, 1)
    >>> houses = [House("box", 1, cells), House("box", 2, cells), House("rising diagonal", 0, cells)]
    >>> by_kind(houses, lambda numbers: " and ".join(map(str, numbers)))
    ['boxes 1 and 2', 'the rising diagonal']
    """
    numbers: dict[str, list[int]] = {}
    for house in houses:
        numbers.setdefault(house.kind, []).append(house.number)
    return [
        f"{kind if len(found) == 1 else plural(kind)} {numbers_in_words(found)}"
        if any(found)
        else f"the {kind}"
        for kind, found in numbers.items()
    ]


def repeated(cells: tuple[int, ...], filling: Filling) -> tuple[int, ...]:
    """Return those of some cells whose digit stands in another of them too.

    Examples
    --------
    >>> repeated((0, 1, 2, 3), (4, 1, 4, 2))
    (0, 2)
    """
    digits = [filling[cell] for cell in cells]
    if len(set(digits)) == len(digits):
        return ()
    return tuple(cell for cell, digit in zip(cells, digits, strict=True) if digits.count(digit) > 1)

"""A region sum line: its parts in the boxes that it runs through add up to the same."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import chain, groupby
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import Rule, is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid
    from verifier.puzzle.rules.house import House

__all__ = ["RegionSum", "parts_in_boxes"]


@dataclass(frozen=True, slots=True)
class RegionSum(Rule):
    """Parts of a line that add up to the same; digits may repeat.

    Parameters
    ----------
    parts : tuple of tuple of int
        Two at least, in order along the line from the end that makes them come first; each is a stretch of
        it inside one box.

    Examples
    --------
    >>> line = RegionSum(((0, 1), (2,)))
    >>> line.broken_in((1, 2, 3, 4)), line.broken_in((1, 2, 4, 3)), line.moved((2, 1, 0, 3))
    ((), (0, 1, 2), RegionSum(parts=((0,), (1, 2))))
    """

    word: ClassVar[str] = "region_sum"
    rank: ClassVar[int] = 6

    parts: tuple[tuple[int, ...], ...]

    @property
    def cells(self) -> tuple[int, ...]:
        """The whole line."""
        return tuple(chain(*self.parts))

    @property
    def figure(self) -> int:
        """A number that has a bit for the length of the line up to each part."""
        return sum(1 << sum(map(len, self.parts[:number])) for number in range(len(self.parts)))

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return all its cells where its parts make different sums."""
        sums = {sum(filling[cell] for cell in part) for part in self.parts}
        return self.cells if len(sums) > 1 else ()

    def called(self, grid: Grid) -> str:
        """Return it by its ends."""
        first, last = self.cells[0], self.cells[-1]
        return f"the region sum line from {grid.cell_name(first)} to {grid.cell_name(last)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the line elsewhere."""
        there = tuple(tuple(places[cell] for cell in part) for part in self.parts)
        back = tuple(part[::-1] for part in reversed(there))
        return replace(self, parts=min(there, back, key=lambda parts: tuple(chain(*parts))))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the line itself where digits stay, or are complemented and its parts are equally long."""
        lengths = {len(part) for part in self.parts}
        equal = len(lengths) == 1 and (lengths == {1} or is_complement(digits))
        return self if equal or is_same(digits) else None


def parts_in_boxes(cells: tuple[int, ...], houses: Iterable[House]) -> tuple[tuple[int, ...], ...]:
    """Return the stretches of a line that lie inside one box each; one where there are no boxes.

    Examples
    --------
    >>> from verifier.puzzle.rules.house import House
    >>> parts_in_boxes((0, 1, 2, 5), [House("box", 1, (0, 1, 4, 5)), House("box", 2, (2, 3, 6, 7))])
    ((0, 1), (2,), (5,))
    """
    boxes = {cell: house.number for house in houses if house.kind == "box" for cell in house.cells}
    return tuple(tuple(part) for _, part in groupby(cells, boxes.get))

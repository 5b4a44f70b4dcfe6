"""A skyscraper clue: how many digits of a row or column are seen, where greater ones hide smaller ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.edge.seen import line_name, side_of
from verifier.puzzle.rules.rule import Rule, is_same

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Skyscraper"]


@dataclass(frozen=True, slots=True)
class Skyscraper(Rule):
    """A row or column in which `count` digits are greater than all before them.

    Parameters
    ----------
    cells : tuple of int
        All of the line, in the order in which they are seen.
    count : int
        How many are seen, the first among them.

    Examples
    --------
    >>> clue = Skyscraper((0, 1, 2, 3), 2)
    >>> clue.holds((2, 1, 4, 3)), clue.holds((1, 2, 4, 3)), clue.moved((3, 2, 1, 0))
    (True, False, Skyscraper(cells=(3, 2, 1, 0), count=2))
    """

    word: ClassVar[str] = "skyscraper"
    rank: ClassVar[int] = 7

    cells: tuple[int, ...]
    count: int

    @property
    def figure(self) -> int:
        """How many are seen."""
        return self.count

    def seen(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells of the digits that are greater than all before them."""
        highest, found = 0, []
        for cell in self.cells:
            if filling[cell] > highest:
                highest = filling[cell]
                found.append(cell)
        return tuple(found)

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells that are seen where they are more or fewer."""
        seen = self.seen(filling)
        return () if len(seen) == self.count else seen

    def called(self, grid: Grid) -> str:
        """Return it by its number, its line and the side from which it looks."""
        at = f"at the {side_of(self.cells, grid)} of {line_name(self.cells, grid)}"
        return f"the skyscraper clue {self.count} {at}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its number, its line and its side, as a file lists a clue."""
        return {
            self.word: self.count,
            "line": line_name(self.cells, grid),
            "from": side_of(self.cells, grid),
        }

    def moved(self, places: Sequence[int]) -> Self:
        """Return the clue elsewhere."""
        return replace(self, cells=tuple(places[cell] for cell in self.cells))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the clue itself where digits stay: other digits hide others."""
        return self if is_same(digits) else None

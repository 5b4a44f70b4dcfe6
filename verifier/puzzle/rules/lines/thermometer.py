"""A thermometer: digits rise from its bulb."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.lines.two_way import along
from verifier.puzzle.rules.pair_rule import PairRule
from verifier.puzzle.rules.rule import is_complement, is_same, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Thermometer"]


@dataclass(frozen=True, slots=True)
class Thermometer(PairRule):
    """Digits that rise strictly along a line.

    Parameters
    ----------
    cells : tuple of int
        In order along the line, the bulb first.

    Examples
    --------
    >>> line = Thermometer((0, 1, 2))
    >>> line.broken_in((1, 2, 4, 3)), line.broken_in((1, 3, 3, 4)), line.relabelled((0, 4, 3, 2, 1))
    ((), (1, 2), Thermometer(cells=(2, 1, 0)))
    """

    word: ClassVar[str] = "thermometer"
    rank: ClassVar[int] = 6

    cells: tuple[int, ...]

    @property
    def pairs(self) -> tuple[tuple[int, int], ...]:
        """Its neighbours, that nearer to the bulb first."""
        return along(self.cells)

    def fits(self, one: int, other: int) -> bool:
        """Whether the second digit is greater."""
        return one < other

    def called(self, grid: Grid) -> str:
        """Return it by its bulb and its end."""
        return f"the thermometer from {grid.cell_name(self.cells[0])} to {grid.cell_name(self.cells[-1])}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the thermometer elsewhere."""
        return type(self)(tuple(places[cell] for cell in self.cells))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return it the other way round where digits are complemented, itself where they stay."""
        if is_complement(digits):
            return type(self)(self.cells[::-1])
        return self if is_same(digits) else None

"""A thermometer: digits rise from its bulb."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from verifier.puzzle.rules.lines.two_way import along
from verifier.puzzle.rules.pair_rule import OneWayRule

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["Thermometer"]


@dataclass(frozen=True, slots=True)
class Thermometer(OneWayRule):
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

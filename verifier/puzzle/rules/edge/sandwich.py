"""A sandwich: what stands between the 1 and the largest digit of a row or column adds up to a number."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.edge.seen import line_name
from verifier.puzzle.rules.lines.two_way import either_way
from verifier.puzzle.rules.rule import is_complement, is_same
from verifier.puzzle.rules.totalled import Totalled

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Sandwich"]


@dataclass(frozen=True, slots=True)
class Sandwich(Totalled):
    """A row or column in which the digits between the 1 and the largest add up to `total`.

    Parameters
    ----------
    cells : tuple of int
        All of the line, in its order; the largest digit is as large as they are many. It and the 1 stand
        once.
    total : int
        0 where the two stand side by side.

    Examples
    --------
    >>> clue = Sandwich((0, 1, 2, 3), 5)
    >>> clue.broken_in((1, 2, 3, 4)), clue.broken_in((2, 4, 3, 1)), clue.broken_in((4, 1, 2, 3))
    ((), (1, 2, 3), (0, 1))
    """

    word: ClassVar[str] = "sandwich"
    rank: ClassVar[int] = 7

    cells: tuple[int, ...]
    total: int

    def filled(self, filling: Filling) -> tuple[int, ...] | None:
        """Return the cells from the one of the two digits to the other; None where they do not stand once."""
        digits = [filling[cell] for cell in self.cells]
        if digits.count(1) != 1 or digits.count(len(digits)) != 1:
            return None
        first, last = sorted((digits.index(1), digits.index(len(digits))))
        return self.cells[first : last + 1]

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the two digits and what stands between them where that adds up to something else."""
        filled = self.filled(filling)
        if filled is None:
            return self.cells
        return () if sum(filling[cell] for cell in filled[1:-1]) == self.total else filled

    def called(self, grid: Grid) -> str:
        """Return it by its total and its line."""
        return f"the sandwich {self.total} of {line_name(self.cells, grid)}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its total and its line, as a file lists a clue."""
        return {self.word: self.total, "line": line_name(self.cells, grid)}

    def moved(self, places: Sequence[int]) -> Self:
        """Return the clue elsewhere."""
        return replace(self, cells=either_way(tuple(places[cell] for cell in self.cells)))

    def relabelled(self, digits: Sequence[int]) -> Self | None:
        """Return the clue itself where digits stay, or are complemented and nothing is between the two."""
        return self if is_same(digits) or (not self.total and is_complement(digits)) else None

"""No two equal digits a chess move apart: a rule of the whole grid."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.pair_rule import WholeGridPairs

if TYPE_CHECKING:
    from verifier.puzzle.grid import Grid

__all__ = ["MOVES", "ChessMove"]

MOVES: Mapping[str, tuple[tuple[int, int], ...]] = {
    "knight": ((1, -2), (1, 2), (2, -1), (2, 1)),
    "king": ((0, 1), (1, -1), (1, 0), (1, 1)),
}
"""For each piece, how far down and across its moves lead; the way back is the same move."""


@dataclass(frozen=True, slots=True)
class ChessMove(WholeGridPairs):
    """Cells a move of one piece apart hold different digits, all over the grid.

    Parameters
    ----------
    piece : str
        A key of `MOVES`.
    pairs : tuple of (int, int)
        All such pairs of cells, see `verifier.puzzle.neighbours.apart`.

    Examples
    --------
    >>> rule = ChessMove("king", ((0, 1), (0, 3), (1, 2)))
    >>> rule.cells, rule.broken_in((1, 2, 2, 1))
    ((0, 1, 2, 3), (0, 1, 2, 3))
    """

    word: ClassVar[str] = "no_repeats"
    rank: ClassVar[int] = 4

    piece: str
    pairs: tuple[tuple[int, int], ...]

    @property
    def figure(self) -> int:
        """Which piece it is."""
        return list(MOVES).index(self.piece)

    def fits(self, one: int, other: int) -> bool:
        """Whether the digits differ."""
        return one != other

    def called(self, grid: Grid) -> str:  # noqa: ARG002 - it is said of the whole grid
        """Return it by its piece."""
        return f"the rule that no two equal digits stand a {self.piece}'s move apart"

    def record(self, grid: Grid) -> dict[str, Any]:  # noqa: ARG002
        """Return its piece."""
        return {self.word: self.piece}

    def relabelled(self, digits: Sequence[int]) -> Self:  # noqa: ARG002 - any digits will do
        """Return the rule itself."""
        return self

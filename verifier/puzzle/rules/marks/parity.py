"""Marks in cells that hold an even digit, or an odd one."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from verifier.puzzle.rules.rule import Rule, written

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Even", "Odd", "Parity"]


class Parity(Rule):
    """Cells whose digits are all even, or all odd.

    Attributes
    ----------
    rest : int
        What every digit leaves when it is divided by two.
    """

    __slots__ = ()
    rest: ClassVar[int]

    @abstractmethod
    def other(self) -> Parity:
        """Return the rule that the same cells hold all the other digits."""

    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells whose digits are of the other kind."""
        return tuple(cell for cell in self.cells if filling[cell] % 2 != self.rest)

    def called(self, grid: Grid) -> str:
        """Return it by its cells."""
        verb = "is" if len(self.cells) == 1 else "are"
        return f"the mark that {grid.cell_names(self.cells)} {verb} {self.word}"

    def record(self, grid: Grid) -> dict[str, Any]:
        """Return its cells, as a file lists a clue."""
        return {self.word: written(self.cells, grid)}

    def on(self, cells: Iterable[int]) -> Self:
        """Return the same marks in other cells."""
        return replace(self, cells=tuple(sorted(cells)))  # type: ignore[type-var]

    def moved(self, places: Sequence[int]) -> Self:
        """Return the marks elsewhere."""
        return self.on(places[cell] for cell in self.cells)

    def relabelled(self, digits: Sequence[int]) -> Parity | None:
        """Return the rule of the new digits, where these are all even or all odd and no others are."""
        changes = {(digit + other) % 2 for digit, other in enumerate(digits) if digit}
        return None if len(changes) > 1 else self.other() if changes == {1} else self


@dataclass(frozen=True, slots=True)
class Even(Parity):
    """Cells that hold even digits.

    Examples
    --------
    >>> mark = Even((0, 1))
    >>> mark.broken_in((2, 4, 1, 3)), mark.broken_in((1, 4, 2, 3)), mark.relabelled((0, 4, 3, 2, 1))
    ((), (0,), Odd(cells=(0, 1)))
    """

    word: ClassVar[str] = "even"
    rank: ClassVar[int] = 3
    rest: ClassVar[int] = 0

    cells: tuple[int, ...]

    def other(self) -> Odd:
        """Return that the cells are odd."""
        return Odd(self.cells)


@dataclass(frozen=True, slots=True)
class Odd(Parity):
    """Cells that hold odd digits.

    Examples
    --------
    >>> mark = Odd((0, 1))
    >>> mark.broken_in((3, 1, 2, 4)), mark.broken_in((1, 4, 2, 3)), mark.relabelled((0, 3, 2, 1))
    ((), (1,), Odd(cells=(0, 1)))
    """

    word: ClassVar[str] = "odd"
    rank: ClassVar[int] = 3
    rest: ClassVar[int] = 1

    cells: tuple[int, ...]

    def other(self) -> Even:
        """Return that the cells are even."""
        return Even(self.cells)

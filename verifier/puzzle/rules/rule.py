"""What a rule is: something that a filling obeys or not."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, ClassVar, Self

if TYPE_CHECKING:
    from verifier.puzzle.grid import Filling, Grid

__all__ = ["Rule", "is_complement", "is_same", "written"]


class Rule(ABC):
    """One rule of a puzzle: a frozen value that says all that can be said of it without solving.

    What else a layer must know of a rule - how a solver is told, what a person calls it, how it is drawn - is
    a function of that layer, registered by the rule's type in the layer's own table.

    Attributes
    ----------
    word : str
        What files and verdicts call rules of this class.
    rank : int
        Where rules of this class stand among those of a puzzle.
    differs, has_total : bool
        Whether no digit may stand in two of its cells, and whether its `figure` is what they add up to: what
        sets the sorts of cages apart.
    cells : tuple of int
        The cells that the rule speaks of, each once.
    """

    __slots__ = ()
    word: ClassVar[str]
    rank: ClassVar[int]
    differs: ClassVar[bool] = False
    has_total: ClassVar[bool] = False

    if TYPE_CHECKING:  # a property of this class would be taken for the default of a field of its own

        @property
        def cells(self) -> tuple[int, ...]:
            """The cells that the rule speaks of, each once."""

    @property
    def is_cage(self) -> bool:
        """Whether the rule is drawn as a cage: one with a total, without one, or with repeats."""
        return False

    @property
    def figure(self) -> int:
        """A number that tells rules of one class on the same cells apart, where there can be several."""
        return 0

    @abstractmethod
    def broken_in(self, filling: Filling) -> tuple[int, ...]:
        """Return the cells in which a filling breaks the rule; none where it is obeyed."""

    def holds(self, filling: Filling) -> bool:
        """Whether a filling obeys the rule."""
        return not self.broken_in(filling)

    @abstractmethod
    def called(self, grid: Grid) -> str:
        """Return what people call the rule, as part of a sentence."""

    @abstractmethod
    def record(self, grid: Grid) -> dict[str, Any]:
        """Return the rule as plain values, as a file or a report names it."""

    @abstractmethod
    def moved(self, places: Sequence[int]) -> Self:
        """Return the rule where each cell goes to another place.

        Parameters
        ----------
        places : sequence of int
            For each cell of the grid, the cell that it becomes.
        """

    @abstractmethod
    def relabelled(self, digits: Sequence[int]) -> Rule | None:
        """Return the rule where each digit becomes another; None where no such rule says the same.

        Parameters
        ----------
        digits : sequence of int
            For each digit, the digit that it becomes; the first entry, for 0, is 0.
        """


def is_complement(digits: Sequence[int]) -> bool:
    """Whether each digit ``d`` becomes ``n + 1 - d``.

    Examples
    --------
    >>> is_complement((0, 4, 3, 2, 1)), is_complement((0, 2, 1, 3, 4))
    (True, False)
    """
    return list(digits[1:]) == list(range(len(digits) - 1, 0, -1))


def is_same(digits: Sequence[int]) -> bool:
    """Whether each digit stays what it is.

    Examples
    --------
    >>> is_same((0, 1, 2, 3)), is_same((0, 3, 2, 1))
    (True, False)
    """
    return list(digits) == list(range(len(digits)))


def written(cells: Iterable[int], grid: Grid) -> str:
    """Return the names of cells in their order, as a file lists those of a clue: ``r1c2 r1c1``."""
    return " ".join(map(grid.cell_name, cells))

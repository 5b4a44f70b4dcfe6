"""What a puzzle is made of: houses, cages and sums over cells."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Cage", "House", "LinearSum"]


@dataclass(frozen=True, slots=True)
class House:
    """Cells that hold every digit once.

    Parameters
    ----------
    kind : str
        ``row``, ``column`` or ``box``.
    number : int
        Counted from 1; boxes in reading order.
    cells : tuple of int
        In reading order.

    Examples
    --------
    >>> House("row", 3, (18, 19, 20)).name
    'row 3'
    """

    kind: str
    number: int
    cells: tuple[int, ...]

    @property
    def name(self) -> str:
        """The name people use, such as ``row 3``."""
        return f"{self.kind} {self.number}"


@dataclass(frozen=True, slots=True)
class Cage:
    """Cells whose digits are all different and add up to `total`.

    Parameters
    ----------
    cells : tuple of int
        In reading order, each once.
    total : int
        What the digits add up to. A total that no digits can make is a fault that
        `verifier.puzzle.arithmetic` reports; the cage itself can be written down.
    """

    cells: tuple[int, ...]
    total: int


@dataclass(frozen=True, slots=True)
class LinearSum:
    """Whole-number weights on cells that add up to `total`.

    Parameters
    ----------
    weights : tuple of (int, int)
        Pairs of cell and weight, in reading order of the cells.
    total : int
        The sum of weight times digit over the cells.

    Examples
    --------
    >>> LinearSum(((0, 1), (9, -1)), 6).cells
    (0, 9)
    """

    weights: tuple[tuple[int, int], ...]
    total: int

    @property
    def cells(self) -> tuple[int, ...]:
        """The cells with a weight, in reading order."""
        return tuple(cell for cell, _ in self.weights)

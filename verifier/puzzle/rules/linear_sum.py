"""A sum over cells, each with its weight: what the rule of 45 comes to."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["LinearSum"]


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

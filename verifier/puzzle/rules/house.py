"""A house: cells that hold every digit once."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["House"]


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

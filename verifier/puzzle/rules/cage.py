"""A cage: cells with different digits and a total."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Cage"]


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

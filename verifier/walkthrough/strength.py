"""How strong the help is that is asked for."""

from __future__ import annotations

from enum import Enum

__all__ = ["Strength"]


class Strength(Enum):
    """How much is given away."""

    WHERE = "where"
    """Where to look."""
    WHAT = "what"
    """Also what follows there."""
    WHY = "why"
    """Also the reason."""

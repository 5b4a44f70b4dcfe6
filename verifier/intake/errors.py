"""What keeps a run from going on."""

from __future__ import annotations

__all__ = ["IntakeError"]


class IntakeError(Exception):
    """A run that cannot begin or go on; its text says to people why, and what to do."""

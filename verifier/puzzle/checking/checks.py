"""What a check says that was made of a puzzle."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Check"]


@dataclass(frozen=True, slots=True)
class Check:
    """One check that was made.

    Parameters
    ----------
    code : str
        Which check it is.
    passed : bool
        Whether the puzzle passes it.
    says : str
        The result in words; for a failure also how to put it right.
    """

    code: str
    passed: bool
    says: str

"""Why a submission is judged."""

from __future__ import annotations

from enum import Enum

__all__ = ["JudgingReason"]


class JudgingReason(Enum):
    """Why a submission is judged, in this run."""

    NEW = "new"
    """Not in the ledger, or never judged to the end."""
    CHANGED = "changed"
    """Not in the ledger, but something else that lay in the same place."""
    MOVED = "moved"
    """In another place, where the place stands in what is said of it: in faults, and in an id that is from
    the name of the file."""
    MADE_ANEW = "made anew"
    """The house style, or a version of what takes part in the verdict, has changed."""
    PROVISIONAL = "provisional"
    """A clock, a memory limit or a lost worker cut it short; or a mistake of ours did."""

"""The day of a run: it stands in the paths of letters, and beside what was scheduled or compared."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime

__all__ = ["today"]

_FIXED = "SOURCE_DATE_EPOCH"


def today() -> date:
    """Return today's day; the one that ``SOURCE_DATE_EPOCH`` says, where the same bytes are wanted again.

    The variable holds seconds since 1970 in UTC, as "SOURCE_DATE_EPOCH specification" 1.1 of the
    Reproducible Builds project has it. What is no such number is passed over.

    Examples
    --------
    >>> from unittest.mock import patch
    >>> with patch.dict(os.environ, {_FIXED: "1774828800"}):
    ...     print(today())
    2026-03-30
    """
    try:
        return datetime.fromtimestamp(int(os.environ[_FIXED]), UTC).date()
    except (KeyError, ValueError, OverflowError, OSError):
        return datetime.now().astimezone().date()

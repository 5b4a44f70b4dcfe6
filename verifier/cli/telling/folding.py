"""Text in lines that fit a terminal."""

from __future__ import annotations

import textwrap

__all__ = ["WIDTH", "folded"]

WIDTH = 100
"""Characters of a line."""


def folded(text: str) -> str:
    """Return text as one paragraph, in lines of `WIDTH`."""
    return textwrap.fill(" ".join(text.split()), WIDTH)

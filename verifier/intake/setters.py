"""Setters by their names."""

from __future__ import annotations

import unicodedata

__all__ = ["same_setter"]


def same_setter(name: str) -> str:
    """Return what is equal for one setter, however the name is written.

    Examples
    --------
    >>> same_setter("Wren  Alder") == same_setter(" WREN ALDER")
    True
    """
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())

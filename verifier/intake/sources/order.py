"""The order of addresses: numbers as numbers, the files of a folder together."""

from __future__ import annotations

import os
import re

__all__ = ["order_key"]

_FIGURES = re.compile(r"([0-9]+)")
_NUMBER_FOLLOWS = b"\x01"  # below every letter, so that "k" comes before "k2", and that before "ka"


def order_key(address: str) -> bytes:
    """Return bytes that sort as addresses do: ``k2`` before ``k10``.

    Bytes, because a database can sort them without knowing what they mean.

    Examples
    --------
    >>> sorted(["k10", "k2", "k2/b", "k2.yaml"], key=order_key)
    ['k2', 'k2/b', 'k2.yaml', 'k10']
    """
    folders = address.replace(os.sep, "\0")
    parts = _FIGURES.split(folders if os.sep == "/" else folders.replace("/", "\0"))
    return b"".join(_number(part) if place % 2 else _text(part) for place, part in enumerate(parts))


def _text(part: str) -> bytes:
    return part.encode("utf-8", "surrogateescape")


def _number(figures: str) -> bytes:
    significant = figures.lstrip("0").encode()
    return _NUMBER_FOLLOWS + len(significant).to_bytes(2, "big") + significant

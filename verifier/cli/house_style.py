"""The house style that ``--style`` names."""

from __future__ import annotations

from pathlib import Path

from verifier.cli import wording
from verifier.cli.telling.console import refuse
from verifier.verdict.style.style import PLAIN, HouseStyle

__all__ = ["read_style_or_refuse"]


def read_style_or_refuse(path: Path | None) -> HouseStyle:
    """Return the house style in a file, `PLAIN` without one; a file with faults ends the call."""
    if path is None:
        return PLAIN
    from verifier.verdict.style.reading import read_style

    style, faults = read_style(path)
    if style is None:
        refuse("\n".join([wording.STYLE_UNREADABLE, *map(str, faults)]))
    return style

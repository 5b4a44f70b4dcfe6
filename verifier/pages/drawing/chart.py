"""The strip chart: a solve as a whole, how hard each round is and how many places are open in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log2

from markupsafe import Markup

from verifier.pages.drawing.svg import element

__all__ = ["Bar", "strip_chart"]

_LEVELS, _PLACES = 62.0, 34.0
"""Height of the strip of tiers and of the strip of open places; a gap of 4 lies between them."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One round.

    Parameters
    ----------
    tier : int
        Of its technique.
    width : int
        How many places were open.
    label : str
        What it says when it is pointed at.
    steps : int
        Its share of the chart.
    """

    tier: int
    width: int
    label: str
    steps: int = 1


def strip_chart(bars: Sequence[Bar], tiers: int, label: str, break_in: int | None = None) -> Markup:
    """Return the chart as an ``svg`` element that fills whatever width it is given.

    Parameters
    ----------
    bars : sequence of Bar
        In order.
    tiers : int
        How many tiers there are.
    label : str
        What a screen reader says in its place.
    break_in : int, optional
        The step at which the puzzle gives way, counted from 1.
    """
    across = sum(bar.steps for bar in bars)
    most = log2(1 + max((bar.width for bar in bars), default=1))
    parts = [
        element("path", **{"class": "level"}, d=f"M0 {_level(tier, tiers):g}H{across}")
        for tier in range(1, tiers + 1)
    ]
    at = 0
    for bar in bars:
        parts.append(_bar(bar, at, tiers, most))
        at += bar.steps
    if break_in is not None:
        parts.append(element("path", **{"class": "break"}, d=f"M{break_in - 1} 0V100"))
    return element(
        "svg",
        Markup("").join(parts),
        viewBox=f"0 0 {across} 100",
        preserveAspectRatio="none",
        role="img",
        aria_label=label,
        **{"class": "strip"},
    )


def _level(tier: int, tiers: int) -> float:
    return round(_LEVELS * (1 - tier / tiers), 1)


def _bar(bar: Bar, at: int, tiers: int, most: float) -> Markup:
    top = _level(bar.tier, tiers)
    down = round(_PLACES * log2(1 + bar.width) / most, 1)
    return element(
        "g",
        element("title", bar.label)
        + element("rect", **{"class": "tier"}, x=at, y=top, width=bar.steps, height=_LEVELS - top)
        + element("rect", **{"class": "places"}, x=at, y=_LEVELS + 4, width=bar.steps, height=down),
    )

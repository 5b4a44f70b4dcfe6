"""The arrows of a chain: bent so that each can be told from the others, and hides no digit of the chain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist

from verifier.pages.drawing.look import CELL
from verifier.pages.drawing.outlines import Point
from verifier.pages.drawing.shapes import between

__all__ = ["Link", "Way", "arrows"]

_BENDS = (0.12, -0.12, 0.24, -0.24, 0.4, -0.4)
"""How far aside an arrow may bend, in parts of its length: to one side first, and rather less than more."""

_CLEAR = 1.1
"""As far from digits and other arrows as this, in sizes of the type, an arrow is clear of them."""

_SAMPLES = 12
"""Places of an arrow at which it is looked at."""


@dataclass(frozen=True, slots=True)
class Way:
    """From one candidate to the next, by the middles of their marks."""

    start: Point
    end: Point
    strong: bool


@dataclass(frozen=True, slots=True)
class Link:
    """A link of a chain, drawn as an arrow.

    Parameters
    ----------
    start, bend, end : Point
        From the one candidate to the other, and the point towards which it bends.
    strong : bool
        Whether it says "if this one is wrong, that one is right"; else "if this one is right, that one is
        wrong".
    """

    start: Point
    bend: Point
    end: Point
    strong: bool

    @property
    def path(self) -> str:
        """The data of its path."""
        return "M{:g} {:g}Q{:g} {:g} {:g} {:g}".format(*self.start, *self.bend, *self.end)

    def points(self) -> Iterator[Point]:
        """Yield places along it, without its ends."""
        for number in range(1, _SAMPLES):
            at = number / _SAMPLES
            yield (
                (1 - at) ** 2 * self.start[0] + 2 * at * (1 - at) * self.bend[0] + at**2 * self.end[0],
                (1 - at) ** 2 * self.start[1] + 2 * at * (1 - at) * self.bend[1] + at**2 * self.end[1],
            )


def arrows(ways: Sequence[Way], spots: Sequence[Point], size: float) -> tuple[Link, ...]:
    """Return an arrow for each way.

    Parameters
    ----------
    ways : sequence of Way
        In the order of the chain.
    spots : sequence of Point
        The middles of all marks of the chain.
    size : float
        Of their type.

    Examples
    --------
    >>> arrow, = arrows([Way((0, 0), (120, 0), True)], [(0, 0), (120, 0)], 10)
    >>> arrow.path
    'M6.8 -1.6Q60 -14.4 111.7 -2'
    >>> arrow, = arrows([Way((0, 0), (120, 0), True)], [(0, 0), (120, 0), (60, -8)], 10)
    >>> arrow.bend  # to the other side of the mark between
    (60.0, 14.4)
    """
    drawn: list[Link] = []
    for way in ways:
        others = [spot for spot in spots if spot not in (way.start, way.end)]
        others += [point for link in drawn for point in link.points()]
        bent = [_bent(way, size, bend) for bend in _BENDS]
        drawn.append(max(bent, key=lambda link: min(_CLEAR * size, _clearance(link, others))))
    return tuple(drawn)


def _clearance(link: Link, others: Sequence[Point]) -> float:
    return min((dist(point, other) for point in link.points() for other in others), default=float("inf"))


def _bent(way: Way, size: float, bend: float) -> Link:
    radius = 0.7 * size
    across, down = way.end[0] - way.start[0], way.end[1] - way.start[1]
    aside = bend * min(1.0, 4 * CELL / (dist(way.start, way.end) or 1.0))  # long arrows bend less
    towards = (
        round(way.start[0] + across / 2 + aside * down, 1),
        round(way.start[1] + down / 2 - aside * across, 1),
    )
    start, _ = between(way.start, towards, radius, 0)
    _, end = between(towards, way.end, 0, radius + 1.5)
    return Link(start, towards, end, way.strong)

"""What a rule of any kind leaves open in its cells: by trying, and for sums by the least and the most."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Protocol

from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.lines.arrow import Arrow
from verifier.puzzle.rules.lines.region_sum import RegionSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["SUMS", "Narrowing", "narrowings"]

_STEPS = 300
"""A rule that takes more digits written down, one after the other, has no say yet."""

SUMS: Mapping[type[Rule], Callable[[Any], Sequence[LinearSum]]] = {
    LinearSum: lambda rule: [rule],
    Arrow: lambda rule: [LinearSum(rule.weights, 0)],
    LittleKiller: lambda rule: [LinearSum(tuple((cell, 1) for cell in rule.cells), rule.total)],
    RegionSum: lambda rule: [_same_sum(*parts) for parts in pairwise(rule.parts)],
}
"""The sums that follow from rules which come down to some."""


def _same_sum(one: tuple[int, ...], other: tuple[int, ...]) -> LinearSum:
    return LinearSum((*((cell, 1) for cell in one), *((cell, -1) for cell in other)), 0)


class Narrowing(Protocol):
    """What makes the digits fewer that are open in some cells. Digits are bits of a mask."""

    @property
    def cells(self) -> tuple[int, ...]:
        """The cells."""

    def left(self, masks: tuple[int, ...]) -> tuple[int, ...]:
        """Return what is left of the masks of the cells; 0 for each where nothing is."""


def narrowings(rule: Rule, peers: Sequence[Sequence[int]]) -> Iterator[Narrowing]:
    """Yield all that a rule has to say, given the cells that differ from each cell."""
    yield from map(_Bounded, SUMS.get(type(rule), lambda _: [])(rule))
    yield _Tried(rule, peers)


@dataclass(frozen=True, slots=True)
class _Bounded:
    """A sum: no cell can have what the least and the most of the others do not allow."""

    sum: LinearSum

    @property
    def cells(self) -> tuple[int, ...]:
        """The cells of the sum."""
        return self.sum.cells

    def left(self, masks: tuple[int, ...]) -> tuple[int, ...]:
        weights = [weight for _, weight in self.sum.weights]
        made = [[weight * d for d in _bits(mask)] for weight, mask in zip(weights, masks, strict=True)]
        least, most = sum(map(min, made)), sum(map(max, made))
        return tuple(
            sum(
                1 << value // weight
                for value in values
                if least - min(values) + value <= self.sum.total <= most - max(values) + value
            )
            for weight, values in zip(weights, made, strict=True)
        )


class _Tried:
    """A rule, tried with every arrangement in which cells that see each other differ."""

    def __init__(self, rule: Rule, peers: Sequence[Sequence[int]]) -> None:
        self.rule, self.cells, self.peers = rule, rule.cells, peers
        self.known: dict[tuple[int, ...], tuple[int, ...]] = {}

    def left(self, masks: tuple[int, ...]) -> tuple[int, ...]:
        if masks not in self.known:
            self.known[masks] = _Trial(self, masks).left()
        return self.known[masks]


class _Trial:
    """All arrangements of a rule with some digits open, one after the other."""

    def __init__(self, tried: _Tried, masks: tuple[int, ...]) -> None:
        self.rule, self.masks = tried.rule, masks
        self.open = dict(zip(tried.cells, masks, strict=True))
        self.order = sorted(tried.cells, key=lambda cell: self.open[cell].bit_count())
        self.before = [
            [other for other in self.order[:place] if other in tried.peers[cell]]
            for place, cell in enumerate(self.order)
        ]
        self.filling = [0] * len(tried.peers)
        self.found = dict.fromkeys(tried.cells, 0)
        self.steps = 0

    def left(self) -> tuple[int, ...]:
        """Return the digits that an arrangement has in each cell; all that are open if there are too many."""
        return self.masks if self._ends_early(0) else tuple(self.found.values())

    def _ends_early(self, place: int) -> bool:
        """Go through all arrangements from a place on; whether no more need be looked at."""
        if place == len(self.order):
            if self.rule.holds(tuple(self.filling)):
                for cell in self.order:
                    self.found[cell] |= 1 << self.filling[cell]
            return self.found == self.open
        cell = self.order[place]
        mask = self.open[cell]
        for other in self.before[place]:
            mask &= ~(1 << self.filling[other])
        for digit in _bits(mask):
            self.steps += 1
            self.filling[cell] = digit
            if self.steps > _STEPS or self._ends_early(place + 1):
                return True
        return False


def _bits(mask: int) -> list[int]:
    return [digit for digit in range(mask.bit_length()) if mask >> digit & 1]

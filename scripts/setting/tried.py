"""What a rule of any kind leaves open in its cells: by trying, and for sums by the least and the most."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import prod
from typing import Any, Protocol

from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["SUMS", "Narrowing", "narrowings"]

_TRIED = 1500
"""Where a rule has more arrangements than this, it has no say yet."""

SUMS: Mapping[type[Rule], Callable[[Any], Sequence[LinearSum]]] = {
    LinearSum: lambda rule: [rule],
}
"""The sums that follow from rules which come down to some."""


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
        self.rule, self.cells, self.grid_size = rule, rule.cells, len(peers)
        places = range(len(self.cells))
        self.seen = [
            [n for n in places[:place] if self.cells[n] in peers[self.cells[place]]] for place in places
        ]
        self.known: dict[tuple[int, ...], tuple[int, ...]] = {}

    def left(self, masks: tuple[int, ...]) -> tuple[int, ...]:
        if masks not in self.known:
            at_least = prod(max(1, m.bit_count() - len(s)) for m, s in zip(masks, self.seen, strict=True))
            self.known[masks] = self._tried(masks) if at_least <= _TRIED else masks
        return self.known[masks]

    def _tried(self, masks: tuple[int, ...]) -> tuple[int, ...]:
        filling, left = [0] * self.grid_size, [0] * len(masks)
        for number, digits in enumerate(_arrangements(masks, self.seen, ())):
            if number == _TRIED:
                return masks
            for cell, digit in zip(self.cells, digits, strict=True):
                filling[cell] = digit
            if self.rule.holds(tuple(filling)):
                left = [mask | 1 << digit for mask, digit in zip(left, digits, strict=True)]
        return tuple(left)


def _arrangements(
    masks: Sequence[int], seen: Sequence[Sequence[int]], so_far: tuple[int, ...]
) -> Iterator[tuple[int, ...]]:
    place = len(so_far)
    if place == len(masks):
        yield so_far
        return
    for digit in _bits(masks[place]):
        if all(so_far[other] != digit for other in seen[place]):
            yield from _arrangements(masks, seen, (*so_far, digit))


def _bits(mask: int) -> list[int]:
    return [digit for digit in range(mask.bit_length()) if mask >> digit & 1]

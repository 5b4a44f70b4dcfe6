"""Chance with a fixed seed, by `Random.random` alone: Python keeps its numbers from version to version."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from random import Random
from typing import TypeVar

__all__ = ["pick_weighted", "shuffled"]

T = TypeVar("T")


def shuffled(items: Iterable[T], rng: Random) -> list[T]:
    """Return the items in a random order.

    Examples
    --------
    >>> sorted(shuffled("abc", Random(1)))
    ['a', 'b', 'c']
    """
    return sorted(items, key=lambda _: rng.random())


def pick_weighted(weights: Mapping[T, float], rng: Random) -> T:
    """Return a key, each as often as its weight says.

    Examples
    --------
    >>> pick_weighted({2: 0.0, 3: 1.0}, Random(1))
    3
    """
    keys = list(weights)
    left = rng.random() * sum(weights.values())
    while left >= weights[keys[0]] and len(keys) > 1:
        left -= weights[keys.pop(0)]
    return keys[0]

"""What the digits of one cell leave for another by rules over pairs of cells."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from grader.board.layout import Layout
from verifier.puzzle.masks import mask_of
from verifier.puzzle.rules.pair_rule import PairRule

__all__ = ["Fit", "bar", "barred_from", "fits_of", "has_own_houses", "mirrors_of", "partners_of"]


class Fit(NamedTuple):
    """A rule over two cells, seen from one of them.

    Parameters
    ----------
    rule : int
        Its number in the layout.
    left : tuple of int
        For each digit of the one cell, the mask of those that fit in the other; the first is for none.
    """

    rule: int
    left: tuple[int, ...]


@lru_cache(maxsize=8)
def fits_of(layout: Layout) -> Mapping[tuple[int, int], tuple[Fit, ...]]:
    """Return, for each two cells of a rule over pairs, what each digit of the first leaves for the second."""
    digits = range(1, layout.grid.digits + 1)
    found: dict[tuple[int, int], tuple[Fit, ...]] = defaultdict(tuple)
    for number, rule in enumerate(layout.rules):
        if not isinstance(rule, PairRule):
            continue
        there = (0, *(mask_of(d for d in digits if rule.fits(own, d)) for own in digits))
        back = (0, *(mask_of(d for d in digits if rule.fits(d, own)) for own in digits))
        for one, other in rule.pairs:
            found[one, other] += (Fit(number, there),)
            found[other, one] += (Fit(number, back),)
    return dict(found)


@lru_cache(maxsize=8)
def barred_from(layout: Layout) -> tuple[tuple[tuple[int, Fit], ...], ...]:
    """Return, for each cell, the others that share a rule over pairs with it, each with what is left for it.

    Empty where there is no such rule.
    """
    found: list[list[tuple[int, Fit]]] = [[] for _ in range(layout.grid.cell_count)]
    for (one, other), fits in fits_of(layout).items():
        found[one] += [(other, fit) for fit in fits]
    return tuple(tuple(own) for own in found) if any(found) else ()


def bar(layout: Layout, cell: int, held: int, other: int, digit: int) -> int | None:
    """Return a rule over pairs by which a digit held by one cell bars another digit from the other cell."""
    for fit in fits_of(layout).get((cell, other), ()):
        if not fit.left[held] >> digit & 1:
            return fit.rule
    return None


@lru_cache(maxsize=8)
def partners_of(layout: Layout) -> tuple[int, ...]:
    """Return, for each cell, the mask of the cells that share a rule over pairs with it."""
    masks = [0] * layout.grid.cell_count
    for one, other in fits_of(layout):
        masks[one] |= 1 << other
    return tuple(masks)


@lru_cache(maxsize=8)
def mirrors_of(layout: Layout) -> Mapping[int, tuple[tuple[int, int], ...]]:
    """Return, for each cell, those that hold its digit by a rule over pairs, each with the rule's number."""
    found: dict[int, tuple[tuple[int, int], ...]] = defaultdict(tuple)
    for (one, other), fits in fits_of(layout).items():
        for fit in fits:
            if all(left == 1 << digit for digit, left in enumerate(fit.left) if digit):
                found[one] += ((other, fit.rule),)
    return dict(found)


def has_own_houses(layout: Layout) -> bool:
    """Whether there are houses beside rows, columns and boxes of one size."""
    return layout.houses != layout.grid.houses

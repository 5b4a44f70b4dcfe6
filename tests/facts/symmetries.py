"""The symmetries of a small grid, found by closure, and what they save a test."""

from __future__ import annotations

from collections.abc import Iterable

from verifier.puzzle.grid import Filling, Grid

__all__ = ["cell_symmetries", "orbits_of_subsets", "relabelled"]

Symmetry = tuple[int, ...]
"""For each cell, the cell that takes its place."""


def cell_symmetries(grid: Grid) -> tuple[Symmetry, ...]:
    """Return every reordering of the cells that takes houses to houses, for a grid of square boxes.

    They come from exchanging two lines of a band, two bands, or rows and columns, over and over.
    """
    size, height = grid.rows, grid.box_rows
    swaps = [_swapped(size, [(line, line + 1)]) for line in range(size) if (line + 1) % height]
    swaps += [
        _swapped(size, [(top + i, top + height + i) for i in range(height)])
        for top in range(0, size - height, height)
    ]
    generators = [tuple(order[r] * size + c for r in range(size) for c in range(size)) for order in swaps]
    generators.append(tuple(c * size + r for r in range(size) for c in range(size)))
    return _closure(generators)


def relabelled(filling: Filling) -> Filling:
    """Return the filling with its digits renamed in order of appearance."""
    names: dict[int, int] = {}
    return tuple(names.setdefault(digit, len(names) + 1) for digit in filling)


def orbits_of_subsets(cells: int, symmetries: Iterable[Symmetry]) -> list[tuple[int, int]]:
    """Return one subset (as a bit mask) of every orbit of subsets of the cells, with the orbit's size."""
    low = cells // 2
    tables = [
        (
            [_moved(mask, s) for mask in range(1 << low)],
            [_moved(m << low, s) for m in range(1 << (cells - low))],
        )
        for s in symmetries
    ]
    seen = bytearray(1 << cells)
    orbits = []
    for mask in range(1 << cells):
        if not seen[mask]:
            orbit = {lower[mask & ((1 << low) - 1)] | upper[mask >> low] for lower, upper in tables}
            for image in orbit:
                seen[image] = 1
            orbits.append((mask, len(orbit)))
    return orbits


def _swapped(size: int, pairs: Iterable[tuple[int, int]]) -> list[int]:
    order = list(range(size))
    for one, other in pairs:
        order[one], order[other] = order[other], order[one]
    return order


def _closure(generators: list[Symmetry]) -> tuple[Symmetry, ...]:
    found = set(generators)
    fresh = list(found)
    while fresh:
        products = {tuple(one[cell] for cell in other) for one in fresh for other in generators}
        fresh = list(products - found)
        found |= products
    return tuple(sorted(found))


def _moved(mask: int, symmetry: Symmetry) -> int:
    return sum(1 << symmetry[cell] for cell in range(mask.bit_length()) if mask >> cell & 1)

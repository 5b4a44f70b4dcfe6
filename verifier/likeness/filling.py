"""The key of a full grid: equal for full grids that are the same one in disguise, digits renamed or not.

It finds a solution that is used again under new cages.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from verifier.likeness.labelling import ColouredGraph, canonical_image
from verifier.likeness.structure import hashed
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle

__all__ = ["filling_key"]

_Signature = tuple[tuple[int, ...], ...]
"""What can be seen of a line or a digit without any name: see `_signatures`."""


def filling_key(puzzle: Puzzle, filling: Filling) -> str:
    """Return a key that is equal for full grids that are the same one in disguise, and for no others.

    Parameters
    ----------
    puzzle : Puzzle
        Its grid, and its boxes if it has any, are looked at; no other rule makes a difference.
    filling : Filling
        A solution.

    Notes
    -----
    The graph has a corner for each cell, row, column, box and digit. Where the lines hold every digit all
    cells look alike, so lines and digits get colours to begin with: two lines of one direction are a
    permutation of the digits, two digits are a permutation of the lines, and the lengths of its cycles are
    the same however lines and digits are ordered or named.

    Examples
    --------
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> puzzle = make_puzzle("classic", Grid.square(4))
    >>> one = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> renamed = tuple(5 - digit for digit in one)
    >>> filling_key(puzzle, one) == filling_key(puzzle, renamed)
    True
    """
    grid = puzzle.grid
    lines = [house.cells for house in grid.houses if house.kind != "box"]
    boxes = [house.cells for house in puzzle.houses if house.kind == "box"]
    labels: list[tuple[str, _Signature]] = [("cell", ())] * grid.cell_count
    for cell in grid.blocked:
        labels[cell] = ("blocked", ())
    if {line.cells for line in puzzle.full_houses}.issuperset(lines):
        usual = set(boxes) == {house.cells for house in grid.houses if house.kind == "box"}
        labels += [("line", signature) for signature in _line_signatures(grid, filling, in_bands=usual)]
        digits = list(_digit_signatures(grid, filling))
    else:
        labels += [("line", ())] * len(lines)
        digits = [()] * grid.digits
    labels += [("box", ())] * len(boxes)
    labels += [("digit", signature) for signature in digits]
    meaning = sorted(set(labels))
    number = {label: place for place, label in enumerate(meaning)}
    colours = [number[label] for label in labels]
    image = canonical_image(ColouredGraph.of(colours, _edges(grid, [*lines, *boxes], filling)))
    return hashed("filling", (grid.digits, [(label, labels.count(label)) for label in meaning], image))


def _edges(grid: Grid, groups: Sequence[tuple[int, ...]], filling: Filling) -> Iterator[tuple[int, int]]:
    for place, cells in enumerate(groups):
        yield from ((grid.cell_count + place, cell) for cell in cells)
    first_digit = grid.cell_count + len(groups) - 1
    yield from ((first_digit + filling[cell], cell) for cell in grid.cells)


def _line_signatures(grid: Grid, filling: Filling, *, in_bands: bool) -> Iterator[_Signature]:
    """Yield what each row, then each column, looks like beside the others of its kind."""
    for kind, band in (("row", grid.box_rows), ("column", grid.box_columns)):
        lines = [[filling[cell] for cell in house.cells] for house in grid.houses if house.kind == kind]
        below = {
            (one, other): dict(zip(lines[one], lines[other], strict=True))
            for one, other in combinations(range(len(lines)), 2)
        }
        yield from _signatures(len(lines), below, band if in_bands and band else 1)


def _digit_signatures(grid: Grid, filling: Filling) -> Iterator[_Signature]:
    """Yield what each digit looks like beside the others: along a row to the other, along a column back."""
    row_of: list[dict[int, int]] = [{} for _ in range(grid.digits)]
    column_of: list[dict[int, int]] = [{} for _ in range(grid.digits)]
    for cell, digit in enumerate(filling):
        row, column = divmod(cell, grid.columns)
        column_of[digit - 1][row] = column
        row_of[digit - 1][column] = row
    there_and_back = {
        (one, other): {row: row_of[one][column] for row, column in column_of[other].items()}
        for one, other in combinations(range(grid.digits), 2)
    }
    yield from _signatures(grid.digits, there_and_back, 1)


def _signatures(
    count: int, permutations: Mapping[tuple[int, int], Mapping[int, int]], band: int
) -> list[_Signature]:
    """Return for each of several things what its permutations with the others look like, in no order.

    A permutation and its inverse have the same cycles, so each pair is looked at once. Two of one band are
    told from two others.
    """
    seen: list[list[tuple[int, ...]]] = [[] for _ in range(count)]
    for (one, other), permutation in permutations.items():
        cycles = (int(one // band == other // band), *_cycles(permutation))
        seen[one].append(cycles)
        seen[other].append(cycles)
    return [tuple(sorted(cycles)) for cycles in seen]


def _cycles(permutation: Mapping[int, int]) -> list[int]:
    """Return the lengths of the cycles of a permutation, shortest first.

    Examples
    --------
    >>> _cycles({1: 2, 2: 1, 3: 3})
    [1, 2]
    """
    left = set(permutation)
    lengths = []
    while left:
        start = here = left.pop()
        length = 1
        while (here := permutation[here]) != start:
            left.discard(here)
            length += 1
        lengths.append(length)
    return sorted(lengths)

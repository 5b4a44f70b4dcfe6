"""Several solutions: where they differ, and how the differences fall into groups.

Two swing cells belong together when the digits of one say something about the digits of the other. What is
linked in this way, directly or by others, is a group: it can be filled in so many ways, whatever the other
groups hold.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import combinations
from math import prod

import networkx as nx

from verifier.puzzle.grid import Filling
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.tally import Stop, Tally

__all__ = ["Figure", "SwingGroup", "groups_of", "most_different", "swing_cells"]


class Figure(Enum):
    """What a group looks like."""

    RECTANGLE = "swing rectangle"
    """Two rows, two columns, two boxes, and two digits that can change places."""
    LOOP = "swing loop"
    """A longer round of cells with the same two digits: each house has two of them, or none."""
    PAIR = "pair of digits"
    """Two digits that can change places, in some other arrangement."""
    OTHER = "other"
    """Anything else."""


@dataclass(frozen=True, slots=True)
class SwingGroup:
    """Cells that can be filled in several ways together, whatever the other groups hold.

    Parameters
    ----------
    cells : tuple of int
        In reading order.
    fillings : tuple of tuple of int
        Each way of filling them, in the order of the cells; smallest first.
    figure : Figure
        What the group looks like.
    """

    cells: tuple[int, ...]
    fillings: tuple[tuple[int, ...], ...]
    figure: Figure


def swing_cells(solutions: Sequence[Filling]) -> tuple[int, ...]:
    """Return the cells in which some of the solutions differ."""
    return Tally("", tuple(solutions), Stop.ASKED).swing_cells


def groups_of(puzzle: Puzzle, solutions: Sequence[Filling]) -> tuple[SwingGroup, ...]:
    """Return the groups into which the swing cells of all solutions fall.

    Parameters
    ----------
    puzzle : Puzzle
        For its houses.
    solutions : sequence of Filling
        All of them, at least two.

    Returns
    -------
    tuple of SwingGroup
        In the order of their first cells. The numbers of their fillings multiply to the number of
        solutions.

    Notes
    -----
    Own derivation. The cells are the corners of a graph, with an edge where two cells together take fewer
    pairs of digits than each digit of one with each of the other. Its connected components can depend on
    each other only by three or more at a time; where the product shows that they do, they are taken
    together. The groups are the same for a turned or reordered puzzle.

    Examples
    --------
    >>> from verifier.puzzle.grid import Grid
    >>> from verifier.puzzle.puzzle import make_puzzle
    >>> one = (1, 2, 3, 4, 3, 4, 1, 2, 2, 1, 4, 3, 4, 3, 2, 1)
    >>> other = (1, 2, 3, 4, 3, 4, 1, 2, 2, 3, 4, 1, 4, 1, 2, 3)
    >>> group, = groups_of(make_puzzle("classic", Grid.square(4)), [one, other])
    >>> group.cells, group.fillings, group.figure.value
    ((9, 11, 13, 15), ((1, 3, 3, 1), (3, 1, 1, 3)), 'swing rectangle')
    """
    graph: nx.Graph[int] = nx.Graph()
    cells = swing_cells(solutions)
    graph.add_nodes_from(cells)
    columns = {cell: tuple(filling[cell] for filling in solutions) for cell in cells}
    ways = {cell: len(set(digits)) for cell, digits in columns.items()}
    for one, other in combinations(cells, 2):
        if len(set(zip(columns[one], columns[other], strict=True))) < ways[one] * ways[other]:
            graph.add_edge(one, other)
    components = sorted(tuple(sorted(component)) for component in nx.connected_components(graph))
    if prod(len(_ways(component, solutions)) for component in components) != len(solutions):
        components = [cells]
    return tuple(_group(puzzle, component, solutions) for component in components)


def _ways(cells: tuple[int, ...], solutions: Sequence[Filling]) -> set[tuple[int, ...]]:
    return {tuple(filling[cell] for cell in cells) for filling in solutions}


def _group(puzzle: Puzzle, cells: tuple[int, ...], solutions: Sequence[Filling]) -> SwingGroup:
    fillings = tuple(sorted(_ways(cells, solutions)))
    return SwingGroup(cells, fillings, _figure(puzzle, cells, fillings))


def _figure(puzzle: Puzzle, cells: tuple[int, ...], fillings: tuple[tuple[int, ...], ...]) -> Figure:
    """Say what a group looks like."""
    if len(fillings) != 2 or len({*fillings[0], *fillings[1]}) != 2:
        return Figure.OTHER
    inside = set(cells)
    if any(len(inside & set(house.cells)) not in (0, 2) for house in puzzle.full_houses):
        return Figure.PAIR
    return Figure.RECTANGLE if len(cells) == 4 else Figure.LOOP


def most_different(solutions: Sequence[Filling], digits: int) -> tuple[Filling, Filling]:
    """Return two solutions that differ in the most cells; of several such pairs the smallest.

    Parameters
    ----------
    solutions : sequence of Filling
        At least two.
    digits : int
        The largest digit of the grid.

    Examples
    --------
    >>> most_different([(1, 2, 3), (1, 3, 2), (2, 3, 1)], 3)
    ((1, 2, 3), (2, 3, 1))
    """
    ordered = sorted(solutions)
    # One bit for each digit of each swing cell: two solutions agree in as many of them as they share bits.
    swing = list(enumerate(swing_cells(ordered)))
    bits = [sum(1 << place * digits + s[cell] - 1 for place, cell in swing) for s in ordered]
    agreeing = ((bits[i] & bits[j]).bit_count() for i, j in combinations(range(len(bits)), 2))
    _, one, other = min(
        (same, i, j) for same, (i, j) in zip(agreeing, combinations(range(len(bits)), 2), strict=True)
    )
    return ordered[one], ordered[other]

"""Clues at the edge of a full grid: all that could stand there, and some of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from random import Random

from scripts.setting.chance import shuffled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.edge.little_killer import LittleKiller
from verifier.puzzle.rules.edge.sandwich import Sandwich
from verifier.puzzle.rules.edge.skyscraper import Skyscraper
from verifier.puzzle.rules.rule import Rule

__all__ = ["EDGE", "diagonals", "draw_edge"]

_SHORTEST = 3
"""Cells of a diagonal that is worth a clue."""


def _lines(grid: Grid) -> Iterator[tuple[int, ...]]:
    return (house.cells for house in grid.houses if house.kind in ("row", "column"))


def diagonals(grid: Grid) -> Iterator[tuple[int, ...]]:
    """Yield every diagonal from edge to edge, once from each end.

    Examples
    --------
    >>> sorted(diagonals(Grid.square(4)))[:3]
    [(0, 5, 10, 15), (1, 6, 11), (2, 5, 8)]
    """
    for cell in grid.cells:
        for down in (-1, 1):
            for across in (-1, 1):
                row, column = divmod(cell, grid.columns)
                if 0 <= row - down < grid.rows and 0 <= column - across < grid.columns:
                    continue  # it begins before this cell
                cells = []
                while 0 <= row < grid.rows and 0 <= column < grid.columns:
                    cells.append(row * grid.columns + column)
                    row, column = row + down, column + across
                if len(cells) >= _SHORTEST:
                    yield tuple(cells)


def _sandwich(grid: Grid, filling: Filling) -> Iterator[Rule]:
    for cells in _lines(grid):
        digits = [filling[cell] for cell in cells]
        first, last = sorted((digits.index(1), digits.index(max(digits))))
        yield Sandwich(cells, sum(digits[first + 1 : last]))


def _skyscraper(grid: Grid, filling: Filling) -> Iterator[Rule]:
    for line in _lines(grid):
        for cells in (line, line[::-1]):
            yield Skyscraper(cells, len(Skyscraper(cells, 0).seen(filling)))


def _little_killer(grid: Grid, filling: Filling) -> Iterator[Rule]:
    return (LittleKiller(cells, sum(filling[cell] for cell in cells)) for cells in diagonals(grid))


EDGE: Mapping[str, Callable[[Grid, Filling], Iterator[Rule]]] = {
    "sandwich": _sandwich,
    "skyscraper": _skyscraper,
    "little_killer": _little_killer,
}
"""What yields all clues that hold, by the word that files have for the kind."""


def draw_edge(word: str, puzzle: Puzzle, filling: Filling, rng: Random, count: int) -> Iterator[Rule]:
    """Yield so many clues of a kind that hold in a filling, no two about the same cells the same way."""
    seen = set[frozenset[int] | tuple[int, ...]]()
    for clue in shuffled(EDGE[word](puzzle.grid, filling), rng):
        cells = clue.cells if type(clue) is Skyscraper else frozenset(clue.cells)
        if cells not in seen and len(seen) < count:
            seen.add(cells)
            yield clue

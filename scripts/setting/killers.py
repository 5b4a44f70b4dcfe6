"""Random killers with exactly one solution."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random

from scripts.setting.cages import draw_cages, totalled
from scripts.setting.chance import shuffled
from scripts.setting.grids import full_grid
from scripts.setting.plain import Exhausted, find_solutions
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside, in_one_piece
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["Draft", "draw_killer"]

_TRIES = 3000
"""Tries of the plain search before a draft counts as too loose and one of its cages is cut."""


@dataclass(frozen=True, slots=True)
class Draft:
    """How a killer is drawn.

    Parameters
    ----------
    seed : int
        The same seed gives the same killer.
    sizes : mapping of int to float
        How often each number of cells in a cage is aimed at.
    bare : float
        Share of the cages that are left out.
    givens : int
        Givens to begin with.
    """

    seed: int
    sizes: Mapping[int, float]
    bare: float = 0.0
    givens: int = 0


def draw_killer(grid: Grid, draft: Draft) -> tuple[Puzzle, Filling]:
    """Draw a killer and mend it until the plain search finds one solution and no other.

    A draft that has others is mended where they differ: a cage is cut in two, or a bare cell is given.

    Examples
    --------
    >>> from scripts.setting.plain import plain_count
    >>> puzzle, filling = draw_killer(Grid.square(4), Draft(1, {2: 1, 3: 1}))
    >>> plain_count(puzzle), len(filling)
    (1, 16)
    """
    rng = Random(draft.seed)
    filling = full_grid(grid, rng)
    cages = draw_cages(grid, filling, draft.sizes, rng)
    cages = sorted(shuffled(cages, rng)[round(draft.bare * len(cages)) :], key=lambda cage: cage.cells)
    givens = {cell: filling[cell] for cell in shuffled(range(grid.cell_count), rng)[: draft.givens]}
    while True:
        puzzle = make_puzzle("killer", grid, cages=cages, givens=givens)
        doubtful = _doubtful_cells(puzzle, filling)
        if not doubtful:
            return puzzle, filling
        cell = shuffled(doubtful, rng)[0]
        if not _cut(grid, filling, cages, cell, rng):
            givens[cell] = filling[cell]


def _doubtful_cells(puzzle: Puzzle, filling: Filling) -> list[int]:
    """Return the cells in which another solution differs, or those of the largest cages if none is found."""
    try:
        other = next((found for found in find_solutions(puzzle, _TRIES) if found != filling), None)
    except Exhausted:
        largest = max(len(cage.cells) for cage in puzzle.cages)
        return [cell for cage in puzzle.cages if len(cage.cells) == largest for cell in cage.cells]
    return [] if other is None else [c for c, digit in enumerate(other) if digit != filling[c]]


def _cut(grid: Grid, filling: Filling, cages: list[Cage], cell: int, rng: Random) -> bool:
    """Cut the cage of a cell into two pieces of at least two cells; say whether it could be done."""
    cage = next((c for c in cages if cell in c.cells), None)
    if cage is None or len(cage.cells) < 4:
        return False
    piece = [cell]
    while len(piece) < len(cage.cells) // 2:
        edge = {n for c in piece for n in beside(grid, c) if n in cage.cells} - set(piece)
        piece.append(shuffled(sorted(edge), rng)[0])
    rest = [c for c in cage.cells if c not in piece]
    if not in_one_piece(grid, rest):
        return False
    cages.remove(cage)
    cages.extend(totalled([piece, rest], filling))
    return True

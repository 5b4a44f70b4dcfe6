"""Random classics with signs between neighbours, and such a puzzle with a sign turned round."""

from __future__ import annotations

from random import Random

from scripts.setting.broken import Broken
from scripts.setting.chance import shuffled
from scripts.setting.grids import full_grid
from scripts.setting.plain import count_within
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle, make_puzzle, rules_of
from verifier.puzzle.rules.marks.greater import Greater

__all__ = ["draw_signs", "turned_sign"]


def draw_signs(grid: Grid, seed: int, share: float, *, tries: int = 300) -> tuple[Puzzle, Filling]:
    """Draw a classic with signs at a share of all borders, and with no more givens than it takes.

    Examples
    --------
    >>> puzzle, _ = draw_signs(Grid.square(4), 1, 0.5)
    >>> len(rules_of(puzzle.rules, Greater)), count_within(puzzle, 300)
    (12, 1)
    """
    rng = Random(seed)
    filling = full_grid(grid, rng)
    borders = [(a, b) for a in grid.cells for b in beside(grid, a) if filling[a] > filling[b]]
    signs = [Greater(border) for border in shuffled(borders, rng)[: round(share * len(borders))]]
    left = dict(enumerate(filling))
    for cell in shuffled(grid.cells, rng):
        fewer = {c: digit for c, digit in left.items() if c != cell}
        if count_within(make_puzzle("classic", grid, givens=fewer, clues=signs), tries) == 1:
            left = fewer
    return make_puzzle("classic", grid, givens=left, clues=signs), filling


def turned_sign(puzzle: Puzzle, seed: int) -> Broken:
    """Turn one sign round, so that nothing is left."""
    for sign in shuffled(rules_of(puzzle.rules, Greater), Random(seed)):
        broken = puzzle.changed([sign], [Greater(sign.cells[::-1])])
        if count_within(broken, 20_000) == 0:
            cells = puzzle.grid.cell_names(sign.cells)
            return Broken(broken, f"the sign between {cells} was turned round", ("no-solution",))
    raise ValueError("no sign that leaves nothing when it is turned: take another seed")

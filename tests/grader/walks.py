"""Puzzles to walk through, and what can be said of every walk."""

from __future__ import annotations

from functools import cache

from hypothesis import strategies as st

from grader.walking.walk import Walk, walk
from tests.reference import load, puzzle_of
from tests.strategies import fillings, killers
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle

__all__ = ["SMALL", "classics", "reference_walk", "small_puzzles", "some_walks"]

SMALL = st.sampled_from([Grid.square(4), Grid.square(6), Grid.square(6, (3, 2))])


@st.composite
def classics(draw: st.DrawFn, grid: Grid) -> Puzzle:
    """A classic that has a solution, with more or fewer givens than it needs."""
    filling: Filling = draw(fillings(grid))
    order = draw(st.permutations(range(grid.cell_count)))
    count = draw(st.integers(grid.cell_count // 5, grid.cell_count // 2))
    return make_puzzle("classic", grid, givens={cell: filling[cell] for cell in order[:count]})


@st.composite
def small_puzzles(draw: st.DrawFn) -> Puzzle:
    """A small classic or killer; it may have any number of solutions."""
    grid = draw(SMALL)
    return draw(st.one_of(classics(grid), killers(grid)))


@cache
def reference_walk(name: str, number: int) -> Walk:
    """The walk through one puzzle of the reference data that has one solution."""
    records = [record for record in load(name) if record["solutions"] == 1]
    return walk(puzzle_of(records[number]))


def some_walks() -> list[Walk]:
    """Walks through whole 9x9 puzzles: killers from easy to hard, and classics that need chains."""
    picked = [("generated", 1), ("generated", 6), ("killer", 1), ("killer", 2)]
    return [reference_walk(*one) for one in [*picked, ("classic_hard", 2), ("classic_hard", 4)]]

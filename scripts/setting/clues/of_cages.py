"""Cages that hold in a full grid: with totals, without, and with digits that repeat."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import islice
from random import Random

from scripts.setting.cages import draw_cages
from scripts.setting.chance import shuffled
from scripts.setting.clues.walks import walks
from verifier.puzzle.grid import Filling
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle
from verifier.puzzle.rules.different import Different
from verifier.puzzle.rules.linear_sum import LinearSum
from verifier.puzzle.rules.rule import Rule

__all__ = ["CAGES", "draw_some_cages"]

_SIZES = {2: 2.0, 3: 3.0, 4: 1.0}


def _with_totals(puzzle: Puzzle, filling: Filling, rng: Random) -> Iterator[Rule]:
    yield from shuffled(draw_cages(puzzle.grid, filling, _SIZES, rng), rng)


def _without_totals(puzzle: Puzzle, filling: Filling, rng: Random) -> Iterator[Rule]:
    """Yield cages of which every other one has no total."""
    for number, cage in enumerate(_with_totals(puzzle, filling, rng)):
        yield Different(cage.cells) if number % 2 else cage


def _with_repeats(puzzle: Puzzle, filling: Filling, rng: Random) -> Iterator[Rule]:
    """Yield cages in which a digit does stand twice."""
    used: set[int] = set()

    def goes_on(walk: Sequence[int], cell: int) -> bool:
        return cell not in used and (not walk or cell in beside(puzzle.grid, walk[-1]))

    for size in (3, 4) * puzzle.grid.digits:
        for walk in walks(puzzle.grid, size, rng, goes_on):
            digits = [filling[cell] for cell in walk]
            if len(set(digits)) < size:
                used |= set(walk)
                yield LinearSum(tuple((cell, 1) for cell in sorted(walk)), sum(digits))
                break


CAGES: Mapping[str, Callable[[Puzzle, Filling, Random], Iterator[Rule]]] = {
    "cages": _with_totals,
    "cages without total": _without_totals,
    "cages with repeats": _with_repeats,
}
"""What yields cages of each kind."""


def draw_some_cages(word: str, puzzle: Puzzle, filling: Filling, rng: Random, count: int) -> Iterator[Rule]:
    """Yield so many cages of a kind."""
    return islice(CAGES[word](puzzle, filling, rng), count)

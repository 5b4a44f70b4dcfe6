"""Faults that only a search finds: two solutions, many, or none."""

from __future__ import annotations

from random import Random

from scripts.setting.broken import Broken, clashes, loose_cages, named, sets_of, with_givens, with_total
from scripts.setting.chance import shuffled
from scripts.setting.plain import count_within
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.given import Given

__all__ = ["given_left_out", "misprinted_given", "misprinted_total", "swapped_totals", "thinned", "two_ways"]


def two_ways(puzzle: Puzzle, seed: int) -> Broken:
    """Take givens and cages out of a sound puzzle until it has exactly two solutions."""
    parts: list[Cage | tuple[int, int]] = [*puzzle.givens, *puzzle.cages]
    for part in shuffled(parts, Random(seed)):
        less = make_puzzle(
            puzzle.kind,
            puzzle.grid,
            cages=[cage for cage in puzzle.cages if cage != part],
            givens=[given for given in puzzle.givens if given != part],
        )
        solutions = _count(less, limit=3)
        if solutions == 2:
            made = "givens and cages were taken out until exactly two solutions were left"
            return Broken(less, made, ("several-solutions",), 2)
        if solutions == 1:
            puzzle = less
    raise ValueError("no way to exactly two solutions: take another seed")


def thinned(puzzle: Puzzle, share: float, seed: int) -> Broken:
    """Keep only a share of the cages and of the givens, so that very many solutions are left."""
    rng = Random(seed)
    cages = shuffled(puzzle.cages, rng)[: round(share * len(puzzle.cages))]
    givens = shuffled(puzzle.givens, rng)[: round(share * len(puzzle.givens))]
    less = make_puzzle(puzzle.kind, puzzle.grid, cages=cages, givens=givens)
    if _count(less) != 2:
        raise ValueError("hardly any solution: keep a smaller share")
    made = f"only {len(cages)} cages and {len(givens)} givens were kept"
    return Broken(less, made, ("several-solutions",), 2)


def misprinted_total(puzzle: Puzzle, seed: int) -> Broken:
    """Change one total so that arithmetic finds nothing wrong. The cages must leave cells bare."""
    rng = Random(seed)
    for cage in shuffled(loose_cages(puzzle), rng):
        for slip in shuffled((-2, -1, 1, 2), rng):
            broken = with_total(puzzle, cage, cage.total + slip)
            if sets_of(cage, cage.total + slip, puzzle.grid) and _count(broken) == 0:
                made = f"{named(puzzle, cage)} got {cage.total + slip} for {cage.total}"
                return Broken(broken, made, ("no-solution",))
    raise ValueError("no total whose misprint leaves nothing: take another seed")


def swapped_totals(puzzle: Puzzle, seed: int) -> Broken:
    """Exchange the totals of two cages, so that the sum of all stays right."""
    loose = shuffled(loose_cages(puzzle), Random(seed))
    for one, other in ((a, b) for a in loose for b in loose if a.total < b.total):
        if sets_of(one, other.total, puzzle.grid) and sets_of(other, one.total, puzzle.grid):
            broken = with_total(with_total(puzzle, one, other.total), other, one.total)
            if _count(broken) == 0:
                made = f"{named(puzzle, one)} and {named(puzzle, other)} exchanged their totals"
                return Broken(broken, made, ("no-solution",))
    raise ValueError("no totals whose exchange leaves nothing: take another seed")


def misprinted_given(puzzle: Puzzle, seed: int) -> Broken:
    """Change one given of a classic to a digit that no other given contradicts."""
    for cell, digit in shuffled(puzzle.givens, Random(seed)):
        for other in puzzle.grid.all_digits:
            broken = with_givens(puzzle, {cell: other})
            if other != digit and not clashes(puzzle, cell, other) and _count(broken) == 0:
                made = f"{puzzle.grid.cell_name(cell)} was given {other} for {digit}"
                return Broken(broken, made, ("no-solution",))
    raise ValueError("no given whose misprint leaves nothing: take another seed")


def given_left_out(puzzle: Puzzle, seed: int) -> Broken:
    """Leave out one given of a sound puzzle so that there are several solutions."""
    for cell, digit in shuffled(puzzle.givens, Random(seed)):
        broken = puzzle.changed([Given(cell, digit)])
        if _count(broken) == 2:
            made = f"the given {digit} in {puzzle.grid.cell_name(cell)} was left out"
            return Broken(broken, made, ("several-solutions",), 2)
    raise ValueError("no given without which there are several: take another seed")


def _count(puzzle: Puzzle, limit: int = 2) -> int | None:
    return count_within(puzzle, 3000, limit)

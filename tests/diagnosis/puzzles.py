"""Puzzles that the tests of the diagnosis share: all of them drawn from a seed."""

from __future__ import annotations

from functools import cache
from random import Random

from tests.diagnosis.backtracking import count_plainly
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.neighbours import beside
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["drawn", "full_grid", "sound", "with_several"]


def full_grid(grid: Grid, random: Random) -> Filling:
    """A full grid: a plain pattern with its digits, its bands and its stacks shuffled."""
    height, width, size = grid.box_rows, grid.box_columns, grid.digits
    digits = random.sample(grid.all_digits, size)
    rows = [height * band + row for band in _order(size // height, random) for row in _order(height, random)]
    columns = [width * stack + c for stack in _order(size // width, random) for c in _order(width, random)]
    return tuple(digits[(width * (r % height) + r // height + c) % size] for r in rows for c in columns)


def _order(count: int, random: Random) -> list[int]:
    return random.sample(range(count), count)


def drawn(grid: Grid, seed: int, largest: int = 4, bare: float = 0.0) -> tuple[Puzzle, Filling]:
    """A killer grown over a full grid, with a share of its cages left out; it may have any solutions."""
    random = Random(seed)
    filling = full_grid(grid, random)
    free = set(range(grid.cell_count))
    cages = []
    while free:
        cells = [min(free)]
        size = random.randint(2, largest)
        while len(cells) < size:
            near = [c for cell in cells for c in beside(grid, cell) if c in free and c not in cells]
            near = [c for c in near if filling[c] not in {filling[cell] for cell in cells}]
            if not near:
                break
            cells.append(random.choice(sorted(near)))
        free -= set(cells)
        if random.random() >= bare:
            cages.append(Cage(tuple(cells), sum(filling[cell] for cell in cells)))
    return make_puzzle("killer", grid, cages=cages), filling


@cache
def sound(count: int, size: int = 6) -> tuple[tuple[Puzzle, Filling], ...]:
    """So many killers with exactly one solution, by the plain search."""
    found: list[tuple[Puzzle, Filling]] = []
    seed = 0
    while len(found) < count:
        puzzle, filling = drawn(Grid.square(size), seed, largest=3)
        if count_plainly(puzzle, 2) == 1:
            found.append((puzzle, filling))
        seed += 1
    return tuple(found)


@cache
def with_several(count: int, most: int, size: int = 6) -> tuple[tuple[Puzzle, int], ...]:
    """So many killers with 2 to `most` solutions, and their number by the plain search."""
    found: list[tuple[Puzzle, int]] = []
    seed = 1000
    while len(found) < count:
        puzzle, _ = drawn(Grid.square(size), seed, largest=3 + seed % 2, bare=(seed % 4) / 12)
        number = count_plainly(puzzle, most + 1)
        if 2 <= number <= most:
            found.append((puzzle, number))
        seed += 1
    return tuple(found)

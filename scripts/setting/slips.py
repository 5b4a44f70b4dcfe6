"""Slips that arithmetic alone finds: totals, sums of houses and givens that cannot be."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, combinations
from random import Random

from scripts.setting.broken import (
    Broken,
    clashes,
    loose_cages,
    named,
    sets_of,
    with_cages,
    with_givens,
    with_total,
)
from scripts.setting.cages import draw_cages, totalled
from scripts.setting.chance import shuffled
from scripts.setting.grids import full_grid
from verifier.puzzle.grid import Grid
from verifier.puzzle.neighbours import in_one_piece
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage
from verifier.puzzle.rules.house import House

__all__ = [
    "given_against_total",
    "given_twice_in_cage",
    "given_twice_in_house",
    "givens_that_miss_their_total",
    "impossible_total",
    "missed_full_sum",
    "missed_house_sum",
    "overgrown_cage",
]


def impossible_total(puzzle: Puzzle, size: int, total: int) -> Broken:
    """Give a cage of so many cells a total that no digits make. The cages must leave cells bare."""
    cage = next(c for c in loose_cages(puzzle) if len(c.cells) == size)
    made = f"{named(puzzle, cage)} got the total {total}; it had {cage.total}"
    return Broken(with_total(puzzle, cage, total), made, ("cage-total",))


def overgrown_cage(puzzle: Puzzle) -> Broken:
    """Join cages to one that has a cell more than there are digits. The cages must leave cells bare."""
    groups = chain.from_iterable(combinations(puzzle.cages, size) for size in (2, 3, 4))
    for chosen in groups:
        cells = [cell for cage in chosen for cell in cage.cells]
        if len(cells) == puzzle.grid.digits + 1 and in_one_piece(puzzle.grid, cells):
            whole = Cage(tuple(cells), sum(cage.total for cage in chosen))
            rest = [cage for cage in puzzle.cages if cage not in chosen]
            made = f"{len(chosen)} cages were joined to one of {len(cells)} cells"
            return Broken(with_cages(puzzle, [*rest, whole]), made, ("cage-size",))
    raise ValueError("no cages to join: take another seed")


def missed_full_sum(puzzle: Puzzle, slip: int) -> Broken:
    """Change one total of cages that cover the grid. None of them may cover a house alone."""
    for cage in puzzle.cages:
        if sets_of(cage, cage.total + slip, puzzle.grid) and not _given_in(puzzle, cage):
            made = f"{named(puzzle, cage)} got {cage.total + slip} for {cage.total}; the cages cover the grid"
            return Broken(with_total(puzzle, cage, cage.total + slip), made, ("full-sum",))
    raise ValueError("no total to change: take another seed")


def missed_house_sum(grid: Grid, kind: str, number: int, seed: int) -> Broken:
    """Draw cages that cover one house exactly, and some others, and change one total in the house."""
    rng = Random(seed)
    filling = full_grid(grid, rng)
    house = next(h for h in grid.houses if (h.kind, h.number) == (kind, number))
    inside = totalled(_chopped(_path(grid, house)), filling)
    others = [c for c in draw_cages(grid, filling, {2: 1, 3: 1}, rng) if not set(c.cells) & set(house.cells)]
    puzzle = make_puzzle("killer", grid, cages=inside + shuffled(others, rng)[len(others) // 4 :])
    cage = next(c for c in puzzle.cages if c in inside and sets_of(c, c.total + 1, grid))
    made = f"{named(puzzle, cage)} got {cage.total + 1} for {cage.total}; cages cover {house.name} exactly"
    return Broken(with_total(puzzle, cage, cage.total + 1), made, ("house-sum",))


def given_twice_in_house(puzzle: Puzzle, kind: str) -> Broken:
    """Repeat a given in a house of this kind, in cells that no cage holds."""
    caged = {cell for cage in puzzle.cages for cell in cage.cells}
    givens = dict(puzzle.givens)
    for house in puzzle.houses:
        empty = [cell for cell in house.cells if cell not in caged and cell not in givens]
        digits = [givens[cell] for cell in house.cells if cell in givens]
        if house.kind == kind and digits and empty:
            name, digit = puzzle.grid.cell_name(empty[0]), digits[0]
            made = f"{name} was given {digit}, which is given in {house.name} already"
            return Broken(with_givens(puzzle, {empty[0]: digit}), made, ("givens-in-houses",))
    raise ValueError("no house with a given and an empty cell: take another seed")


def given_twice_in_cage(puzzle: Puzzle) -> Broken:
    """Give two cells of a cage that share no house the same digit."""
    for cage in puzzle.cages:
        for one, other in combinations(cage.cells, 2):
            for digit in puzzle.grid.all_digits:
                free = not clashes(puzzle, one, digit) and not clashes(puzzle, other, digit)
                if free and not _share_a_house(puzzle, one, other) and not _given_in(puzzle, cage):
                    made = f"two cells of {named(puzzle, cage)} that share no house were given {digit}"
                    return Broken(with_givens(puzzle, {one: digit, other: digit}), made, ("givens-in-cages",))
    raise ValueError("no such cage: take another seed")


def givens_that_miss_their_total(puzzle: Puzzle) -> Broken:
    """Give both cells of a pair, so that they do not make its total."""
    for cage, one, other in _pairs(puzzle):
        for low, high in combinations(puzzle.grid.all_digits, 2):
            free = not clashes(puzzle, one, low) and not clashes(puzzle, other, high)
            if free and low + high == cage.total + 1:
                made = f"the cells of {named(puzzle, cage)} were given {low} and {high}"
                return Broken(with_givens(puzzle, {one: low, other: high}), made, ("givens-in-cages",))
    raise ValueError("no such pair: take another seed")


def given_against_total(puzzle: Puzzle) -> Broken:
    """Give one cell of a pair a digit that is in no combination of its total."""
    for cage, cell, _ in _pairs(puzzle):
        possible = set().union(*sets_of(cage, cage.total, puzzle.grid))
        for digit in puzzle.grid.all_digits:
            if digit not in possible and not clashes(puzzle, cell, digit):
                made = f"a cell of {named(puzzle, cage)} was given {digit}, for which its total has no room"
                return Broken(with_givens(puzzle, {cell: digit}), made, ("givens-in-cages",))
    raise ValueError("no such pair: take another seed")


def _pairs(puzzle: Puzzle) -> Iterator[tuple[Cage, int, int]]:
    for cage in puzzle.cages:
        if len(cage.cells) == 2 and not _given_in(puzzle, cage):
            yield cage, cage.cells[0], cage.cells[1]


def _given_in(puzzle: Puzzle, cage: Cage) -> bool:
    return any(cell in cage.cells for cell, _ in puzzle.givens)


def _share_a_house(puzzle: Puzzle, one: int, other: int) -> bool:
    return any(one in house.cells and other in house.cells for house in puzzle.houses)


def _path(grid: Grid, house: House) -> list[int]:
    """Return the cells of a house as a path on which neighbours share an edge: a box is walked to and fro."""
    rows: dict[int, list[int]] = {}
    for cell in house.cells:
        rows.setdefault(cell // grid.columns, []).append(cell)
    return [cell for turn, row in enumerate(rows.values()) for cell in (reversed(row) if turn % 2 else row)]


def _chopped(path: list[int]) -> list[list[int]]:
    """Cut a path into pieces of two cells, the last of two or three."""
    cuts = range(0, len(path) - 1, 2)
    return [path[cut : cut + 2] if cut + 3 < len(path) else path[cut:] for cut in cuts if cut + 1 < len(path)]

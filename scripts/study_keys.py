"""How the keys of duplicates behave on many puzzles, and how long they take.

    python -m scripts.study_keys                     1,000 killers drawn here, one disguise and twins of each
    python -m scripts.study_keys --count 100         fewer
    python -m scripts.study_keys --classics          the same with classics

Every disguise must have the key of its original; no near twin may: one total changed, two totals exchanged,
one cell in the neighbouring cage; one given changed, one given moved. Exit 1: one of them failed.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random
from statistics import median
from typing import Annotated

import typer
from rich.console import Console
from rich.progress import track

from scripts.setting.cages import draw_cages
from scripts.setting.grids import full_grid
from scripts.slips.slip import SLIPS
from verifier.likeness.filling import filling_key
from verifier.likeness.structure import structure_key
from verifier.likeness.turned import complement, turned_key
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle
from verifier.puzzle.rules.cage import Cage

__all__ = ["main"]

_SIZES = {2: 4, 3: 4, 4: 2, 5: 1}
_GIVENS = 26


def main(
    count: Annotated[int, typer.Option(help="Puzzles.")] = 1000,
    seed: Annotated[int, typer.Option(help="The same seed draws the same puzzles.")] = 1,
    classics: Annotated[bool, typer.Option("--classics", help="Classics instead of killers.")] = False,
) -> None:
    """Compare the keys of puzzles with those of their disguises and near twins."""
    grid = Grid.square(9)
    disguises = twins = 0
    seconds: list[float] = []
    for number in track(range(count), description="keys"):
        random = Random(f"{seed} {number}")
        puzzle, filling = (_classic if classics else _killer)(grid, random)
        start = time.process_time()
        key = structure_key(puzzle)
        turned_key(puzzle)
        filling_key(puzzle, filling)
        seconds.append(time.process_time() - start)
        disguises += structure_key(_disguised(puzzle, random)) == key
        twins += sum(structure_key(twin) == key for twin in _twins(puzzle, filling, random))
    console = Console(width=110)
    console.print(
        f"{disguises} of {count} disguises have the key of their original; {twins} near twins have it"
    )
    console.print(f"three keys of a puzzle: median {median(seconds):.4f} s, longest {max(seconds):.4f} s")
    raise typer.Exit(int(disguises < count or twins > 0))


def _killer(grid: Grid, random: Random) -> tuple[Puzzle, Filling]:
    filling = full_grid(grid, random)
    cages = draw_cages(grid, filling, _SIZES, random)
    return make_puzzle("killer", grid, cages=cages), filling


def _classic(grid: Grid, random: Random) -> tuple[Puzzle, Filling]:
    """Return a classic, with one solution or more: its key does not depend on that."""
    filling = full_grid(grid, random)
    cells = random.sample(range(grid.cell_count), _GIVENS)
    return make_puzzle("classic", grid, givens={cell: filling[cell] for cell in cells}), filling


def _disguised(puzzle: Puzzle, random: Random) -> Puzzle:
    """Return the puzzle with its lines shuffled, laid on its side or not, and its digits exchanged.

    Of a classic the digits are exchanged in any way; of a killer d and n + 1 - d, or none.
    """
    grid = puzzle.grid
    rows, columns = (_order(grid.rows, grid.box_rows, random), _order(grid.columns, grid.box_columns, random))
    swapped = random.random() < 0.5
    places = [
        columns[c] * grid.columns + rows[r] if swapped else rows[r] * grid.columns + columns[c]
        for r in range(grid.rows)
        for c in range(grid.columns)
    ]
    cages = [Cage(tuple(places[cell] for cell in cage.cells), cage.total) for cage in puzzle.cages]
    if puzzle.kind == "classic":
        names = random.sample(range(1, grid.digits + 1), grid.digits)
        givens = {places[cell]: names[digit - 1] for cell, digit in puzzle.givens}
        return make_puzzle("classic", grid, givens=givens)
    moved = make_puzzle("killer", grid, cages=cages)
    return complement(moved) if random.random() < 0.5 else moved


def _order(lines: int, band: int, random: Random) -> list[int]:
    bands = random.sample(range(lines // band), lines // band)
    return [band * b + line for b in bands for line in random.sample(range(band), band)]


def _twins(puzzle: Puzzle, filling: Filling, random: Random) -> Iterator[Puzzle]:
    if puzzle.kind == "classic":
        yield from _twins_of_classic(puzzle, random)
        return
    for kind in ("total", "exchange", "cell"):
        yield SLIPS[kind](puzzle, filling, random).puzzle


def _twins_of_classic(puzzle: Puzzle, random: Random) -> Iterator[Puzzle]:
    grid, givens = puzzle.grid, dict(puzzle.givens)
    cell = random.choice(sorted(givens))
    others = {digit for digit in range(1, grid.digits + 1) if digit != givens[cell]}
    empty = [other for other in range(grid.cell_count) if other not in givens]
    yield make_puzzle("classic", grid, givens={**givens, cell: random.choice(sorted(others))})
    moved = {random.choice(empty) if at == cell else at: digit for at, digit in givens.items()}
    yield make_puzzle("classic", grid, givens=moved)


if __name__ == "__main__":
    typer.run(main)

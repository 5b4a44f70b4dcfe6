"""Look for seeds: draw killers or classics from a draft and say which tier each one is.

    python -m scripts.prospect --sizes 2:3,3:3,4:1 --bare 0.2 --givens 4 --tier 5 --seeds 0-200
    python -m scripts.prospect --givens 20 --asymmetric --hardest x-wing --seeds 0-400

The second way gives cells besides, in several random orders, until the technique is the hardest of the
puzzle, and names the fewest cells that will do. The corpus holds seeds and cells, not tiers: when the ladder
changes, its puzzles stay and their recorded tiers move.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence
from random import Random

from grader.grading.grade import grade
from grader.grading.replay import replay
from grader.ladder import LADDER
from scripts.setting.broken import with_givens
from scripts.setting.classics import draw_classic
from scripts.setting.easing import eased
from scripts.setting.killers import Draft, draw_killer
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle


def main(words: Sequence[str] | None = None) -> None:
    """Print one line for each seed whose puzzle is of the tier, or can be of the technique, asked for."""
    asked = _parser().parse_args(words)
    for seed, puzzle, filling in _drawn(asked):
        besides: list[int] | None = []
        if asked.hardest:
            besides = _fewest_besides(puzzle, filling, asked.hardest, asked.orders)
        if besides is not None:
            puzzle = with_givens(puzzle, {cell: filling[cell] for cell in besides})
            _tell(seed, puzzle, besides, asked.tier)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--size", type=int, default=9, help="rows of the grid")
    parser.add_argument("--sizes", help="cells of a cage and weights, such as 2:3,3:1; absent: a classic")
    parser.add_argument("--bare", type=float, default=0.0, help="share of the cages left out")
    parser.add_argument("--givens", type=int, default=0, help="givens to begin with, or to aim at")
    parser.add_argument("--asymmetric", action="store_true", help="a classic with fewer givens")
    parser.add_argument(
        "--tries", type=int, default=2000, help="of the search for another solution (classic)"
    )
    parser.add_argument("--tier", type=int, help="print this tier alone")
    ids = [technique.id for technique in LADDER]
    parser.add_argument(
        "--hardest", choices=ids, metavar="ID", help="give cells besides, until this is hardest"
    )
    parser.add_argument("--orders", type=int, default=4, help="orders in which cells are given")
    parser.add_argument("--seeds", default="0-50", help="first and last seed")
    return parser


def _drawn(asked: argparse.Namespace) -> Iterator[tuple[int, Puzzle, Filling]]:
    first, last = (int(seed) for seed in asked.seeds.split("-"))
    grid = Grid.square(asked.size)
    for seed in range(first, last + 1):
        if asked.sizes is None:
            symmetric = not asked.asymmetric
            yield seed, *draw_classic(grid, seed, asked.givens, tries=asked.tries, symmetric=symmetric)
        else:
            sizes = {int(size): float(weight) for size, weight in _pairs(asked.sizes)}
            yield seed, *draw_killer(grid, Draft(seed, sizes, asked.bare, asked.givens))


def _pairs(text: str) -> Iterator[list[str]]:
    return (pair.split(":") for pair in text.split(","))


def _fewest_besides(puzzle: Puzzle, filling: Filling, technique: str, orders: int) -> list[int] | None:
    """Return the shortest list of cells to give, so that a technique is the hardest."""
    found = (eased(puzzle, filling, technique, Random(order)) for order in range(orders))
    return min((cells for cells in found if cells is not None), key=len, default=None)


def _tell(seed: int, puzzle: Puzzle, besides: list[int], tier: int | None) -> None:
    """Print the line of a puzzle, if it is of the tier asked for."""
    found = grade(replay(puzzle))
    if tier in (None, found.tier):
        names = " ".join(puzzle.grid.cell_name(cell) for cell in besides)
        print(
            f"seed {seed}: tier {found.tier}, {found.hardest}, effort {found.effort}, {found.rounds} rounds, "
            f"{len(puzzle.cages)} cages, {len(puzzle.givens)} givens"
            + (f", besides {names}" if names else ""),
            flush=True,
        )


if __name__ == "__main__":
    main()

"""Look for seeds: draw killers or classics from a draft and say which tier each one is.

    python -m scripts.prospect --sizes 2:3,3:3,4:1 --bare 0.2 --givens 4 --tier 5 --seeds 0-200

The corpus holds seeds, not tiers: when the ladder changes, its puzzles stay and their recorded tiers move.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence

from grader.grade import Grade, grade
from grader.replay import replay
from scripts.setting.classics import draw_classic
from scripts.setting.killers import Draft, draw_killer
from verifier.puzzle.grid import Grid
from verifier.puzzle.puzzle import Puzzle


def main(words: Sequence[str] | None = None) -> None:
    """Print one line for each seed whose puzzle is of the tier asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--size", type=int, default=9, help="rows of the grid")
    parser.add_argument("--sizes", help="cells of a cage and weights, such as 2:3,3:1; absent: a classic")
    parser.add_argument("--bare", type=float, default=0.0, help="share of the cages left out")
    parser.add_argument("--givens", type=int, default=0, help="givens to begin with, or to aim at")
    parser.add_argument("--tier", type=int, help="print this tier alone")
    parser.add_argument("--seeds", default="0-50", help="first and last seed")
    asked = parser.parse_args(words)
    for seed, puzzle in _drawn(asked):
        found = grade(replay(puzzle))
        if asked.tier in (None, found.tier):
            print(_line(seed, puzzle, found), flush=True)


def _drawn(asked: argparse.Namespace) -> Iterator[tuple[int, Puzzle]]:
    first, last = (int(seed) for seed in asked.seeds.split("-"))
    grid = Grid.square(asked.size)
    for seed in range(first, last + 1):
        if asked.sizes is None:
            yield seed, draw_classic(grid, seed, asked.givens)[0]
        else:
            sizes = {int(size): float(weight) for size, weight in _pairs(asked.sizes)}
            yield seed, draw_killer(grid, Draft(seed, sizes, asked.bare, asked.givens))[0]


def _pairs(text: str) -> Iterator[list[str]]:
    return (pair.split(":") for pair in text.split(","))


def _line(seed: int, puzzle: Puzzle, found: Grade) -> str:
    return (
        f"seed {seed}: tier {found.tier}, {found.hardest}, effort {found.effort}, {found.rounds} rounds, "
        f"{len(puzzle.cages)} cages, {len(puzzle.givens)} givens"
    )


if __name__ == "__main__":
    main()

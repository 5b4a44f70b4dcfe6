"""How the puzzles with rules of all kinds are drawn, and how a table of them becomes a folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from scripts.setting.broken import Broken, with_givens
from scripts.setting.ruled import draw_ruled
from scripts.setting.shelf import REJECTED, ShelfFile, single
from scripts.shelves.sound import slug, titled
from verifier.puzzle.grid import Filling, Grid
from verifier.puzzle.puzzle import Puzzle, make_puzzle

__all__ = ["NINE", "SIX", "Drawn", "Fault", "drawn", "drawn_files"]

SIX, NINE = Grid.square(6), Grid.square(9)

Fault = Callable[[Puzzle, int], Broken]
"""A way to break a puzzle, from a seed."""


def _plain(grid: Grid) -> Puzzle:
    return make_puzzle("classic", grid)


class Drawn(NamedTuple):
    """A line of a table.

    Parameters
    ----------
    title, setter : str
        Its credits.
    grid : Grid
        Its size.
    seed : int
        The same seed gives the same puzzle.
    clues : mapping of str to int
        How many clues of each kind.
    empty : callable
        What it begins with: houses and rules of the whole grid.
    more : int
        Givens that stay though they could go.
    besides : str
        Cells that are given besides.
    fault : Fault or None
        What is done to it in the end.
    """

    title: str
    setter: str
    grid: Grid
    seed: int
    clues: Mapping[str, int] = MappingProxyType({})
    empty: Callable[[Grid], Puzzle] = _plain
    more: int = 0
    besides: str = ""
    fault: Fault | None = None


def drawn(line: Drawn) -> tuple[Puzzle, Filling]:
    """Return the puzzle of a line before anything is done to it, and its solution."""
    puzzle, filling = draw_ruled(line.empty(line.grid), line.seed, line.clues, more=line.more)
    cells = [puzzle.grid.cell_at(name) for name in line.besides.split()]
    puzzle = with_givens(puzzle, {cell: filling[cell] for cell in cells if cell is not None})
    caged = any(rule.is_cage for rule in puzzle.rules)
    return Puzzle("killer" if caged else "classic", puzzle.grid, puzzle.rules), filling


def drawn_files(folder: str, ids: str, table: Iterable[Drawn]) -> Iterator[ShelfFile]:
    """Yield the files of a folder: the sound puzzles with their solutions."""
    for number, line in enumerate(table, start=1):
        puzzle, filling = drawn(line)
        name, id = f"{folder}/{slug(line.title)}.yaml", ids.format(number)
        if line.fault is None:
            sent = titled(puzzle, id, line.title, line.setter, filling)
            yield single(name, sent, f"drawn with one solution, from seed {line.seed}")
        else:
            broken = line.fault(puzzle, line.seed)
            sent = titled(broken.puzzle, id, line.title, line.setter)
            yield single(
                name,
                sent,
                broken.made,
                verdict=REJECTED,
                codes=broken.codes,
                solutions=broken.solutions,
            )
